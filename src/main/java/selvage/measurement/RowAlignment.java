package selvage.measurement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Readings laid along the rows of a strip at the least cost. The readings are cut into passes, each
 * over one row in one direction; within a pass a patch may be read twice or missed, as in the
 * alignment of sequences by dynamic programming [needleman1970]. Costs are ΔE*ab between readings
 * and aims, plus the penalties below (house rules, chosen on rehearsals). Rows may be read in any
 * order, twice or not at all.
 */
final class RowAlignment {
  /** A pass over a row: readings from (inclusive) to (exclusive). Rows count from 0. */
  record Pass(int row, boolean backwards, int from, int to) {}

  /** ΔE*ab above which a reading fits no worse: a patch may be printed quite wrong. */
  static final double CAP = 28;

  private static final double MISSED = 8;
  private static final double DOUBLED = 3;
  private static final double STRAY = 25;
  private static final double REPEATED_ROW = 5;
  private static final double BACKWARDS = 0.5;
  private static final double CUT_SHORT = 16;
  private static final int MOST_ROWS_COUNTED = 6;
  private static final double NEVER = 1e9;

  private final double[][] distance; // by reading and patch, capped
  private final int[] rowStart; // of each row among the patches, and the end
  private final int rows;
  private final boolean counted; // whether the rows read so far are part of a state
  private final double[][][] passes; // by first reading and 2·row + direction: cost by length
  private int sure = -1; // a reading that may not be stray

  private RowAlignment(double[][] distance, int[] rowStart) {
    this.distance = distance;
    this.rowStart = rowStart;
    this.rows = rowStart.length - 1;
    this.counted = rows <= MOST_ROWS_COUNTED;
    this.passes = new double[distance.length][2 * rows][];
    for (int from = 0; from < distance.length; from++) {
      costsFrom(from);
    }
  }

  /**
   * An alignment.
   *
   * @param cost of all readings and penalties
   * @param patchOf the patch of each reading, −1 for a stray one
   * @param passes in the order of reading
   */
  record Result(double cost, List<Integer> patchOf, List<Pass> passes) {}

  /**
   * The best alignment, and how much worse the best one is that gives some reading to a patch of
   * another colour.
   *
   * @param result the best alignment
   * @param margin ΔE*ab by which the next one costs more
   */
  record Decision(Result result, double margin) {}

  /**
   * Aligns.
   *
   * @param distance ΔE*ab by reading and patch, patches row by row
   * @param rowStart index of each row's first patch, and the number of patches
   * @param alike whether two patches are so much alike that it does not matter which is which
   */
  static Decision decide(double[][] distance, int[] rowStart, boolean[][] alike) {
    double[][] capped = new double[distance.length][];
    for (int i = 0; i < capped.length; i++) {
      capped[i] = distance[i].clone();
      for (int patch = 0; patch < capped[i].length; patch++) {
        capped[i][patch] = Math.min(CAP, capped[i][patch]);
      }
    }
    RowAlignment alignment = new RowAlignment(capped, rowStart);
    Result best = alignment.solve();
    double margin = NEVER;
    for (int reading = 0; reading < capped.length; reading++) {
      int patch = best.patchOf().get(reading);
      if (patch >= 0) {
        margin = Math.min(margin, alignment.costWithout(reading, alike[patch]) - best.cost());
      }
    }
    return new Decision(best, margin);
  }

  /**
   * How many steps {@link #decide} takes: for each reading, the tables of all rows and ways that
   * begin within the longest row before it.
   */
  static double steps(int readings, int[] rowStart) {
    double tables = 0;
    double longest = 0;
    for (int row = 0; row + 1 < rowStart.length; row++) {
      int length = rowStart[row + 1] - rowStart[row];
      tables += 2.0 * Math.min(readings, longest(length)) * length;
      longest = Math.max(longest, longest(length));
    }
    return readings * Math.min(readings, longest) * tables;
  }

  /** The least cost where a reading belongs to none of these patches, but to some other. */
  private double costWithout(int reading, boolean[] forbidden) {
    double[] before = distance[reading];
    double[] changed = before.clone();
    for (int patch = 0; patch < changed.length; patch++) {
      changed[patch] = forbidden[patch] ? NEVER : changed[patch];
    }
    distance[reading] = changed;
    sure = reading;
    double[][][] kept = new double[reading + 1][][];
    for (int from = reading; from >= 0 && reaches(from, reading); from--) {
      kept[from] = passes[from].clone();
      costsFrom(from);
    }
    double cost = solve().cost();
    distance[reading] = before;
    sure = -1;
    for (int from = reading; from >= 0 && kept[from] != null; from--) {
      passes[from] = kept[from];
    }
    return cost;
  }

  private boolean reaches(int from, int reading) {
    int longest = 0;
    for (int row = 0; row < rows; row++) {
      longest = Math.max(longest, longest(length(row)));
    }
    return from + longest > reading;
  }

  private int length(int row) {
    return rowStart[row + 1] - rowStart[row];
  }

  /** The most readings of one pass. */
  private static int longest(int length) {
    return length + Math.max(4, length / 3);
  }

  private int patch(int row, boolean backwards, int step) {
    return backwards ? rowStart[row + 1] - 1 - step : rowStart[row] + step;
  }

