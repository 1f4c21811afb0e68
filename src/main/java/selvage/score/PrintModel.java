package selvage.score;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceWhite;
import selvage.color.SpotInk;
import selvage.color.Xyz;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * What a sheet looks like when causes are at work: the reference condition, moved.
 *
 * <ul>
 *   <li>Tone value: tints move along t + 4·d·t·(1 − t), d the change at 50 %.
 *   <li>Density: by Murray and Davies [murray1936] the reflectance of a tint a is that of the paper
 *       times (1 − a) + a·r, r the solid's over the paper's. A solid whose density changes by the
 *       part p has r^(1+p) instead; X, Y and Z are multiplied by the ratio of the two.
 *   <li>Paper: X, Y, Z of everything are multiplied by the new paper's over the old one's.
 *   <li>Recipe: a spot ink's solid moves in CIELAB, its tints in proportion.
 *   <li>Hue and cast: a*, b* turn about the neutral axis; all colours move in CIELAB.
 * </ul>
 *
 * <p>Parameters stand in one array: first the causes' own in the order of {@link #causes()}.
 * Immutable.
 */
final class PrintModel {
  private static final ReferenceWhite WHITE = ReferenceWhite.ISO_13655;
  private static final double LEAST_RATIO = 1e-6;

  private final ReferenceCondition condition;
  private final Map<String, SpotInk> spots;
  private final List<Colorant> inks;
  private final List<Cause> causes;
  private final int[] offsets;
  private final int parameters;
  private final AimModel sound;
  private final double[][] solids; // an ink: X, Y, Z of the solid over the paper's
  private final Lab paper;

  /**
   * A model of a sheet.
   *
   * @param condition of the process inks
   * @param spots by the colorant's name
   */
  PrintModel(ReferenceCondition condition, Map<String, SpotInk> spots) {
    this.condition = condition;
    this.spots = new TreeMap<>(spots);
    this.inks = new ArrayList<>(Colorant.PROCESS);
    this.spots.keySet().forEach(name -> inks.add(Colorant.named(name)));
    this.sound = new AimModel(condition, spots);
    this.paper = condition.paper();
    this.causes = listCauses();
    this.offsets = new int[causes.size()];
    int at = 0;
    for (int i = 0; i < offsets.length; i++) {
      offsets[i] = at;
      at += causes.get(i).kind().parameters();
    }
    this.parameters = at;
    Xyz white = WHITE.toXyz(paper);
    this.solids = new double[inks.size()][];
    for (int ink = 0; ink < solids.length; ink++) {
      Xyz solid = WHITE.toXyz(sound.aim(InkMixture.of(inks.get(ink), 100)).lab());
      solids[ink] =
          new double[] {
            Math.max(LEAST_RATIO, solid.x() / white.x()),
            Math.max(LEAST_RATIO, solid.y() / white.y()),
            Math.max(LEAST_RATIO, solid.z() / white.z())
          };
    }
  }

  private List<Cause> listCauses() {
    List<Cause> all = new ArrayList<>();
    for (Cause.Kind kind : Cause.Kind.values()) {
      switch (kind) {
        case TONE, DENSITY -> inks.forEach(ink -> all.add(new Cause(kind, ink.name())));
        case PAPER, CAST, HUE -> all.add(new Cause(kind, ""));
        case RECIPE -> spots.keySet().forEach(name -> all.add(new Cause(kind, name)));
      }
    }
    return List.copyOf(all);
  }

  /** The inks of a row of tints: process inks in their order, then the spots by name. */
  List<Colorant> inks() {
    return inks;
  }

  /** All causes that the model knows. */
  List<Cause> causes() {
    return causes;
  }

  /** Where a cause's parameters begin. */
  int offset(int cause) {
    return offsets[cause];
  }

  /** Which ink a cause moves; −1 where it concerns the whole sheet. */
  int inkOf(Cause cause) {
    for (int ink = 0; ink < inks.size(); ink++) {
      if (inks.get(ink).name().equals(cause.ink())) {
        return ink;
      }
    }
    return -1;
  }

  /** How many parameters there are. */
  int parameters() {
    return parameters;
  }

  /** The tints of mixtures, row by row, as fractions, one column an ink. */
  double[] tints(List<InkMixture> mixtures) {
    double[] tints = new double[mixtures.size() * inks.size()];
    for (int row = 0; row < mixtures.size(); row++) {
      InkMixture mixture = mixtures.get(row);
      for (int ink = 0; ink < inks.size(); ink++) {
        tints[row * inks.size() + ink] = (double) mixture.units(inks.get(ink)) / Tint.FULL;
      }
    }
    return tints;
  }

  /**
   * The colours of a print.
   *
   * @param parameters how far each cause is at work: fractions, CIELAB units, radians
   * @param tints row by row, fractions, one column an ink
   * @return L*, a*, b* a row
   */
  double[] print(double[] parameters, double[] tints) {
    double[] moved = moved(parameters, tints);
    return finished(parameters, moved, aims(parameters, moved));
  }

