package selvage.strip;

import java.util.Arrays;
import selvage.color.De00Kernel;
import selvage.survey.Census;

/**
 * The inked rows of a census, grouped by colour. A photograph's hundreds of thousands of mixtures
 * become some thousand cells of nearly one colour each, so that searches stay short.
 *
 * <p>The grid is even in L*, and in a* and b* after their chroma C was shortened to ln(1 + 0.045 C)
 * / 0.045, the integral of CIEDE2000's chroma weight 1 / S_C: a step is then about as large for the
 * eye everywhere.
 */
final class ColorCells {
  private static final double CHROMA_WEIGHT = 0.045;
  private static final double LIGHTNESS_FROM = -10;
  private static final double LIGHTNESS_TO = 120;
  private static final double WIDEST_CHROMA = 60;
  private static final int CHROMA_STEPS = 1024;
  private static final float CHROMA_STEP = 0.25f;
  private static final float[] SHORTENED = shortenedChroma();

  private final int[] cellOfRow;
  private final double[] weight;
  private final float[] lab; // weighted means, 3 a cell
  private final float[] chroma;

  private ColorCells(int[] cellOfRow, double[] weight, float[] lab) {
    this.cellOfRow = cellOfRow;
    this.weight = weight;
    this.lab = lab;
    this.chroma = new float[weight.length];
    for (int cell = 0; cell < weight.length; cell++) {
      chroma[cell] = De00Kernel.chroma(lab[3 * cell + 1], lab[3 * cell + 2]);
    }
  }

  /** The quotient of shortened chroma and chroma, by chroma. */
  private static float[] shortenedChroma() {
    float[] quotients = new float[CHROMA_STEPS];
    quotients[0] = 1;
    for (int i = 1; i < CHROMA_STEPS; i++) {
      double c = i * CHROMA_STEP;
      quotients[i] = (float) (Math.log1p(CHROMA_WEIGHT * c) / CHROMA_WEIGHT / c);
    }
    return quotients;
  }

  /**
   * Groups a census.
   *
   * @param step the cells' edge, in units of about one ΔE00
   */
  static ColorCells of(Census census, double step) {
    int lSide = (int) Math.ceil((LIGHTNESS_TO - LIGHTNESS_FROM) / step);
    int abSide = (int) Math.ceil(2 * WIDEST_CHROMA / step);
    int[] cellAt = new int[lSide * abSide * abSide];
    int[] cellOfRow = new int[census.size()];
    double[] sums = new double[4 * 1024];
    int cells = 0;
    for (int row = 0; row < census.size(); row++) {
      if (census.isPaper(row)) {
        cellOfRow[row] = -1;
        continue;
      }
      float l = census.lab(row, 0);
      float a = census.lab(row, 1);
      float b = census.lab(row, 2);
      float shorten = shorten(a, b);
      int li = clamped((l - LIGHTNESS_FROM) / step, lSide);
      int ai = clamped((a * shorten + WIDEST_CHROMA) / step, abSide);
      int bi = clamped((b * shorten + WIDEST_CHROMA) / step, abSide);
      int key = (li * abSide + ai) * abSide + bi;
      if (cellAt[key] == 0) {
        cellAt[key] = ++cells;
        if (4 * cells > sums.length) {
          sums = Arrays.copyOf(sums, 2 * sums.length);
        }
      }
      int cell = cellAt[key] - 1;
      cellOfRow[row] = cell;
      double samples = census.samples(row);
      sums[4 * cell] += samples;
      sums[4 * cell + 1] += samples * l;
      sums[4 * cell + 2] += samples * a;
      sums[4 * cell + 3] += samples * b;
    }
    double[] weight = new double[cells];
    float[] lab = new float[3 * cells];
    for (int cell = 0; cell < cells; cell++) {
      weight[cell] = sums[4 * cell];
      for (int axis = 0; axis < 3; axis++) {
        lab[3 * cell + axis] = (float) (sums[4 * cell + 1 + axis] / weight[cell]);
      }
    }
    return new ColorCells(cellOfRow, weight, lab);
  }

  private static float shorten(float a, float b) {
    int index = (int) (De00Kernel.chroma(a, b) / CHROMA_STEP);
    return SHORTENED[Math.min(index, CHROMA_STEPS - 1)];
  }

  private static int clamped(double value, int side) {
    return Math.max(0, Math.min(side - 1, (int) value));
  }

  int size() {
    return weight.length;
  }

  /** The cell of a census row; -1 for paper. */
  int cellOf(int row) {
    return cellOfRow[row];
  }

  /** How many samples a cell covers. */
  double weight(int cell) {
    return weight[cell];
  }

  /** One coordinate of a cell's mean colour: 0 is L*, 1 a*, 2 b*. */
  float lab(int cell, int axis) {
    return lab[3 * cell + axis];
  }

  /** The chroma of a cell's mean colour. */
  float chroma(int cell) {
    return chroma[cell];
  }

  /** ΔE00 between a cell's mean colour and another colour. */
  float de00(int cell, float l, float a, float b, float c) {
    int at = 3 * cell;
    return De00Kernel.de00(lab[at], lab[at + 1], lab[at + 2], chroma[cell], l, a, b, c);
  }
}