  private static double skipped(int patches) {
    return patches == 0 ? 0 : Math.min(patches * MISSED, CUT_SHORT + patches);
  }

  private void costsFrom(int from) {
    for (int row = 0; row < rows; row++) {
      for (int way = 0; way < 2; way++) {
        double[][] table = table(from, row, way == 1);
        double[] costs = new double[table.length];
        for (int used = 0; used < table.length; used++) {
          costs[used] = NEVER;
          for (int step = 1; step < table[used].length; step++) {
            costs[used] = Math.min(costs[used], table[used][step] + skipped(length(row) - step));
          }
        }
        passes[from][2 * row + way] = costs;
      }
    }
  }

  /** The least cost by number of readings used and of patches passed. */
  private double[][] table(int from, int row, boolean backwards) {
    int length = length(row);
    int most = Math.min(distance.length - from, longest(length));
    double[][] table = new double[most + 1][length + 1];
    for (int step = 0; step <= length; step++) {
      table[0][step] = skipped(step);
    }
    for (int used = 1; used <= most; used++) {
      double[] readingCosts = distance[from + used - 1];
      double stray = from + used - 1 == sure ? NEVER : STRAY;
      table[used][0] = NEVER;
      for (int step = 1; step <= length; step++) {
        double own = readingCosts[patch(row, backwards, step - 1)];
        double cost = table[used - 1][step - 1] + own;
        cost = Math.min(cost, table[used - 1][step] + DOUBLED + own);
        cost = Math.min(cost, table[used - 1][step] + stray);
        table[used][step] = Math.min(cost, table[used][step - 1] + MISSED);
      }
    }
    return table;
  }

  private Result solve() {
    int n = distance.length;
    int states = counted ? 1 << rows : 1;
    double[][] best = new double[n + 1][states];
    int[][] back = new int[n + 1][states]; // 2·row + direction of the last pass, or −1 for a stray
    int[][] used = new int[n + 1][states];
    int[][] before = new int[n + 1][states];
    for (double[] row : best) {
      Arrays.fill(row, NEVER);
    }
    best[0][0] = 0;
    for (int at = 0; at < n; at++) {
      for (int state = 0; state < states; state++) {
        double here = best[at][state];
        if (here >= NEVER) {
          continue;
        }
        double stray = here + (at == sure ? NEVER : STRAY);
        if (stray < best[at + 1][state]) {
          best[at + 1][state] = stray;
          back[at + 1][state] = -1;
          used[at + 1][state] = 1;
          before[at + 1][state] = state;
        }
        for (int way = 0; way < 2 * rows; way++) {
          int bit = counted ? 1 << (way / 2) : 0;
          double start = here + (way % 2) * BACKWARDS + ((state & bit) != 0 ? REPEATED_ROW : 0);
          double[] costs = passes[at][way];
          int next = state | bit;
          for (int length = 1; length < costs.length; length++) {
            double cost = start + costs[length];
            if (cost < best[at + length][next]) {
              best[at + length][next] = cost;
              back[at + length][next] = way;
              used[at + length][next] = length;
              before[at + length][next] = state;
            }
          }
        }
      }
    }
    int end = 0;
    double least = NEVER;
    for (int state = 0; state < states; state++) {
      double cost = best[n][state] + unread(state);
      if (cost < least) {
        least = cost;
        end = state;
      }
    }
    return traced(least, end, back, used, before);
  }

  private double unread(int state) {
    double cost = 0;
    for (int row = 0; counted && row < rows; row++) {
      cost += (state & (1 << row)) == 0 ? skipped(length(row)) : 0;
    }
    return cost;
  }

  private Result traced(double cost, int end, int[][] back, int[][] used, int[][] before) {
    int n = distance.length;
    Integer[] patchOf = new Integer[n];
    Arrays.fill(patchOf, -1);
    List<Pass> found = new ArrayList<>();
    if (cost < NEVER) {
      int at = n;
      int state = end;
      while (at > 0) {
        int from = at - used[at][state];
        if (back[at][state] >= 0) {
          Pass pass = new Pass(back[at][state] / 2, back[at][state] % 2 == 1, from, at);
          found.add(0, pass);
          trace(pass, patchOf);
        }
        int earlier = before[at][state];
        at = from;
        state = earlier;
      }
    }
    return new Result(cost, List.of(patchOf), found);
  }

  private void trace(Pass pass, Integer[] patchOf) {
    int length = length(pass.row());
    double[][] table = table(pass.from(), pass.row(), pass.backwards());
    int used = pass.to() - pass.from();
    int step = 1;
    for (int other = 1; other <= length; other++) {
      if (table[used][other] + skipped(length - other)
          < table[used][step] + skipped(length - step)) {
        step = other;
      }
    }
    while (used > 0 && step > 0) {
      int patch = patch(pass.row(), pass.backwards(), step - 1);
      double own = distance[pass.from() + used - 1][patch];
      double here = table[used][step];
      if (here == table[used - 1][step - 1] + own) {
        patchOf[pass.from() + used - 1] = patch;
        used--;
        step--;
      } else if (here == table[used - 1][step] + DOUBLED + own) {
        patchOf[pass.from() + used - 1] = patch;
        used--;
      } else if (here == table[used][step - 1] + MISSED) {
        step--;
      } else {
        used--;
      }
    }
  }
}