  /** The tints after the change of tone value. */
  double[] moved(double[] parameters, double[] tints) {
    int columns = inks.size();
    double[] moved = tints.clone();
    for (int i = 0; i < moved.length; i++) {
      double change = parameters[i % columns];
      double t = moved[i];
      if (change != 0 && t > 0 && t < 1) {
        moved[i] = Math.min(1, Math.max(0, t + 4 * change * t * (1 - t)));
      }
    }
    return moved;
  }

  /** The colours of tints, with spot inks of changed recipe. */
  double[] aims(double[] parameters, double[] moved) {
    int columns = inks.size();
    int rows = moved.length / columns;
    char[] units = new char[moved.length];
    for (int i = 0; i < units.length; i++) {
      units[i] = (char) Tint.ofFraction(moved[i]);
    }
    float[] lab = new float[3 * rows];
    model(parameters).aims(inks, units, lab, new AimSource[rows]);
    double[] labs = new double[lab.length];
    for (int i = 0; i < labs.length; i++) {
      labs[i] = lab[i];
    }
    return labs;
  }

  private AimModel model(double[] parameters) {
    Map<String, SpotInk> shifted = new HashMap<>(spots);
    boolean changed = false;
    for (int cause = causes.size() - 1; cause >= 0; cause--) {
      if (causes.get(cause).kind() != Cause.Kind.RECIPE) {
        break;
      }
      int at = offsets[cause];
      double l = parameters[at];
      double a = parameters[at + 1];
      double b = parameters[at + 2];
      if (l != 0 || a != 0 || b != 0) {
        changed = true;
        shifted.computeIfPresent(causes.get(cause).ink(), (name, ink) -> shifted(ink, l, a, b));
      }
    }
    return changed ? new AimModel(condition, shifted) : sound;
  }

  private static SpotInk shifted(SpotInk ink, double l, double a, double b) {
    NavigableMap<Double, Lab> ramp = new TreeMap<>();
    ink.ramp()
        .forEach(
            (tint, lab) -> {
              double part = tint / 100;
              ramp.put(
                  tint,
                  new Lab(Math.max(0, lab.l() + part * l), lab.a() + part * a, lab.b() + part * b));
            });
    return new SpotInk(ink.name(), ramp, ink.source());
  }

  /** Density, paper, hue and cast laid over the colours of the moved tints. */
  double[] finished(double[] parameters, double[] moved, double[] labs) {
    int columns = inks.size();
    int paperAt = 2 * columns;
    int castAt = paperAt + 3;
    double cos = Math.cos(parameters[castAt + 3]);
    double sin = Math.sin(parameters[castAt + 3]);
    double[] sheet = sheetFactors(parameters, paperAt);
    double[][] powers = new double[columns][];
    boolean thicker = false;
    for (int ink = 0; ink < columns; ink++) {
      double change = parameters[columns + ink];
      if (change != 0) {
        thicker = true;
        powers[ink] = new double[3];
        for (int axis = 0; axis < 3; axis++) {
          powers[ink][axis] = Math.pow(solids[ink][axis], 1 + change);
        }
      }
    }
    double[] out = labs.clone();
    double[] factors = new double[3];
    for (int row = 0; row < labs.length / 3; row++) {
      if (sheet != null || thicker) {
        for (int axis = 0; axis < 3; axis++) {
          factors[axis] = sheet == null ? 1 : sheet[axis];
        }
        for (int ink = 0; ink < columns; ink++) {
          double a = moved[row * columns + ink];
          if (powers[ink] != null && a > 0) {
            for (int axis = 0; axis < 3; axis++) {
              factors[axis] *= (1 - a + a * powers[ink][axis]) / (1 - a + a * solids[ink][axis]);
            }
          }
        }
        ReferenceWhite.multiply(out, row, factors);
      }
      double a = out[3 * row + 1];
      double b = out[3 * row + 2];
      out[3 * row] += parameters[castAt];
      out[3 * row + 1] = a * cos - b * sin + parameters[castAt + 1];
      out[3 * row + 2] = a * sin + b * cos + parameters[castAt + 2];
    }
    return out;
  }

  private double[] sheetFactors(double[] parameters, int at) {
    if (parameters[at] == 0 && parameters[at + 1] == 0 && parameters[at + 2] == 0) {
      return null;
    }
    Xyz before = WHITE.toXyz(paper);
    Xyz after =
        WHITE.toXyz(
            new Lab(
                Math.max(0, paper.l() + parameters[at]),
                paper.a() + parameters[at + 1],
                paper.b() + parameters[at + 2]));
    return new double[] {after.x() / before.x(), after.y() / before.y(), after.z() / before.z()};
  }
}
