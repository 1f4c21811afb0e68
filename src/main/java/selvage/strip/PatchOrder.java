package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import selvage.color.ColorDifference;
import selvage.color.Lab;

/**
 * Arranges patches in rows so that neighbours differ clearly and no row reads the same backwards.
 * Each row begins with its share of substrate patches, which stay in their row.
 *
 * <p>Swaps two places as long as that lowers Σ max(0, 1 − ΔE*ab / {@value #CLEAR})⁴ over all
 * neighbours; a row that differs from its reverse by less than {@value #LEAST_REVERSAL} ΔE*ab
 * everywhere costs 1 more. Ends in a place where no single swap helps; the same input gives the
 * same order.
 */
final class PatchOrder {
  /** Neighbours that differ by this ΔE*ab are as clear as need be. */
  static final double CLEAR = 40;

  /** A row must differ from its reverse by this ΔE*ab somewhere (common practice, no source). */
  static final double LEAST_REVERSAL = 15;

  private static final int MOST_PASSES = 60;

  private final double[][] distance;
  private final int[][] rows;
  private final int fixed; // items below this index stay in their row
  private final double[] cost;

  private PatchOrder(List<Lab> colors, int fixed, int[][] rows) {
    this.fixed = fixed;
    this.rows = rows;
    this.distance = new double[colors.size()][colors.size()];
    for (int i = 0; i < colors.size(); i++) {
      for (int j = 0; j < i; j++) {
        distance[i][j] = ColorDifference.de76(colors.get(i), colors.get(j));
        distance[j][i] = distance[i][j];
      }
    }
    this.cost = new double[rows.length];
    for (int row = 0; row < rows.length; row++) {
      cost[row] = cost(row);
    }
  }

  /**
   * Arranges items in rows of about equal length.
   *
   * @param colors first one substrate patch for each row, then the others
   * @param rowCount at least 1, no more than there are items
   * @return indices into {@code colors}, row by row
   */
  static List<List<Integer>> arrange(List<Lab> colors, int rowCount) {
    int others = colors.size() - rowCount;
    int[][] rows = new int[rowCount][];
    int next = rowCount;
    for (int row = 0; row < rowCount; row++) {
      int share = others / rowCount + (row < others % rowCount ? 1 : 0);
      rows[row] = new int[share + 1];
      rows[row][0] = row;
      for (int i = 1; i <= share; i++) {
        rows[row][i] = next++;
      }
    }
    PatchOrder order = new PatchOrder(colors, rowCount, rows);
    order.search();
    List<List<Integer>> result = new ArrayList<>();
    for (int[] row : rows) {
      result.add(java.util.Arrays.stream(row).boxed().toList());
    }
    return result;
  }

  private void search() {
    boolean changed = true;
    for (int pass = 0; changed && pass < MOST_PASSES; pass++) {
      changed = false;
      for (int r = 0; r < rows.length; r++) {
        for (int i = 0; i < rows[r].length; i++) {
          changed |= swapBest(r, i);
        }
      }
    }
  }

  /** Swaps one place with the partner that helps most. */
  private boolean swapBest(int r, int i) {
    double least = -1e-9;
    int withRow = -1;
    int withPlace = -1;
    for (int s = r; s < rows.length; s++) {
      for (int j = s == r ? i + 1 : 0; j < rows[s].length; j++) {
        if (s != r && (rows[r][i] < fixed || rows[s][j] < fixed)) {
          continue;
        }
        swap(r, i, s, j);
        double change = cost(r) - cost[r] + (s == r ? 0 : cost(s) - cost[s]);
        swap(r, i, s, j);
        if (change < least) {
          least = change;
          withRow = s;
          withPlace = j;
        }
      }
    }
    if (withRow < 0) {
      return false;
    }
    swap(r, i, withRow, withPlace);
    cost[r] = cost(r);
    cost[withRow] = cost(withRow);
    return true;
  }

  private void swap(int r, int i, int s, int j) {
    int kept = rows[r][i];
    rows[r][i] = rows[s][j];
    rows[s][j] = kept;
  }

  private double cost(int r) {
    int[] row = rows[r];
    double sum = 0;
    double reversal = 0;
    for (int i = 1; i < row.length; i++) {
      double lack = Math.max(0, 1 - distance[row[i - 1]][row[i]] / CLEAR);
      sum += lack * lack * lack * lack;
    }
    for (int i = 0; i < row.length / 2; i++) {
      reversal = Math.max(reversal, distance[row[i]][row[row.length - 1 - i]]);
    }
    return sum + (reversal < LEAST_REVERSAL ? 1 : 0);
  }
}
