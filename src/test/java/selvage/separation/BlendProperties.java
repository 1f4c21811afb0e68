package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.FloatRange;
import org.assertj.core.data.Offset;

class BlendProperties {
  private static final Offset<Float> NEAR = Offset.offset(1e-5f);

  @Property(tries = 500, seed = "21")
  void of_anySeparableMode_staysBetweenBlackAndWhite(
      @ForAll Blend blend,
      @ForAll @FloatRange(min = 0, max = 1) float b,
      @ForAll @FloatRange(min = 0, max = 1) float s) {
    if (blend.isSeparable()) {
      assertThat(blend.of(b, s)).isBetween(-1e-6f, 1 + 1e-6f);
    }
  }

  @Property(tries = 200, seed = "22")
  void of_whiteOrBlack_leavesTheOtherWhereTheModeSaysSo(
      @ForAll @FloatRange(min = 0, max = 1) float c) {
    assertThat(Blend.MULTIPLY.of(c, 1)).isEqualTo(c);
    assertThat(Blend.MULTIPLY.of(1, c)).isEqualTo(c);
    assertThat(Blend.DARKEN.of(c, 1)).isEqualTo(c);
    assertThat(Blend.COLOR_BURN.of(c, 1)).isCloseTo(c, NEAR);
    assertThat(Blend.SCREEN.of(c, 0)).isEqualTo(c);
    assertThat(Blend.LIGHTEN.of(c, 0)).isEqualTo(c);
    assertThat(Blend.COLOR_DODGE.of(c, 0)).isEqualTo(c);
    assertThat(Blend.DIFFERENCE.of(c, 0)).isEqualTo(c);
    assertThat(Blend.EXCLUSION.of(c, 0)).isEqualTo(c);
    assertThat(Blend.SOFT_LIGHT.of(c, 0.5f)).isCloseTo(c, NEAR);
    assertThat(Blend.DIFFERENCE.of(c, c)).isZero();
  }

  @Property(tries = 200, seed = "23")
  void of_symmetricModes_doNotCareWhichIsUnder(
      @ForAll @FloatRange(min = 0, max = 1) float b,
      @ForAll @FloatRange(min = 0, max = 1) float s) {
    for (Blend blend :
        new Blend[] {
          Blend.MULTIPLY,
          Blend.SCREEN,
          Blend.DARKEN,
          Blend.LIGHTEN,
          Blend.DIFFERENCE,
          Blend.EXCLUSION
        }) {
      assertThat(blend.of(b, s)).as(blend.name()).isCloseTo(blend.of(s, b), NEAR);
    }
    assertThat(Blend.OVERLAY.of(b, s)).isEqualTo(Blend.HARD_LIGHT.of(s, b));
  }

  @Property(tries = 300, seed = "24")
  void of_nonSeparableModes_haveTheLuminosityThatTheyTake(
      @ForAll @FloatRange(min = 0, max = 1) float r,
      @ForAll @FloatRange(min = 0, max = 1) float g,
      @ForAll @FloatRange(min = 0, max = 1) float b,
      @ForAll @FloatRange(min = 0, max = 1) float x) {
    float[] under = {r, g, b};
    float[] source = {g, x, r};
    float[] out = new float[3];
    for (Blend blend : new Blend[] {Blend.HUE, Blend.SATURATION, Blend.COLOR, Blend.LUMINOSITY}) {
      blend.of(under, source, out);
      float wanted = Blend.luminosity(blend == Blend.LUMINOSITY ? source : under);
      assertThat(Blend.luminosity(out)).as(blend.name()).isCloseTo(wanted, Offset.offset(1e-4f));
      for (float c : out) {
        assertThat(c).as(blend.name()).isBetween(-1e-4f, 1 + 1e-4f);
      }
    }
  }
}
