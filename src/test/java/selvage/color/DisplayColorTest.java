package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

class DisplayColorTest {
  private final DisplayColor display = new DisplayColor();

  @Test
  void encode_ofNodesOfPublishedData_agreesWithAnIndependentComputation() {
    ReferenceCondition condition = ReferenceConditions.defaultCondition();
    for (double[] row :
        ReferenceTable.read(
            "fogra39-srgb.csv", "cyan", "magenta", "yellow", "black", "red", "green", "blue")) {
      Lab lab = condition.aim(row[0], row[1], row[2], row[3]).lab();
      assertCode(lab, row[4], row[5], row[6]);
    }
  }

  @Test
  void encode_ofRandomColors_agreesWithAnIndependentEngine() throws Exception {
    Transicc.assumePresent();
    Random random = new Random(5);
    List<double[]> colors = new ArrayList<>();
    for (int i = 0; i < 400; i++) {
      colors.add(
          new double[] {
            100 * random.nextDouble(),
            160 * random.nextDouble() - 80,
            160 * random.nextDouble() - 80
          });
    }
    List<double[]> expected =
        Transicc.convert(List.of("-i*Lab4", "-o*sRGB", "-t" + Transicc.RELATIVE, "-n"), colors);
    assertThat(expected).hasSameSizeAs(colors);
    for (int i = 0; i < colors.size(); i++) {
      double[] lab = colors.get(i);
      double[] rgb = expected.get(i);
      // The engine goes beyond what a display can show; a picture can't.
      for (int c = 0; c < 3; c++) {
        rgb[c] = Math.max(0, Math.min(255, rgb[c]));
      }
      assertCode(new Lab(lab[0], lab[1], lab[2]), rgb[0], rgb[1], rgb[2]);
    }
  }

  @Test
  void encode_ofEverySrgbColorInSteps_returnsItsCode() {
    SourceColor srgb = SourceColor.srgb();
    for (int red = 0; red < 256; red += 15) {
      for (int green = 0; green < 256; green += 15) {
        for (int blue = 0; blue < 256; blue += 15) {
          double[] lab = srgb.relativeLab(red / 255.0, green / 255.0, blue / 255.0);
          assertThat(codes(lab[0], lab[1], lab[2])).containsExactly(red, green, blue);
        }
      }
    }
  }

  @Test
  void encode_ofSeveralRows_putsThemWhereAsked() {
    byte[] rgb = new byte[9];
    display.encode(new float[] {100, 0, 0, 0, 0, 0}, 2, rgb, 3);
    assertThat(rgb).containsExactly(0, 0, 0, 255, 255, 255, 0, 0, 0);
  }

  private void assertCode(Lab lab, double red, double green, double blue) {
    int[] codes = codes(lab.l(), lab.a(), lab.b());
    Offset<Double> one = Offset.offset(1.0);
    assertThat((double) codes[0]).as("red of %s", lab).isCloseTo(red, one);
    assertThat((double) codes[1]).as("green of %s", lab).isCloseTo(green, one);
    assertThat((double) codes[2]).as("blue of %s", lab).isCloseTo(blue, one);
  }

  private int[] codes(double l, double a, double b) {
    byte[] rgb = new byte[3];
    display.encode(new float[] {(float) l, (float) a, (float) b}, 1, rgb, 0);
    return new int[] {rgb[0] & 0xFF, rgb[1] & 0xFF, rgb[2] & 0xFF};
  }
}
