package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;

class SeparationProperties {
  private final ReferenceCondition condition = ReferenceConditions.defaultCondition();
  private final Xyz paper = ReferenceWhite.ISO_13655.toXyz(condition.paper());

  /** The colour that tints print, relative to paper, by the forward model. */
  private Lab printed(float[] cmyk) {
    Lab lab = condition.aim(100 * cmyk[0], 100 * cmyk[1], 100 * cmyk[2], 100 * cmyk[3]).lab();
    Xyz xyz = ReferenceWhite.ISO_13655.toXyz(lab);
    Xyz white = ReferenceWhite.ISO_13655.xyz();
    return ReferenceWhite.ISO_13655.toLab(
        new Xyz(
            xyz.x() / paper.x() * white.x(),
            xyz.y() / paper.y() * white.y(),
            xyz.z() / paper.z() * white.z()));
  }

  /** What a colour becomes when L* 0 is the condition's darkest. */
  private Lab wanted(Lab relative) {
    double black = printed(condition.separate(new Lab(0, 0, 0))).l();
    double[] lab =
        BlackPoint.raise(
            relative.l(), relative.a(), relative.b(), ReferenceWhite.inverse((black + 16) / 116));
    return new Lab(lab[0], lab[1], lab[2]);
  }

  @Property(tries = 300, seed = "39")
  void separate_anyColor_keepsWithinTheInkLimit(
      @ForAll @DoubleRange(min = -5, max = 105) double l,
      @ForAll @DoubleRange(min = -130, max = 130) double a,
      @ForAll @DoubleRange(min = -130, max = 130) double b) {
    float[] cmyk = condition.separate(new Lab(l, a, b));
    assertThat(cmyk).hasSize(4);
    float sum = 0;
    for (float tint : cmyk) {
      assertThat(tint).isBetween(0f, 1f);
      sum += tint;
    }
    assertThat(sum).isLessThanOrEqualTo(3.1001f);
  }

  @Property(tries = 300, seed = "39")
  void separate_gray_printsThatGray(@ForAll @DoubleRange(min = 1, max = 100) double l) {
    Lab gray = new Lab(l, 0, 0);
    assertThat(ColorDifference.de00(wanted(gray), printed(condition.separate(gray))))
        .isLessThan(0.25); // node aims against the model between them: up to 0.2
  }

  @Property(tries = 300, seed = "39")
  void separate_printableColor_printsIt(
      @ForAll @DoubleRange(min = 0, max = 0.8) double c,
      @ForAll @DoubleRange(min = 0, max = 0.8) double m,
      @ForAll @DoubleRange(min = 0, max = 0.8) double y) {
    double[] cmyk = new double[4];
    new BlackGeneration(new double[] {0.8, 0.7, 0.6}).apply(new double[] {c, m, y}, cmyk);
    Lab lab =
        printed(new float[] {(float) cmyk[0], (float) cmyk[1], (float) cmyk[2], (float) cmyk[3]});
    double black = printed(condition.separate(new Lab(0, 0, 0))).l();
    double[] lowered =
        BlackPoint.lower(lab.l(), lab.a(), lab.b(), ReferenceWhite.inverse((black + 16) / 116));
    Lab relative = new Lab(lowered[0], lowered[1], lowered[2]);
    assertThat(ColorDifference.de00(lab, printed(condition.separate(relative)))).isLessThan(0.8);
  }

  @Property(tries = 200, seed = "39")
  void separate_outOfGamut_keepsHue(
      @ForAll @DoubleRange(min = 25, max = 85) double l,
      @ForAll @DoubleRange(min = 0, max = 360) double hue) {
    double radians = Math.toRadians(hue);
    Lab vivid = new Lab(l, 120 * Math.cos(radians), 120 * Math.sin(radians));
    Lab printed = printed(condition.separate(vivid));
    double turn = Math.toDegrees(Math.atan2(printed.b(), printed.a())) - hue;
    double away = Math.abs(((turn % 360) + 540) % 360 - 180);
    assertThat(away).as("hue %s of %s became %s", hue, vivid, printed).isLessThan(25);
    assertThat(printed.chroma()).isLessThan(vivid.chroma());
  }

  @Property(tries = 20, seed = "39")
  void separate_sameColorTwice_isTheSame(
      @ForAll @DoubleRange(min = 0, max = 100) double l,
      @ForAll @DoubleRange(min = -80, max = 80) double a) {
    assertThat(ReferenceConditions.defaultCondition().separate(new Lab(l, a, 10)))
        .isEqualTo(condition.separate(new Lab(l, a, 10)));
  }
}
