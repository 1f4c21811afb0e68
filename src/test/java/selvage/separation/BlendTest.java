package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Blend functions at points worked out by hand from ISO 32000-2, 11.3.5.2 and 11.3.5.3. */
class BlendTest {
  private static final Offset<Float> EXACT = Offset.offset(1e-6f);

  @ParameterizedTest
  @CsvSource({
    "NORMAL,      0.5,  0.25, 0.25",
    "MULTIPLY,    0.5,  0.5,  0.25",
    "SCREEN,      0.25, 0.5,  0.625",
    "OVERLAY,     0.25, 0.5,  0.25",
    "OVERLAY,     0.75, 0.5,  0.75",
    "OVERLAY,     0.75, 0.25, 0.625",
    "DARKEN,      0.75, 0.25, 0.25",
    "LIGHTEN,     0.75, 0.25, 0.75",
    "COLOR_DODGE, 0.25, 0.5,  0.5",
    "COLOR_DODGE, 0.75, 0.5,  1",
    "COLOR_DODGE, 0,    1,    0",
    "COLOR_DODGE, 0.25, 1,    1",
    "COLOR_BURN,  0.75, 0.5,  0.5",
    "COLOR_BURN,  1,    0,    1",
    "COLOR_BURN,  0.5,  0,    0",
    "COLOR_BURN,  0.25, 0.5,  0",
    "HARD_LIGHT,  0.5,  0.25, 0.25",
    "HARD_LIGHT,  0.5,  0.75, 0.75",
    "SOFT_LIGHT,  0.25, 0.25, 0.15625",
    "SOFT_LIGHT,  0.25, 0.75, 0.375",
    "SOFT_LIGHT,  0.64, 0.75, 0.72",
    "SOFT_LIGHT,  0.64, 0.5,  0.64",
    "DIFFERENCE,  0.75, 0.25, 0.5",
    "DIFFERENCE,  0.25, 0.75, 0.5",
    "EXCLUSION,   0.5,  0.25, 0.5",
    "EXCLUSION,   1,    0.25, 0.75"
  })
  void of_separableMode_followsItsFormula(Blend blend, float b, float s, float expected) {
    assertThat(blend.of(b, s)).isCloseTo(expected, EXACT);
  }

  @ParameterizedTest
  @CsvSource({
    // The source's hue and saturation with the luminosity 0.5: 1.2, 0.2, 0.2 is clipped to 1.
    "COLOR,      0.5, 0.5, 0.5,  1,   0,   0,    1,     0.285714, 0.285714",
    "LUMINOSITY, 1,   0,   0,    0.5, 0.5, 0.5,  1,     0.285714, 0.285714",
    // A gray source takes all saturation: 0.3·0.8 + 0.59·0.4 + 0.11·0.2.
    "SATURATION, 0.8, 0.4, 0.2,  0.5, 0.5, 0.5,  0.498, 0.498,    0.498",
    // A gray backdrop has no saturation to give.
    "HUE,        0.3, 0.3, 0.3,  1,   0,   0,    0.3,   0.3,      0.3",
    // Black over anything by luminosity is black.
    "LUMINOSITY, 0.8, 0.4, 0.2,  0,   0,   0,    0,     0,        0"
  })
  void of_nonSeparableMode_followsItsFormula(
      Blend blend,
      float b0,
      float b1,
      float b2,
      float s0,
      float s1,
      float s2,
      float r0,
      float r1,
      float r2) {
    float[] out = new float[3];
    blend.of(new float[] {b0, b1, b2}, new float[] {s0, s1, s2}, out);
    assertThat(out).containsExactly(new float[] {r0, r1, r2}, Offset.offset(1e-5f));
  }

  @Test
  void ofPdfName_names_areThoseOfTheStandard() {
    assertThat(Blend.ofPdfName("ColorDodge")).isEqualTo(Blend.COLOR_DODGE);
    assertThat(Blend.ofPdfName("Compatible")).isEqualTo(Blend.NORMAL);
    assertThat(Blend.ofPdfName("Dissolve")).isNull();
  }

  /** ISO 32000-2, 11.7.4.2: separable and white-preserving modes only. */
  @Test
  void reachesSpots_modes_areThoseThatKeepWhite() {
    for (Blend blend : Blend.values()) {
      boolean keepsWhite = blend.isSeparable() && blend.of(1, 1) == 1;
      assertThat(blend.reachesSpots()).as(blend.name()).isEqualTo(keepsWhite);
    }
  }
}
