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
  private static final int CELLS_A_TASK = 1024;

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
  private final float[] spread;
  private final double[] around;
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
            cellOfRow[row] = key(rowPlaces, at);
          }
        });
    int[] firstRows = numbered(census);
    int cells = firstRows.length;
    this.largest = firstRows;
    this.keys = new int[cells];
    double[] sums = sums(census, cells);
    this.weight = new double[cells];
    this.lab = new float[3 * cells];
    this.chroma = new float[cells];
    this.places = new float[3 * cells];
    for (int cell = 0; cell < cells; cell++) {
      keys[cell] = key(rowPlaces, 3 * firstRows[cell]);
      weight[cell] = sums[4 * cell];
      total += weight[cell];
      for (int axis = 0; axis < 3; axis++) {
        lab[3 * cell + axis] = (float) (sums[4 * cell + 1 + axis] / weight[cell]);
      }
      chroma[cell] = De00Kernel.chroma(lab[3 * cell + 1], lab[3 * cell + 2]);
      EvenSpace.place(lab[3 * cell], lab[3 * cell + 1], lab[3 * cell + 2], places, 3 * cell);
    }
    this.radius = new float[cells];
    this.spread = new float[cells];
    this.around = new double[cells];
    Parallel.each(cells, CELLS_A_TASK, this::sumAround);
    this.member = new int[cells];
    findMembers(census);
  }

  /**
   * Groups a census.
   *
   * @param step the cells' edge, in units of about one ΔE00
   */
  static ColorCells of(Census census, double step) {
    return new ColorCells(census, step);
  }

  /**
   * Numbers the cells that have rows, and puts each row's number where its place in the grid was.
   *
   * @return of each cell the first row, which covers most samples
   */
  private int[] numbered(Census census) {
    int[] first = new int[1024];
    int cells = 0;
    for (int row = 0; row < cellOfRow.length; row++) {
      if (census.isPaper(row)) {
        cellOfRow[row] = -1;
        continue;
      }
      int key = cellOfRow[row];
      if (cellAt[key] == 0) {
        if (cells == first.length) {
          first = Arrays.copyOf(first, 2 * cells);
        }
        first[cells] = row;
        cellAt[key] = ++cells;
      }
      cellOfRow[row] = cellAt[key] - 1;
    }
    return Arrays.copyOf(first, cells);
  }

  /** Of each cell its samples, then L*, a* and b* summed up, weighed by samples. */
  private double[] sums(Census census, int cells) {
    RowParts parts = RowParts.of(cellOfRow.length);
    double[][] ofParts = new double[parts.count()][4 * cells];
    parts.each((part, from, to) -> addUp(census, from, to, ofParts[part]));
    return RowParts.added(ofParts);
  }

  private void addUp(Census census, int from, int to, double[] sums) {
    float[] labs = census.labs();
    for (int row = from; row < to; row++) {
      int cell = cellOfRow[row];
      if (cell >= 0) {
        double samples = census.samples(row);
        sums[4 * cell] += samples;
        sums[4 * cell + 1] += samples * labs[3 * row];
        sums[4 * cell + 2] += samples * labs[3 * row + 1];
        sums[4 * cell + 3] += samples * labs[3 * row + 2];
      }
    }
  }

  /** Finds each cell's radius, and the row nearest to its mean; of equals the first. */
  private void findMembers(Census census) {
    RowParts parts = RowParts.of(cellOfRow.length);
    float[][] leasts = new float[parts.count()][weight.length];
    float[][] mosts = new float[parts.count()][weight.length];
    int[][] members = new int[parts.count()][weight.length];
    double[][] squares = new double[parts.count()][weight.length];
    parts.each(
        (part, from, to) ->
            findMembers(census, from, to, leasts[part], mosts[part], members[part], squares[part]));
    double[] sums = RowParts.added(squares);
    for (int cell = 0; cell < weight.length; cell++) {
      float least = Float.MAX_VALUE;
      float most = 0;
      for (int part = 0; part < leasts.length; part++) {
        most = Math.max(most, mosts[part][cell]);
        if (leasts[part][cell] < least) {
          least = leasts[part][cell];
          member[cell] = members[part][cell];
        }
      }
      radius[cell] = (float) Math.sqrt(most);
      spread[cell] = (float) (sums[cell] / weight[cell]);
    }
  }

  private void findMembers(
      Census census,
      int from,
      int to,
      float[] least,
      float[] most,
      int[] members,
      double[] squares) {
    Arrays.fill(least, Float.MAX_VALUE);
    for (int row = from; row < to; row++) {
      int cell = cellOfRow[row];
      if (cell >= 0) {
        float squared = EvenSpace.squared(rowPlaces, 3 * row, places, 3 * cell);
        if (squared < least[cell]) {
          least[cell] = squared;
          members[cell] = row;
        }
        most[cell] = Math.max(most[cell], squared);
        squares[cell] += census.samples(row) * squared;
      }
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

  /** The mean square of how far in {@link EvenSpace} a cell's samples lie from its mean. */
  float spread(int cell) {
    return spread[cell];
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
    return around[cell];
  }

  private void sumAround(int from, int to) {
    for (int cell = from; cell < to; cell++) {
      around[cell] = sumAround(keys[cell]);
    }
  }

  private double sumAround(int key) {
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
   * @param ofLightness the farthest in the first coordinate alone
   * @param near takes the cells; as long as {@link #size}
   * @return how many
   */
  int near(float[] place, float reach, float ofLightness, int[] near) {
    int l0 = clamped((place[0] - ofLightness) / step, lSide);
    int l1 = clamped((place[0] + ofLightness) / step, lSide);
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
