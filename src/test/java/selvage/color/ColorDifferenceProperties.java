package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class ColorDifferenceProperties {
  @Provide
  Arbitrary<Lab> labs() {
    Arbitrary<Double> plane = Arbitraries.doubles().between(-120, 120).ofScale(3);
    return Combinators.combine(Arbitraries.doubles().between(0, 100).ofScale(3), plane, plane)
        .as(Lab::new);
  }

  @Property(seed = "39")
  void de00_anyColor_isZeroToItself(@ForAll("labs") Lab lab) {
    assertThat(ColorDifference.de00(lab, lab)).isZero();
  }

  @Property(seed = "39")
  void de00_anyPair_isTheSameBothWays(@ForAll("labs") Lab first, @ForAll("labs") Lab second) {
    double forth = ColorDifference.de00(first, second);
    assertThat(forth).isNotNegative();
    assertThat(ColorDifference.de00(second, first)).isCloseTo(forth, within(1e-6));
  }

  @Property(seed = "39")
  void differences_anyPair_addUp(@ForAll("labs") Lab first, @ForAll("labs") Lab second) {
    double dl = ColorDifference.dL(first, second);
    double dh = ColorDifference.dH(first, second);
    double dc = second.chroma() - first.chroma();
    assertThat(Math.sqrt(dl * dl + dh * dh + dc * dc))
        .isCloseTo(ColorDifference.de76(first, second), within(1e-6));
  }

  @Property(seed = "39")
  void toXyz_anyColor_comesBack(@ForAll("labs") Lab lab, @ForAll ReferenceWhite white) {
    Lab back = white.toLab(white.toXyz(lab));
    assertThat(ColorDifference.de76(lab, back)).isLessThan(1e-9);
  }
}
