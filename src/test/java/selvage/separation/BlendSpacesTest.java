package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import selvage.color.ProcessSeparation;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.color.SourceColor;
import selvage.ink.Tint;

/** Which colours of RGB groups are converted exactly, and how far the others may be off. */
class BlendSpacesTest {
  private final ReferenceCondition condition = ReferenceConditions.defaultCondition();
  private final BlendSpaces spaces = new BlendSpaces(new ProcessLinks(condition, null));

  private static char[] row(ObjectKind kind, float... rgb) {
    char[] row = new char[StateTable.INKS + 4];
    row[StateTable.KINDS] = (char) kind.bit();
    row[StateTable.ALPHA] = Tint.FULL;
    BlendSpaces.writeRgb(row, rgb);
    return row;
  }

  private char[] converted(char[] row) {
    spaces.convert(row, Layer.Blending.RGB, Layer.Blending.CMYK);
    return row;
  }

  private float[] exact(float... rgb) {
    float[] cmyk = new float[4];
    new ProcessSeparation(SourceColor.srgb(), condition).separate(rgb, cmyk);
    return cmyk;
  }

  @Test
  void convert_flatColor_isExactEachTime() {
    float[] rgb = {0.31f, 0.62f, 0.11f};
    float[] expected = exact(rgb);
    for (int time = 0; time < 2; time++) {
      char[] row = converted(row(ObjectKind.FILL, rgb));
      for (int i = 0; i < 4; i++) {
        assertThat((int) row[StateTable.INKS + i])
            .isBetween(Tint.ofFraction(expected[i]) - 1, Tint.ofFraction(expected[i]) + 1);
      }
    }
  }

  @Test
  void convert_imageColorOnTheGrid_isExact() {
    float[] rgb = {0.25f, 0.5f, 0.75f};
    float[] expected = exact(rgb);
    char[] row = converted(row(ObjectKind.IMAGE, rgb));
    for (int i = 0; i < 4; i++) {
      assertThat((int) row[StateTable.INKS + i])
          .isBetween(Tint.ofFraction(expected[i]) - 2, Tint.ofFraction(expected[i]) + 2);
    }
  }

  @Test
  void convert_imageColor_isThatOfTheSameImageOnInk() {
    byte[] pixel = {77, (byte) 200, 31};
    char[] expected = new char[4];
    new ProcessSeparation(SourceColor.srgb(), condition).separate(pixel, 0, 1, expected);

    char[] row = converted(row(ObjectKind.IMAGE, 77 / 255f, 200 / 255f, 31 / 255f));

    for (int i = 0; i < 4; i++) {
      assertThat(row[StateTable.INKS + i]).isEqualTo(expected[i]);
    }
  }

  @Test
  void convert_grayToInk_isBlackAlone() {
    char[] row = new char[StateTable.INKS + 4];
    BlendSpaces.writeGray(row, new float[] {0.5f, 0.5f, 0.5f});

    spaces.convert(row, Layer.Blending.GRAY, Layer.Blending.CMYK);

    assertThat(row)
        .containsExactly((char) 0, (char) 0, (char) 0, (char) 0, (char) 0, (char) 25_500);
  }

  @Test
  void convert_thousandsOfFlatColors_staysBoundedAndNear() {
    for (int i = 0; i < 5000; i++) {
      converted(row(ObjectKind.FILL, i / 5000f, 0.4f, 0.3f));
    }
    float[] expected = exact(0.9995f, 0.4f, 0.3f);
    char[] row = converted(row(ObjectKind.FILL, 0.9995f, 0.4f, 0.3f));
    for (int i = 0; i < 4; i++) {
      assertThat((int) row[StateTable.INKS + i])
          .isBetween(Tint.ofFraction(expected[i]) - 510, Tint.ofFraction(expected[i]) + 510);
    }
  }
}
