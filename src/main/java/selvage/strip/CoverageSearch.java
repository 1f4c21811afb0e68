package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import selvage.color.De00Kernel;
import selvage.survey.Census;

/**
 * Chooses rows so that as much inked area as possible lies near a chosen one: greedy, then by
 * exchange until no swap helps.
 *
 * <p>What is made as large as possible is Σ weight · max over chosen of u(ΔE00), u falling from 1
 * to 0. Such a sum is monotone and submodular, so that the greedy choice reaches at least 1 − 1/e
 * of the best (Nemhauser, Wolsey, Fisher 1978 [nemhauser1978]); a flat mixture is preferred to a
 * photograph's where it loses at most {@value #FLAT_BONUS_PERCENT} % of a step's gain.
 */
final class CoverageSearch {
  /** Beyond this ΔE00 a patch says nothing of a colour. */
  private static final float REACH = 8f;

  /** Up to this ΔE00 a patch stands for a colour nearly as for its own. */
  private static final float NEAR = 3f;

  /** What {@link #NEAR} is still worth. */
  private static final float WORTH_AT_NEAR = 0.8f;

  private static final double FLAT_BONUS_PERCENT = 2;
  private static final double LEAST_GAIN = 1e-6;
  private static final int MOST_SWAPS = 100;

  private final Census census;
  private final int[] rows;
  private final int[][] points; // of each candidate: the cells in reach
  private final float[][] worths; // of each candidate: their utility, times weight
  private final double total;
  private final int cells;

  /**
   * Prepares a search.
   *
   * @param cells the inked area, grouped
   * @param rows the candidates
   */
  CoverageSearch(Census census, ColorCells cells, int[] rows) {
    this.census = census;
    this.rows = rows;
    this.cells = cells.size();
    this.points = new int[rows.length][];
    this.worths = new float[rows.length][];
    double sum = 0;
    for (int cell = 0; cell < cells.size(); cell++) {
      sum += cells.weight(cell);
    }
    this.total = sum;
    int[] inReach = new int[cells.size()];
    float[] worth = new float[cells.size()];
    for (int candidate = 0; candidate < rows.length; candidate++) {
      int row = rows[candidate];
      float l = census.lab(row, 0);
      float a = census.lab(row, 1);
      float b = census.lab(row, 2);
      float c = De00Kernel.chroma(a, b);
      int size = 0;
      for (int cell = 0; cell < cells.size(); cell++) {
        if (isFar(cells, cell, l, a, b, c)) {
          continue;
        }
        float utility = utility(cells.de00(cell, l, a, b, c));
        if (utility > 0) {
          inReach[size] = cell;
          worth[size++] = (float) (utility * cells.weight(cell) / total);
        }
      }
      points[candidate] = Arrays.copyOf(inReach, size);
      worths[candidate] = Arrays.copyOf(worth, size);
    }
  }

  /**
   * Whether a cell is surely out of reach. Of a distance in a*b* no weight takes more than S_C, and
   * the rotation of the blues seldom more than half of its square; a wrong guess costs a little
   * coverage, never exactness.
   */
  private static boolean isFar(ColorCells cells, int cell, float l, float a, float b, float c) {
    float lightness = De00Kernel.atLeast(l, cells.lab(cell, 0));
    float da = cells.lab(cell, 1) - a;
    float db = cells.lab(cell, 2) - b;
    float sc = 1 + 0.0225f * (c + cells.chroma(cell));
    return lightness * lightness + 0.5f * (da * da + db * db) / (sc * sc) > REACH * REACH;
  }

  private static float utility(float de00) {
    if (de00 <= NEAR) {
      return 1 - (1 - WORTH_AT_NEAR) * de00 / NEAR;
    }
    return de00 >= REACH ? 0 : 0.5f * WORTH_AT_NEAR * (REACH - de00) / (REACH - NEAR);
  }

  /**
   * Chooses.
   *
   * @param forced rows taken first, all of them candidates
   * @param count how many in all
   * @return rows, the forced ones first, then in the order of their gain; fewer than {@code count}
   *     where no further candidate gains
   */
  List<Integer> choose(List<Integer> forced, int count) {
    State state = new State();
    for (int row : forced) {
      state.add(Arrays.binarySearch(rows, row));
    }
    int fixed = state.chosen.size();
    while (state.chosen.size() < count) {
      int next = best(state);
      if (next < 0) {
        break;
      }
      state.add(next);
    }
    improve(state, fixed);
    List<Integer> result = new ArrayList<>();
    for (int candidate : state.chosen) {
      result.add(rows[candidate]);
    }
    return result;
  }

