package selvage.color;

import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.SortedMap;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * The aim for any ink mixture. Immutable and safe for use by several threads.
 *
 * <ul>
 *   <li>Process inks alone: the reference printing condition.
 *   <li>One spot ink alone, at a tint that the library knows, or solid: as known. Of an alternate
 *       colour only the solid counts as known.
 *   <li>One spot ink alone, at another tint: predicted so that its SCTV equals the tint, on the
 *       straight line in CIELAB between the known tints on either side (ISO 20654) [iso20654].
 *   <li>Spot inks over each other or over process inks: predicted for transparent inks, each of X,
 *       Y, Z being multiplied by the ink's own over that of the paper. Opaque inks (white,
 *       metallic) are not covered by this rule.
 * </ul>
 */
public final class AimModel {
  private static final ReferenceWhite WHITE = ReferenceWhite.ISO_13655;
  private static final Xyz WHITE_XYZ = WHITE.xyz();

  private final ReferenceCondition condition;
  private final Map<String, SpotInk> spots;
  private final Lab paper;
  private final Xyz paperXyz;

  /**
   * A model for jobs printed in a condition with these spot inks.
   *
   * @param spots by the colorant's name
   */
  public AimModel(ReferenceCondition condition, Map<String, SpotInk> spots) {
    this.condition = Objects.requireNonNull(condition, "condition");
    this.spots = Map.copyOf(spots);
    this.paper = condition.paper();
    this.paperXyz = WHITE.toXyz(paper);
  }

  /** The condition of the process inks. */
  public ReferenceCondition condition() {
    return condition;
  }

