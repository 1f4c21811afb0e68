package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import selvage.color.ColorDifference;
import selvage.color.Lab;

/**
 * Arranges patches in rows so that neighbours differ clearly and no row reads the same backwards.
 * Each row begins with its share of substrate patches, which stay in their row.
 *
 * <p>Swaps two places as long as that lowers Σ max(0, 1 − ΔE*ab / {@value #CLEAR})⁴ over all
 * neighbours; a row that differs from its reverse by less than {@value #LEAST_REVERSAL} ΔE*ab
 * everywhere costs 1 more. Then takes the weakest pair of neighbours apart, by a swap or by turning
 * a stretch of its row round, as long as that leaves the weakest pair of what it touched stronger.
 * The best of {@value #STARTS} searches from different orders counts; the same input gives the same
 * order. {@link #bound} says how good the best order could be at most.
 */
final class PatchOrder {
  /** Neighbours that differ by this ΔE*ab are as clear as need be. */
  static final double CLEAR = 40;

  /** A row must differ from its reverse by this ΔE*ab somewhere (common practice, no source). */
  static final double LEAST_REVERSAL = 15;

  private static final int MOST_PASSES = 60;

  /** The search begins in so many orders. */
  private static final int STARTS = 8;

  /** Of taking the weakest pair apart. */
  private static final int MOST_STEPS = 1000;

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
    int[] others = new int[colors.size() - rowCount];
    for (int i = 0; i < others.length; i++) {
      others[i] = rowCount + i;
    }
    Random random = new Random(1);
    PatchOrder best = null;
    for (int start = 0; start < STARTS; start++) {
      PatchOrder order = new PatchOrder(colors, rowCount, rows(others, rowCount));
      order.search();
      order.strengthen();
      best = best == null || order.isStrongerThan(best) ? order : best;
      shuffle(others, random);
    }
    List<List<Integer>> result = new ArrayList<>();
    for (int[] row : best.rows) {
      result.add(Arrays.stream(row).boxed().toList());
    }
    return result;
  }

  /** Rows of about equal length, each with a substrate patch first. */
  private static int[][] rows(int[] others, int rowCount) {
    int[][] rows = new int[rowCount][];
    int next = 0;
    for (int row = 0; row < rowCount; row++) {
      int share = others.length / rowCount + (row < others.length % rowCount ? 1 : 0);
      rows[row] = new int[share + 1];
      rows[row][0] = row;
      for (int i = 1; i <= share; i++) {
        rows[row][i] = others[next++];
      }
    }
    return rows;
  }

  private static void shuffle(int[] items, Random random) {
    for (int i = items.length - 1; i > 0; i--) {
      int j = random.nextInt(i + 1);
      int kept = items[i];
      items[i] = items[j];
      items[j] = kept;
    }
  }

  /**
   * Whether the weakest pair of all rows is stronger, a row that reads alike backwards counting.
   */
  private boolean isStrongerThan(PatchOrder other) {
    double weakest = Double.POSITIVE_INFINITY;
    double others = Double.POSITIVE_INFINITY;
    for (int r = 0; r < rows.length; r++) {
      weakest = Math.min(weakest, weakestToldApart(r));
      others = Math.min(others, other.weakestToldApart(r));
    }
    return weakest > others;
  }

  /**
   * A contrast that the weakest pair of neighbours can't exceed in any order of these colours.
   *
   * <p>Every patch has a neighbour, at best the one that differs most from it; all but the two ends
   * of each row have two, of which the weaker is at best the second of those.
   *
   * @return ΔE*ab, infinite where no patch has a neighbour
   */
  static double bound(List<Lab> colors, int rowCount) {
    int size = colors.size();
    if (size <= rowCount) {
      return Double.POSITIVE_INFINITY;
    }
    double bound = Double.POSITIVE_INFINITY;
    double[] seconds = new double[size];
    for (int i = 0; i < size; i++) {
      double first = 0;
      for (int j = 0; j < size; j++) {
        double distance = i == j ? 0 : ColorDifference.de76(colors.get(i), colors.get(j));
        if (distance > first) {
          seconds[i] = first;
          first = distance;
        } else {
          seconds[i] = Math.max(seconds[i], distance);
        }
      }
      bound = Math.min(bound, first);
    }
    Arrays.sort(seconds);
    int ends = 2 * rowCount;
    return ends < size ? Math.min(bound, seconds[ends]) : bound;
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
    for (int i = 1; i < row.length; i++) {
      double lack = Math.max(0, 1 - distance[row[i - 1]][row[i]] / CLEAR);
      sum += lack * lack * lack * lack;
    }
    return sum + (reversal(r) < LEAST_REVERSAL ? 1 : 0);
  }

  /** How much a row differs from its reverse. */
  private double reversal(int r) {
    int[] row = rows[r];
    double reversal = 0;
    for (int i = 0; i < row.length / 2; i++) {
      reversal = Math.max(reversal, distance[row[i]][row[row.length - 1 - i]]);
    }
    return reversal;
  }

  /** Takes the weakest pair of neighbours apart until that no longer helps. */
  private void strengthen() {
    for (int step = 0; step < MOST_STEPS && takeWeakestApart(); step++) {}
  }

  private boolean takeWeakestApart() {
    int r = 0;
    for (int row = 1; row < rows.length; row++) {
      r = weakest(row) < weakest(r) ? row : r;
    }
    double weakest = weakest(r);
    for (int i = 1; i < rows[r].length; i++) {
      if (distance[rows[r][i - 1]][rows[r][i]] == weakest
          && (swapAway(r, i - 1, weakest) || swapAway(r, i, weakest) || turn(r, i, weakest))) {
        return true;
      }
    }
    return false;
  }

  /** Swaps one place with the partner that leaves the rows of both strongest. */
  private boolean swapAway(int r, int i, double weakest) {
    double strongest = weakest;
    int withRow = -1;
    int withPlace = -1;
    for (int s = 0; s < rows.length; s++) {
      for (int j = 0; j < rows[s].length; j++) {
        if (s != r && (rows[r][i] < fixed || rows[s][j] < fixed)) {
          continue;
        }
        swap(r, i, s, j);
        double found = Math.min(weakestToldApart(r), weakestToldApart(s));
        swap(r, i, s, j);
        if (found > strongest) {
          strongest = found;
          withRow = s;
          withPlace = j;
        }
      }
    }
    if (withRow < 0) {
      return false;
    }
    swap(r, i, withRow, withPlace);
    return true;
  }

  /** Turns the stretch from a place to another of its row round, where that helps. */
  private boolean turn(int r, int i, double weakest) {
    for (int j = i + 1; j < rows[r].length; j++) {
      reverse(rows[r], i, j);
      if (weakestToldApart(r) > weakest) {
        return true;
      }
      reverse(rows[r], i, j);
    }
    return false;
  }

  private static void reverse(int[] row, int from, int to) {
    for (int i = from, j = to; i < j; i++, j--) {
      int kept = row[i];
      row[i] = row[j];
      row[j] = kept;
    }
  }

  /** The least contrast of a row's neighbours. */
  private double weakest(int r) {
    double weakest = Double.POSITIVE_INFINITY;
    for (int i = 1; i < rows[r].length; i++) {
      weakest = Math.min(weakest, distance[rows[r][i - 1]][rows[r][i]]);
    }
    return weakest;
  }

  /** As {@link #weakest}; none where the row reads alike backwards. */
  private double weakestToldApart(int r) {
    return reversal(r) < LEAST_REVERSAL ? -1 : weakest(r);
  }
}
