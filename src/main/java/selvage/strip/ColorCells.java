package selvage.strip;

import java.util.Arrays;
import selvage.color.De00Kernel;
import selvage.survey.Census;

/**
 * The inked rows of a census, grouped by colour. A photograph's hundreds of thousands of mixtures
 * become some thousand cells of nearly one colour each, so that searches stay short. The grid is
 * even in {@link EvenSpace}: a step is about as large for the eye everywhere. Sums go part by part
 * ({@link RowParts}), and come out the same on any machine.
 */
final class ColorCells {
  private static final int ROWS_A_TASK = 16_384;
  private static final int CELLS_A_TASK = 1024;

  private final CellGrid grid;
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
    this.grid = new CellGrid(step);
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
            cellOfRow[row] = grid.key(rowPlaces, at);
          }
        });
    this.largest = numbered(census);
    int cells = largest.length;
    this.weight = new double[cells];
    this.lab = new float[3 * cells];
    this.chroma = new float[cells];
    this.places = new float[3 * cells];
    findMeans(sums(census, cells));
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
      int cell = grid.cell(key);
      if (cell < 0) {
        cell = cells++;
        if (cell == first.length) {
          first = Arrays.copyOf(first, 2 * cell);
        }
        first[cell] = row;
        grid.put(key, cell);
      }
      cellOfRow[row] = cell;
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

  private void findMeans(double[] sums) {
    for (int cell = 0; cell < weight.length; cell++) {
      weight[cell] = sums[4 * cell];
      total += weight[cell];
      for (int axis = 0; axis < 3; axis++) {
        lab[3 * cell + axis] = (float) (sums[4 * cell + 1 + axis] / weight[cell]);
      }
      chroma[cell] = De00Kernel.chroma(lab[3 * cell + 1], lab[3 * cell + 2]);
      EvenSpace.place(lab[3 * cell], lab[3 * cell + 1], lab[3 * cell + 2], places, 3 * cell);
    }
  }

  /** Finds each cell's radius and spread, and the row nearest to its mean; of equals the first. */
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
      around[cell] = grid.sumAround(grid.key(rowPlaces, 3 * largest[cell]), weight);
    }
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
    int found = grid.inBox(place, ofLightness, reach, near);
    int count = 0;
    for (int i = 0; i < found; i++) {
      if (EvenSpace.squared(place, 0, places, 3 * near[i]) <= reach * reach) {
        near[count++] = near[i];
      }
    }
    return count;
  }
}