  /**
   * The aim for a mixture.
   *
   * @throws IllegalArgumentException where a spot ink is not among those given
   */
  public Aim aim(InkMixture mixture) {
    double[] cmyk = mixture.cmyk();
    if (!mixture.hasSpot()) {
      return condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]);
    }
    SortedMap<Colorant, Integer> units = mixture.units();
    if (units.size() == 1) {
      int tint = units.get(units.firstKey());
      SpotCurve curve = curve(units.firstKey());
      double[] lab = new double[3];
      curve.lab(tint, lab);
      return new Aim(new Lab(lab[0], lab[1], lab[2]), curve.source(tint));
    }
    Lab below =
        mixture.hasProcess() ? condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab() : paper;
    Xyz xyz = WHITE.toXyz(below);
    double[] factors = {xyz.x(), xyz.y(), xyz.z()};
    double[] scratch = new double[3];
    units.forEach(
        (colorant, tint) -> {
          if (colorant.isSpot()) {
            curve(colorant).multiply(tint, paperXyz, scratch, factors);
          }
        });
    return new Aim(WHITE.toLab(new Xyz(factors[0], factors[1], factors[2])), AimSource.PREDICTED);
  }

  /**
   * The aims of many mixtures, in single precision.
   *
   * @param colorants of the tint columns
   * @param tints row by row, one value in {@link Tint} units a colorant
   * @param lab takes L*, a*, b* a row; its length says how many rows
   * @param sources takes a source a row
   * @throws IllegalArgumentException where a spot ink is not among those given, or the columns are
   *     of unequal length
   */
  public void aims(List<Colorant> colorants, char[] tints, float[] lab, AimSource[] sources) {
    int rows = sources.length;
    int columns = colorants.size();
    if (tints.length != rows * columns || lab.length != 3 * rows) {
      throw new IllegalArgumentException("columns of unequal length");
    }
    int[] process = new int[4];
    for (int i = 0; i < 4; i++) {
      process[i] = colorants.indexOf(Colorant.PROCESS.get(i));
    }
    int spotCount = 0;
    int[] spotColumns = new int[columns];
    SpotCurve[] curves = new SpotCurve[columns];
    for (int column = 0; column < columns; column++) {
      if (colorants.get(column).isSpot()) {
        curves[spotCount] = curve(colorants.get(column));
        spotColumns[spotCount++] = column;
      }
    }
    boolean asIs = columns == 4 && spotCount == 0 && colorants.equals(Colorant.PROCESS);
    char[] cmyk = asIs ? tints : new char[4 * rows];
    if (!asIs) {
      for (int i = 0; i < 4; i++) {
        for (int row = 0; row < rows && process[i] >= 0; row++) {
          cmyk[4 * row + i] = tints[row * columns + process[i]];
        }
      }
    }
    condition.aims(cmyk, rows, lab, sources);
    if (spotCount > 0) {
      overprint(tints, columns, spotColumns, curves, spotCount, cmyk, lab, sources);
    }
  }

  private void overprint(
      char[] tints,
      int columns,
      int[] spotColumns,
      SpotCurve[] curves,
      int spotCount,
      char[] cmyk,
      float[] lab,
      AimSource[] sources) {
    double[] scratch = new double[3];
    double[] factors = new double[3];
    for (int row = 0; row < sources.length; row++) {
      int inked = 0;
      int only = -1;
      for (int s = 0; s < spotCount; s++) {
        if (tints[row * columns + spotColumns[s]] > 0) {
          inked++;
          only = s;
        }
      }
      if (inked == 0) {
        continue;
      }
      boolean process =
          (cmyk[4 * row] | cmyk[4 * row + 1] | cmyk[4 * row + 2] | cmyk[4 * row + 3]) != 0;
      if (inked == 1 && !process) {
        int tint = tints[row * columns + spotColumns[only]];
        curves[only].lab(tint, scratch);
        sources[row] = curves[only].source(tint);
      } else {
        SpotCurve.toXyz(lab[3 * row], lab[3 * row + 1], lab[3 * row + 2], factors);
        for (int s = 0; s < spotCount; s++) {
          int tint = tints[row * columns + spotColumns[s]];
          if (tint > 0) {
            curves[s].multiply(tint, paperXyz, scratch, factors);
          }
        }
        SpotCurve.toLab(factors, scratch);
        sources[row] = AimSource.PREDICTED;
      }
      for (int i = 0; i < 3; i++) {
        lab[3 * row + i] = (float) scratch[i];
      }
    }
  }

  private SpotCurve curve(Colorant colorant) {
    SpotInk ink = spots.get(colorant.name());
    if (ink == null) {
      throw new IllegalArgumentException("nothing is known of the spot ink " + colorant.name());
    }
    return new SpotCurve(ink, paper);
  }

  /** A spot ink's colour by tint: the known tints, and straight lines in CIELAB between them. */
  private static final class SpotCurve {
    private final SpotInk ink;
    private final int[] tints; // rising, from 0
    private final double[] lab;

    SpotCurve(SpotInk ink, Lab paper) {
      this.ink = ink;
      NavigableMap<Double, Lab> ramp = ink.ramp();
      int size = 1;
      for (double percent : ramp.keySet()) {
        size += percent > 0 ? 1 : 0;
      }
      this.tints = new int[size];
      this.lab = new double[3 * size];
      put(0, 0, paper);
      int at = 1;
      for (Map.Entry<Double, Lab> known : ramp.entrySet()) {
        if (known.getKey() > 0) {
          put(at++, Tint.ofPercent(known.getKey()), known.getValue());
        }
      }
    }

    private void put(int at, int tint, Lab color) {
      tints[at] = tint;
      lab[3 * at] = color.l();
      lab[3 * at + 1] = color.a();
      lab[3 * at + 2] = color.b();
    }

    /** The source of a tint above 0. */
    AimSource source(int tint) {
      if (ink.source() == AimSource.ALTERNATE && tint != Tint.FULL) {
        return AimSource.PREDICTED;
      }
      for (int known : tints) {
        if (known == tint) {
          return ink.source();
        }
      }
      return AimSource.PREDICTED;
    }

    void lab(int tint, double[] out) {
      int above = 1;
      while (tints[above] < tint) {
        above++;
      }
      double share = (double) (tint - tints[above - 1]) / (tints[above] - tints[above - 1]);
      for (int i = 0; i < 3; i++) {
        double low = lab[3 * above - 3 + i];
        out[i] = share == 1 ? lab[3 * above + i] : low + share * (lab[3 * above + i] - low);
      }
    }

    /** Lays the tint over a colour given as X, Y, Z. */
    void multiply(int tint, Xyz paper, double[] scratch, double[] factors) {
      lab(tint, scratch);
      toXyz(scratch[0], scratch[1], scratch[2], scratch);
      factors[0] *= scratch[0] / paper.x();
      factors[1] *= scratch[1] / paper.y();
      factors[2] *= scratch[2] / paper.z();
    }

    static void toXyz(double l, double a, double b, double[] xyz) {
      double fy = (l + 16) / 116;
      xyz[0] = WHITE_XYZ.x() * Math.max(0, ReferenceWhite.inverse(fy + a / 500));
      xyz[1] = WHITE_XYZ.y() * Math.max(0, ReferenceWhite.inverse(fy));
      xyz[2] = WHITE_XYZ.z() * Math.max(0, ReferenceWhite.inverse(fy - b / 200));
    }

    static void toLab(double[] xyz, double[] lab) {
      double fx = ReferenceWhite.f(xyz[0] / WHITE_XYZ.x());
      double fy = ReferenceWhite.f(xyz[1] / WHITE_XYZ.y());
      double fz = ReferenceWhite.f(xyz[2] / WHITE_XYZ.z());
      lab[0] = 116 * fy - 16;
      lab[1] = 500 * (fx - fy);
      lab[2] = 200 * (fy - fz);
    }
  }
}
