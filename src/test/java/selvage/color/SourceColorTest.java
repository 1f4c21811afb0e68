package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import selvage.finding.InputException;

class SourceColorTest {
  private static List<double[]> values(int components) {
    Random random = new Random(17);
    List<double[]> values = new ArrayList<>();
    values.add(new double[components]);
    values.add(random.doubles(components, 1, 1.0000001).toArray());
    while (values.size() < 300) {
      values.add(random.doubles(components, 0, 1).toArray());
    }
    return values;
  }

  private static List<double[]> times(List<double[]> values, double factor) {
    return values.stream().map(row -> Arrays.stream(row).map(v -> v * factor).toArray()).toList();
  }

  static Stream<Arguments> profiles() {
    return Stream.of(
        Arguments.of("RGB curves, version 2", TestProfiles.rgb(2), 255),
        Arguments.of("RGB curves, version 4", TestProfiles.rgb(4), 255),
        Arguments.of("gray through XYZ", TestProfiles.gray("XYZ "), 255),
        Arguments.of("gray through Lab", TestProfiles.gray("Lab "), 255),
        Arguments.of("CMYK", TestProfiles.cmykVersion2(), 100));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("profiles")
  void icc_randomValues_agreesWithAnotherEngineUpToBlack(
      String kind, byte[] bytes, double full, @TempDir Path folder) throws Exception {
    Transicc.assumePresent();
    Path file = Files.write(folder.resolve("source.icc"), bytes);
    SourceColor source = SourceColor.icc("source.icc", bytes);
    List<double[]> values = values(source.components());
    List<double[]> expected = Transicc.toLab(file, Transicc.RELATIVE, times(values, full));
    assertThat(expected).hasSameSizeAs(values);
    double[] black = new double[source.components()];
    double[] white = new double[source.components()];
    Arrays.fill(source.components() == 4 ? black : white, full);
    List<double[]> ends = Transicc.toLab(file, Transicc.RELATIVE, List.of(white, black));
    XyzScale toWhite = XyzScale.toWhite(ends.get(0));
    double blackY = BlackPoint.ofLightness(ends.get(1)[0]);
    for (int i = 0; i < values.size(); i++) {
      double[] lab = expected.get(i).clone();
      toWhite.apply(lab);
      lab = BlackPoint.lower(lab[0], lab[1], lab[2], blackY);
      assertThat(source.relativeLab(values.get(i)))
          .as("Lab at %s", Arrays.toString(values.get(i)))
          .containsExactly(lab, within(0.06));
    }
  }

  @Test
  void srgb_randomValues_agreesWithAnotherEngine() throws Exception {
    Transicc.assumePresent();
    List<double[]> values = values(3);
    List<double[]> expected =
        Transicc.convert(List.of("-i*sRGB", "-o*Lab4", "-t1", "-n"), times(values, 255));
    for (int i = 0; i < values.size(); i++) {
      assertThat(SourceColor.srgb().relativeLab(values.get(i)))
          .containsExactly(expected.get(i), within(0.06));
    }
  }

  @Test
  void relativeLab_whiteOfAnySpace_isExactlyWhite() throws Exception {
    List<SourceColor> sources =
        List.of(
            SourceColor.srgb(),
            SourceColor.calGray(2.2),
            SourceColor.calRgb(
                new double[] {0.9505, 1, 1.089},
                new double[] {2.2, 2.2, 2.2},
                new double[] {
                  0.4124, 0.2126, 0.0193, 0.3576, 0.7152, 0.1192, 0.1805, 0.0722, 0.9505
                }),
            SourceColor.icc("rgb.icc", TestProfiles.rgb(2)),
            SourceColor.icc("rgb.icc", TestProfiles.rgbTable()),
            SourceColor.icc("gray.icc", TestProfiles.gray("XYZ ")));
    for (SourceColor source : sources) {
      double[] white = new double[source.components()];
      Arrays.fill(white, 1);
      assertThat(source.relativeLab(white)).containsExactly(new double[] {100, 0, 0}, within(1e-9));
      double[] lab = source.relativeLab(new double[source.components()]);
      assertThat(lab[0]).isCloseTo(0, within(0.01));
    }
  }

  @Test
  void calRgb_withTheNumbersOfSrgb_isSrgbUpToTheCurve() throws Exception {
    SourceColor calibrated =
        SourceColor.calRgb(
            new double[] {0.9505, 1, 1.089},
            new double[] {1, 1, 1},
            new double[] {0.4124, 0.2126, 0.0193, 0.3576, 0.7152, 0.1192, 0.1805, 0.0722, 0.9505});
    double linear = Math.pow((0.5 + 0.055) / 1.055, 2.4);
    assertThat(calibrated.relativeLab(linear, 1, 0))
        .containsExactly(SourceColor.srgb().relativeLab(0.5, 1, 0), within(0.05));
  }

  @Test
  void calRgb_impossibleNumbers_areRefused() {
    double[] ones = {1, 1, 1};
    assertThatThrownBy(() -> SourceColor.calRgb(ones, ones, new double[9]))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("CalRGB");
    assertThatThrownBy(() -> SourceColor.calRgb(new double[3], ones, new double[9]))
        .isInstanceOf(InputException.class);
  }

  @Test
  void lab_valuesOutsideTheRange_areKeptWithinIt() {
    SourceColor lab = SourceColor.lab(new double[] {-100, 100, -50, 50});
    assertThat(lab.low(2)).isEqualTo(-50);
    assertThat(lab.high(0)).isEqualTo(100);
    assertThat(lab.relativeLab(120, -120, 60)).containsExactly(100, -100, 50);
  }

  @Test
  void icc_notAProfile_isRefused() {
    assertThatThrownBy(() -> SourceColor.icc("object 12", new byte[300]))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("object 12: expected an ICC profile");
  }

  @Test
  void icc_damagedProfile_isRefusedOrRead() {
    Random random = new Random(5);
    byte[][] profiles = {TestProfiles.rgb(4), TestProfiles.rgbTable(), TestProfiles.gray("XYZ ")};
    for (int i = 0; i < 600; i++) {
      byte[] profile = profiles[i % 3].clone();
      for (int damage = 0; damage < 3; damage++) {
        profile[random.nextInt(Math.min(profile.length, 500))] = (byte) random.nextInt(256);
      }
      try {
        SourceColor source = SourceColor.icc("object 12", profile);
        for (double value : source.relativeLab(new double[source.components()])) {
          assertThat(value).isFinite();
        }
      } catch (InputException e) {
        assertThat(e).hasMessageStartingWith("object 12: expected ");
      }
    }
  }
}
