package selvage.color;

import java.util.Arrays;
import selvage.ink.Tint;

/**
 * Colour between the nodes of a data set: a cellular Yule–Nielsen-modified Neugebauer model with n
 * = 2 [yule1951, heuberger1992]. The square roots of X/Xn, Y/Yn and Z/Zn are mixed multilinearly
 * (Demichel's weights) in the cell of the C × M × Y grid below and in the one above the tint of
 * black, then along black. Within a cell a tint's share follows the single ink's own ramp.
 *
 * <p>Data sets differ in the grids they hold. Tints of black without a full grid are left out.
 * Where no grid is found at 0 % or at 100 % black, its eight corners stand in: measured where the
 * data have them, else the product of the single inks' reflectances over paper. If the grid without
 * black has fewer than {@value #FINE} tints an axis, the model's error at the nodes is carried to
 * the tints between them, weighted by distance, so that every node is met.
 */
final class CellularModel {
  private static final int FINE = 4;

  private final GridLevel[] levels;
  private final ToneCurve blackCurve;
  private final ResidualField residuals; // null where the grids suffice

  private CellularModel(GridLevel[] levels, ToneCurve blackCurve, ResidualField residuals) {
    this.levels = levels;
    this.blackCurve = blackCurve;
    this.residuals = residuals;
  }

  /**
   * Builds the model.
   *
   * @param data holds paper and the four solids
   */
  static CellularModel of(CharacterizationData data) {
    double[] roots = roots(data);
    double[] blacks = FullGrid.blacks(data);
    GridLevel[] levels = new GridLevel[blacks.length + 2];
    int count = 0;
    for (double black : blacks) {
      FullGrid grid = FullGrid.find(data, black);
      if (grid != null) {
        levels[count++] = level(data, roots, grid);
      } else if (black == 0 || black == 100) {
        levels[count++] = corners(data, roots, black);
      }
    }
    levels = Arrays.copyOf(levels, count);
    double[] axis = new double[count];
    for (int i = 0; i < count; i++) {
      axis[i] = levels[i].black();
    }
    CellularModel plain = new CellularModel(levels, curve(data, roots, 3, axis), null);
    return levels[0].coarsest() >= FINE
        ? plain
        : new CellularModel(levels, plain.blackCurve, ResidualField.of(data, roots, plain));
  }

  /** Room for the interpolation's intermediate values; not to be shared between threads. */
  static double[] scratch() {
    return new double[6];
  }

  /**
   * The square roots of X/Xn, Y/Yn, Z/Zn at given tints.
   *
   * @param c percent, 0 to 100, and so the others
   * @param scratch from {@link #scratch}
   * @param out takes three values, each at least 0
   */
  void roots(double c, double m, double y, double k, double[] scratch, double[] out) {
    double position = blackCurve.position(blackCurve.segment(k), k);
    int cell = Math.min((int) position, levels.length - 2);
    double t = position - cell;
    levels[cell].interpolate(c, m, y, scratch, 0);
    if (t > 0) {
      levels[cell + 1].interpolate(c, m, y, scratch, 3);
    } else {
      System.arraycopy(scratch, 0, scratch, 3, 3);
    }
    for (int i = 0; i < 3; i++) {
      out[i] = scratch[i] + t * (scratch[3 + i] - scratch[i]);
    }
    if (residuals != null) {
      residuals.addTo(c, m, y, k, out);
    }
  }

  /** The square roots of X/Xn, Y/Yn, Z/Zn of a colour. */
  static void roots(Lab lab, double[] out, int at) {
    double fy = (lab.l() + 16) / 116;
    out[at] = Math.sqrt(Math.max(0, ReferenceWhite.inverse(fy + lab.a() / 500)));
    out[at + 1] = Math.sqrt(Math.max(0, ReferenceWhite.inverse(fy)));
    out[at + 2] = Math.sqrt(Math.max(0, ReferenceWhite.inverse(fy - lab.b() / 200)));
  }

  private static double[] roots(CharacterizationData data) {
    double[] roots = new double[3 * data.size()];
    for (int node = 0; node < data.size(); node++) {
      roots(data.lab(node), roots, 3 * node);
    }
    return roots;
  }

  private static GridLevel level(CharacterizationData data, double[] roots, FullGrid grid) {
    ToneCurve[] curves = new ToneCurve[3];
    int[] sizes = new int[3];
    for (int axis = 0; axis < 3; axis++) {
      curves[axis] = curve(data, roots, axis, grid.axis(axis));
      sizes[axis] = grid.axis(axis).length;
    }
    int[] nodes = grid.nodes();
    double[] points = new double[3 * nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      System.arraycopy(roots, 3 * nodes[i], points, 3 * i, 3);
    }
    return new GridLevel(grid.black(), curves, sizes, points);
  }

  private static GridLevel corners(CharacterizationData data, double[] roots, double black) {
    double[] axis = {0, 100};
    ToneCurve[] curves = new ToneCurve[3];
    for (int i = 0; i < 3; i++) {
      curves[i] = curve(data, roots, i, axis);
    }
    int paper = data.findPercent(0, 0, 0, 0);
    int[] solids = {
      data.findPercent(100, 0, 0, 0),
      data.findPercent(0, 100, 0, 0),
      data.findPercent(0, 0, 100, 0),
      data.findPercent(0, 0, 0, 100)
    };
    double[] points = new double[3 * 8];
    for (int corner = 0; corner < 8; corner++) {
      boolean[] inked = {(corner & 4) != 0, (corner & 2) != 0, (corner & 1) != 0, black == 100};
      int node =
          data.findPercent(
              inked[0] ? 100 : 0, inked[1] ? 100 : 0, inked[2] ? 100 : 0, inked[3] ? 100 : 0);
      for (int i = 0; i < 3; i++) {
        double root = roots[3 * paper + i];
        for (int ink = 0; ink < 4 && node < 0; ink++) {
          if (inked[ink] && roots[3 * paper + i] > 0) {
            root *= roots[3 * solids[ink] + i] / roots[3 * paper + i];
          }
        }
        points[3 * corner + i] = node < 0 ? root : roots[3 * node + i];
      }
    }
    return new GridLevel(black, curves, new int[] {2, 2, 2}, points);
  }

  /** The curve of a component from its own ramp, the other inks absent. */
  private static ToneCurve curve(
      CharacterizationData data, double[] roots, int component, double[] axis) {
    int count = 0;
    long[] found = new long[data.size()]; // tint in units above, node below: sorts by tint
    for (int node = 0; node < data.size(); node++) {
      boolean alone = true;
      for (int other = 0; other < 4; other++) {
        alone &= other == component || data.percent(node, other) == 0;
      }
      if (alone) {
        found[count++] = (long) Tint.ofPercent(data.percent(node, component)) << 32 | node;
      }
    }
    Arrays.sort(found, 0, count);
    double[] percents = new double[count];
    double[] ramp = new double[3 * count];
    for (int i = 0; i < count; i++) {
      int node = (int) found[i];
      percents[i] = data.percent(node, component);
      System.arraycopy(roots, 3 * node, ramp, 3 * i, 3);
    }
    return ToneCurve.of(axis, percents, ramp);
  }
}