  private int best(State state) {
    int best = -1;
    int bestFlat = -1;
    double most = LEAST_GAIN;
    double mostFlat = LEAST_GAIN;
    for (int candidate = 0; candidate < rows.length; candidate++) {
      double gain = state.isChosen[candidate] ? 0 : state.gain(candidate);
      if (gain > most) {
        most = gain;
        best = candidate;
      }
      if (gain > mostFlat && Candidates.isFlat(census, rows[candidate])) {
        mostFlat = gain;
        bestFlat = candidate;
      }
    }
    return bestFlat >= 0 && mostFlat >= most * (1 - FLAT_BONUS_PERCENT / 100) ? bestFlat : best;
  }

  private void improve(State state, int fixed) {
    for (int swap = 0; swap < MOST_SWAPS; swap++) {
      if (!state.swapBest(fixed)) {
        return;
      }
    }
  }

  /** What is chosen so far, and for each cell the worth of its best and second choice. */
  private final class State {
    private final List<Integer> chosen = new ArrayList<>();
    private final boolean[] isChosen = new boolean[rows.length];
    private final float[] first = new float[cells];
    private final float[] second = new float[cells];
    private final int[] owner = new int[cells];

    void add(int candidate) {
      isChosen[candidate] = true;
      chosen.add(candidate);
      cover(candidate, chosen.size() - 1);
    }

    private void cover(int candidate, int place) {
      int[] in = points[candidate];
      float[] worth = worths[candidate];
      for (int i = 0; i < in.length; i++) {
        int cell = in[i];
        if (worth[i] > first[cell]) {
          second[cell] = first[cell];
          first[cell] = worth[i];
          owner[cell] = place;
        } else if (worth[i] > second[cell]) {
          second[cell] = worth[i];
        }
      }
    }

    double gain(int candidate) {
      int[] in = points[candidate];
      float[] worth = worths[candidate];
      double gain = 0;
      for (int i = 0; i < in.length; i++) {
        float more = worth[i] - first[in[i]];
        gain += more > 0 ? more : 0;
      }
      return gain;
    }

    /** Makes the swap that gains most; false where none gains. */
    boolean swapBest(int fixed) {
      double[] loss = new double[chosen.size()];
      for (int cell = 0; cell < cells; cell++) {
        if (first[cell] > 0) {
          loss[owner[cell]] += first[cell] - second[cell];
        }
      }
      double most = LEAST_GAIN;
      int in = -1;
      int out = -1;
      double[] kept = new double[chosen.size()];
      for (int candidate = 0; candidate < rows.length; candidate++) {
        if (isChosen[candidate]) {
          continue;
        }
        Arrays.fill(kept, 0);
        double gain = 0;
        int[] near = points[candidate];
        float[] worth = worths[candidate];
        for (int i = 0; i < near.length; i++) {
          int cell = near[i];
          if (worth[i] > first[cell]) {
            gain += worth[i] - first[cell];
            kept[owner[cell]] += first[cell] - second[cell];
          } else if (worth[i] > second[cell]) {
            kept[owner[cell]] += worth[i] - second[cell];
          }
        }
        boolean flat = Candidates.isFlat(census, rows[candidate]);
        for (int place = fixed; place < chosen.size(); place++) {
          double better = gain - loss[place] + kept[place];
          if (!flat && Candidates.isFlat(census, rows[chosen.get(place)])) {
            better -= FLAT_BONUS_PERCENT / 100 * loss[place];
          }
          if (better > most) {
            most = better;
            in = candidate;
            out = place;
          }
        }
      }
      if (in < 0) {
        return false;
      }
      isChosen[chosen.get(out)] = false;
      isChosen[in] = true;
      chosen.set(out, in);
      recover();
      return true;
    }

    private void recover() {
      Arrays.fill(first, 0);
      Arrays.fill(second, 0);
      for (int place = 0; place < chosen.size(); place++) {
        cover(chosen.get(place), place);
      }
    }
  }
}
