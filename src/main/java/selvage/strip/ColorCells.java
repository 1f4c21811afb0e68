package selvage.strip;

import java.util.Arrays;
import selvage.color.De00Kernel;
import selvage.survey.Census;

/**
 * The inked rows of a census, grouped by colour. A photograph's hundreds of thousands of mixtures
 * become some thousand cells of nearly one colour each, so that searches stay short. The grid is
 * even in {@link EvenSpace}: a step is about as large for the eye everywhere.
 */
final class ColorCells {
  private static final float LIGHTNESS_TO = 90;
  private static final float WIDEST = 66;
  private static final int ROWS_A_TASK = 16_384;

  private final float step;
  private final int lSide;
  private final int abSide;
  private final int[] cellAt; // cell + 1 by place in the grid
  private final int[] keys; // place in the grid by cell
  private final int[] cellOfRow;
  private final float[] rowPlaces;
  private final double[] weight;
  private final float[] lab; // weighted means, 3 a cell
  private final float[] chroma;
  private final float[] places; // of the means, 3 a cell
  private final float[] radius;
  private final int[] member;
  private final int[] largest;
  private double total;

  private ColorCells(Census census, double step) {
    this.step = (float) step;
    this.lSide = (int) Math.ceil(LIGHTNESS_TO / step) + 1;
    this.abSide = (int) Math.ceil(2 * WIDEST / step) + 1;
    this.cellAt = new int[lSide * abSide * abSide];
    this.cellOfRow = new int[census.size()];
    float[] labs = census.labs();
    this.rowPlaces = new float[3 * census.size()];
    Parallel.each(
        census.size(),
        ROWS_A_TASK,
        (from, to) -> {
          for (int row = from; row < to; row++) {
            int at = 3 * row;
            EvenSpace.place(labs[at], labs[at + 1], labs[at + 2], rowPlaces, at);
            cellOfRow[row] = key(rowPlaces, at); // for the loop below
          }
        });
    double[] sums = new double[4 * 1024];
    int[] found = new int[1024];
    int[] first = new int[1024];
    int cells = 0;
    for (int row = 0; row < cellOfRow.length; row++) {
      if (census.isPaper(row)) {
        cellOfRow[row] = -1;
        continue;
      }
      int at = 3 * row;
      int key = cellOfRow[row];
      int cell = cellAt[key] - 1;
      if (cell < 0) {
        cell = cells;
        cellAt[key] = ++cells;
        if (cells > found.length) {
          found = Arrays.copyOf(found, 2 * found.length);
          first = Arrays.copyOf(first, found.length);
          sums = Arrays.copyOf(sums, 2 * sums.length);
        }
        found[cell] = key;
        first[cell] = row;
      }
      cellOfRow[row] = cell;
      double samples = census.samples(row);
      sums[4 * cell] += samples;
      sums[4 * cell + 1] += samples * labs[at];
      sums[4 * cell + 2] += samples * labs[at + 1];
      sums[4 * cell + 3] += samples * labs[at + 2];
    }
    this.keys = Arrays.copyOf(found, cells);
    this.largest = Arrays.copyOf(first, cells);
    this.weight = new double[cells];
    this.lab = new float[3 * cells];
    this.chroma = new float[cells];
    this.places = new float[3 * cells];
    for (int cell = 0; cell < cells; cell++) {
      weight[cell] = sums[4 * cell];
      total += weight[cell];
      for (int axis = 0; axis < 3; axis++) {
        lab[3 * cell + axis] = (float) (sums[4 * cell + 1 + axis] / weight[cell]);
      }
      chroma[cell] = De00Kernel.chroma(lab[3 * cell + 1], lab[3 * cell + 2]);
      EvenSpace.place(lab[3 * cell], lab[3 * cell + 1], lab[3 * cell + 2], places, 3 * cell);
    }
    this.radius = new float[cells];
    this.member = new int[cells];
    findMembers();
  }

  /**
   * Groups a census.
   *
   * @param step the cells' edge, in units of about one ΔE00
   */
  static ColorCells of(Census census, double step) {
    return new ColorCells(census, step);
  }

