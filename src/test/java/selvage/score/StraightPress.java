package selvage.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.SpotInk;
import selvage.ink.InkMixture;

/**
 * An invented press that can be reckoned by hand: each process ink moves L*, a*, b* in proportion
 * to its tint, whatever lies beneath, and so do the two spot inks where they stand alone.
 */
final class StraightPress implements ReferenceCondition {
  static final Lab PAPER = new Lab(95, 0, -2);

  /** What a solid of C, M, Y, K moves. */
  static final double[][] SOLIDS = {{-40, -35, -45}, {-45, 70, 0}, {-6, -5, 90}, {-77, 0, 2}};

  static final Lab RED = new Lab(45, 60, 38);
  static final Lab PINE = new Lab(35, -25, -6);

  private static final StraightPress PRESS = new StraightPress();

  private StraightPress() {}

  /** A model of the press: inks C, M, Y, K, Dune Red, Night Pine. */
  static PrintModel model() {
    return new PrintModel(
        PRESS,
        Map.of(
            "Night Pine",
            SpotInk.ofSolid("Night Pine", PINE, AimSource.LIBRARY),
            "Dune Red",
            SpotInk.ofSolid("Dune Red", RED, AimSource.LIBRARY)));
  }

  static StraightPress condition() {
    return PRESS;
  }

  /** Paper, each ink at 25, 50, 75 and 100 %, and five overprints. */
  static List<InkMixture> mixtures() {
    List<InkMixture> mixtures = new ArrayList<>();
    mixtures.add(InkMixture.PAPER);
    for (String ink : ProofFixture.INKS) {
      for (double tint : new double[] {25, 50, 75, 100}) {
        mixtures.add(one(ink, tint));
      }
    }
    mixtures.add(InkMixture.cmyk(40, 30, 30, 0));
    mixtures.add(InkMixture.cmyk(20, 0, 60, 0));
    mixtures.add(InkMixture.cmyk(0, 60, 50, 10));
    mixtures.add(InkMixture.ofPercents(Map.of("Dune Red", 60.0, "Black", 20.0)));
    mixtures.add(InkMixture.ofPercents(Map.of("Dune Red", 30.0, "Night Pine", 40.0)));
    return mixtures;
  }

  static InkMixture one(String ink, double tintPercent) {
    return InkMixture.ofPercents(Map.of(ink, tintPercent));
  }

  /** Parameters of a model where one cause is at work. */
  static double[] at(PrintModel model, Cause.Kind kind, String ink, double... values) {
    double[] parameters = new double[model.parameters()];
    System.arraycopy(
        values,
        0,
        parameters,
        model.offset(model.causes().indexOf(new Cause(kind, ink))),
        values.length);
    return parameters;
  }

  /** What these parameters move: printed less sound. */
  static double[] errors(PrintModel model, double[] parameters, double[] tints) {
    double[] errors = model.print(parameters, tints);
    double[] sound = model.print(new double[model.parameters()], tints);
    for (int i = 0; i < errors.length; i++) {
      errors[i] -= sound[i];
    }
    return errors;
  }

  @Override
  public String name() {
    return "STRAIGHT";
  }

  @Override
  public Origin origin() {
    return Origin.FILE;
  }

  @Override
  public Aim aim(double c, double m, double y, double k) {
    double[] percents = {c, m, y, k};
    double[] lab = {PAPER.l(), PAPER.a(), PAPER.b()};
    for (int ink = 0; ink < 4; ink++) {
      for (int axis = 0; axis < 3; axis++) {
        lab[axis] += percents[ink] / 100 * SOLIDS[ink][axis];
      }
    }
    return new Aim(new Lab(lab[0], lab[1], lab[2]), AimSource.CONDITION);
  }

  /** Corrections and recipes only ever ask what a mixture prints: whoever separates, errs. */
  @Override
  public float[] separate(Lab relative) {
    throw new UnsupportedOperationException("the press prints mixtures alone");
  }
}