  private void findMembers() {
    float[] least = new float[weight.length];
    Arrays.fill(least, Float.MAX_VALUE);
    for (int row = 0; row < cellOfRow.length; row++) {
      int cell = cellOfRow[row];
      if (cell < 0) {
        continue;
      }
      float squared = EvenSpace.squared(rowPlaces, 3 * row, places, 3 * cell);
      if (squared < least[cell]) {
        least[cell] = squared;
        member[cell] = row;
      }
      if (squared > radius[cell]) {
        radius[cell] = squared;
      }
    }
    for (int cell = 0; cell < radius.length; cell++) {
      radius[cell] = (float) Math.sqrt(radius[cell]);
    }
  }

  private int key(float[] place, int at) {
    int l = clamped(place[at] / step, lSide);
    int a = clamped((place[at + 1] + WIDEST) / step, abSide);
    int b = clamped((place[at + 2] + WIDEST) / step, abSide);
    return (l * abSide + a) * abSide + b;
  }

  private static int clamped(float value, int side) {
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

  /** How many samples all cells cover. */
  double total() {
    return total;
  }

  /** The row nearest to a cell's mean colour. */
  int member(int cell) {
    return member[cell];
  }

  /** The row of a cell that covers most samples. */
  int largestMember(int cell) {
    return largest[cell];
  }

  /** The chroma of a cell's mean colour. */
  float chroma(int cell) {
    return chroma[cell];
  }

  /** How far in {@link EvenSpace} the cell's farthest row lies from its mean. */
  float radius(int cell) {
    return radius[cell];
  }

  /** The means' places in {@link EvenSpace}, three a cell; to be read only. */
  float[] places() {
    return places;
  }

  /** The rows' places in {@link EvenSpace}, three a row; to be read only. */
  float[] rowPlaces() {
    return rowPlaces;
  }

  /** One coordinate of a cell's mean colour: 0 is L*, 1 a*, 2 b*. */
  float lab(int cell, int axis) {
    return lab[3 * cell + axis];
  }

  /** ΔE00 between a cell's mean colour and another colour. */
  float de00(int cell, float l, float a, float b, float c) {
    int at = 3 * cell;
    return De00Kernel.de00(lab[at], lab[at + 1], lab[at + 2], chroma[cell], l, a, b, c);
  }

  /** The samples of a cell and of those that touch it: how dense the page's colours are there. */
  double weightAround(int cell) {
    int key = keys[cell];
    int b = key % abSide;
    int a = key / abSide % abSide;
    int l = key / abSide / abSide;
    double sum = 0;
    for (int li = Math.max(0, l - 1); li <= Math.min(lSide - 1, l + 1); li++) {
      for (int ai = Math.max(0, a - 1); ai <= Math.min(abSide - 1, a + 1); ai++) {
        int line = (li * abSide + ai) * abSide;
        for (int bi = Math.max(0, b - 1); bi <= Math.min(abSide - 1, b + 1); bi++) {
          int other = cellAt[line + bi] - 1;
          sum += other < 0 ? 0 : weight[other];
        }
      }
    }
    return sum;
  }

  /**
   * The cells whose mean lies near to a place.
   *
   * @param place three coordinates in {@link EvenSpace}
   * @param reach the farthest distance E
   * @param near takes the cells; as long as {@link #size}
   * @return how many
   */
  int near(float[] place, float reach, int[] near) {
    int l0 = clamped((place[0] - reach) / step, lSide);
    int l1 = clamped((place[0] + reach) / step, lSide);
    int a0 = clamped((place[1] - reach + WIDEST) / step, abSide);
    int a1 = clamped((place[1] + reach + WIDEST) / step, abSide);
    int b0 = clamped((place[2] - reach + WIDEST) / step, abSide);
    int b1 = clamped((place[2] + reach + WIDEST) / step, abSide);
    int count = 0;
    for (int l = l0; l <= l1; l++) {
      for (int a = a0; a <= a1; a++) {
        int line = (l * abSide + a) * abSide;
        for (int at = line + b0; at <= line + b1; at++) {
          int cell = cellAt[at] - 1;
          if (cell >= 0 && EvenSpace.squared(place, 0, places, 3 * cell) <= reach * reach) {
            near[count++] = cell;
          }
        }
      }
    }
    return count;
  }
}
