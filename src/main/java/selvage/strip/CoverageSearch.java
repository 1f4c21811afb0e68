package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import selvage.color.De00Kernel;
import selvage.survey.Census;

/**
 * Chooses rows so that as much inked area as possible lies within ΔE00 3 of a chosen one: greedy,
 * then by exchange until no swap helps.
 *
 * <p>What is made as large as possible is Σ weight · max over chosen of u(ΔE00), u falling from 1
 * to 0.9 at the reach and there to 0, gradually where the reach cuts a cell. Such a sum is monotone
 * and submodular, so that the greedy choice reaches at least 1 − 1/e of the best (Nemhauser,
 * Wolsey, Fisher 1978 [nemhauser1978]); a flat mixture is preferred to a photograph's where it
 * loses at most {@value #FLAT_BONUS_PERCENT} % of a step's gain.
 *
 * <p>Most gains need not be summed: none grows as more is chosen, so that its last known value
 * bounds it. What is found is what asking all candidates would find.
 */
final class CoverageSearch {
  /** Up to this ΔE00 a patch stands for a colour. */
  private static final float REACH = 3f;

  /**
   * Where a cell's mean lies nearer to the reach than this part of its radius, some rows do not.
   */
  private static final float SPREAD = 0.5f;

  /** What a colour at the reach is worth, of one that the patch has exactly. */
  private static final float WORTH_AT_REACH = 0.9f;

  private static final int CANDIDATES_A_TASK = 64;

  /** Sums in another order may differ by such a share. */
  private static final double ROUNDING = 1e-6;

  private static final double FLAT_BONUS_PERCENT = 2;
  private static final double LEAST_GAIN = 1e-6;
  private static final int MOST_SWAPS = 100;

  private final Census census;
  private final ColorCells cells;
  private final int[] rows;
  private final boolean[] isFlat;
  private final int[][] points; // of each candidate: the cells in reach
  private final float[][] worths; // of each candidate: their utility, times weight
  private final double[] all; // of each candidate: no less than all its worth

  /**
   * Prepares a search.
   *
   * @param cells the inked area, grouped
   * @param rows the candidates
   */
  CoverageSearch(Census census, ColorCells cells, int[] rows) {
    this.census = census;
    this.rows = rows;
    this.cells = cells;
    this.points = new int[rows.length][];
    this.worths = new float[rows.length][];
    this.all = new double[rows.length];
    this.isFlat = new boolean[rows.length];
    for (int candidate = 0; candidate < rows.length; candidate++) {
      isFlat[candidate] = Candidates.isFlat(census, rows[candidate]);
    }
    Parallel.each(rows.length, CANDIDATES_A_TASK, this::look);
  }

  /** Lists the cells in reach of some candidates. */
  private void look(int from, int to) {
    int[] inReach = new int[cells.size()];
    int[] near = new int[cells.size()];
    float[] worth = new float[cells.size()];
    float[] place = new float[3];
    float[] labs = census.labs();
    for (int candidate = from; candidate < to; candidate++) {
      int at = 3 * rows[candidate];
      float l = labs[at];
      float a = labs[at + 1];
      float b = labs[at + 2];
      float c = De00Kernel.chroma(a, b);
      EvenSpace.place(l, a, b, place, 0);
      int found = cells.near(place, (REACH + SPREAD) / EvenSpace.leastQuotient(a, b), near);
      int size = 0;
      double sum = 0;
      for (int i = 0; i < found; i++) {
        int cell = near[i];
        float utility = utility(cells.de00(cell, l, a, b, c), cells.radius(cell));
        if (utility > 0) {
          inReach[size] = cell;
          worth[size] = (float) (utility * cells.weight(cell) / cells.total());
          sum += worth[size++];
        }
      }
      points[candidate] = Arrays.copyOf(inReach, size);
      worths[candidate] = Arrays.copyOf(worth, size);
      all[candidate] = sum * (1 + ROUNDING);
    }
  }

  private static float utility(float de00, float radius) {
    float spread = SPREAD * radius;
    float within = de00 <= REACH - spread ? 1 : (REACH + spread - de00) / (2 * spread);
    return within <= 0 ? 0 : within * (1 - (1 - WORTH_AT_REACH) * Math.min(1, de00 / REACH));
  }

  /**
   * Chooses.
   *
   * @param forced rows taken first, all of them candidates
   * @param count how many in all
   * @param leastGain what the next one must add, as a share of the inked area
   * @return rows, the forced ones first, then in the order of their gain; fewer than {@code count}
   *     where no further candidate gains
   */
  List<Integer> choose(List<Integer> forced, int count, double leastGain) {
    State state = new State();
    for (int row : forced) {
      state.add(Arrays.binarySearch(rows, row));
    }
    int fixed = state.chosen.size();
    while (state.chosen.size() < count) {
      int next = best(state, Math.max(LEAST_GAIN, leastGain));
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

  private int best(State state, double least) {
    double sure = Math.max(least, state.gainOfMostPromising());
    int best = -1;
    int bestFlat = -1;
    double most = least;
    double mostFlat = least;
    for (int candidate = 0; candidate < rows.length; candidate++) {
      double enough = isFlat[candidate] ? sure * (1 - FLAT_BONUS_PERCENT / 100) : sure;
      if (state.isChosen[candidate] || state.bound[candidate] < enough) {
        continue;
      }
      double gain = state.gain(candidate);
      if (gain > most) {
        most = gain;
        best = candidate;
      }
      if (gain > mostFlat && isFlat[candidate]) {
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
    private final double[] bound = all.clone(); // of each candidate: no less than its gain
    private final float[] first = new float[cells.size()];
    private final float[] second = new float[cells.size()];
    private final int[] owner = new int[cells.size()];

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

    /** What the candidate would add that may add most; 0 where all are chosen. */
    double gainOfMostPromising() {
      int promising = -1;
      for (int candidate = 0; candidate < rows.length; candidate++) {
        if (!isChosen[candidate] && (promising < 0 || bound[candidate] > bound[promising])) {
          promising = candidate;
        }
      }
      return promising < 0 ? 0 : gain(promising);
    }

    double gain(int candidate) {
      int[] in = points[candidate];
      float[] worth = worths[candidate];
      double gain = 0;
      for (int i = 0; i < in.length; i++) {
        float more = worth[i] - first[in[i]];
        gain += more > 0 ? more : 0;
      }
      bound[candidate] = gain;
      return gain;
    }

    /** Makes the swap that gains most; false where none gains. */
    boolean swapBest(int fixed) {
      double[] loss = new double[chosen.size()];
      for (int cell = 0; cell < first.length; cell++) {
        if (first[cell] > 0) {
          loss[owner[cell]] += first[cell] - second[cell];
        }
      }
      double leastLoss = Double.MAX_VALUE;
      for (int place = fixed; place < loss.length; place++) {
        leastLoss = Math.min(leastLoss, loss[place]);
      }
      leastLoss *= 1 - ROUNDING;
      double better = LEAST_GAIN;
      int in = -1;
      int out = -1;
      double[] kept = new double[chosen.size()];
      for (int candidate = 0; candidate < rows.length; candidate++) {
        if (isChosen[candidate] || all[candidate] - leastLoss <= better) {
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
        for (int place = fixed; place < chosen.size(); place++) {
          double change = gain - loss[place] + kept[place];
          if (!isFlat[candidate] && isFlat[chosen.get(place)]) {
            change -= FLAT_BONUS_PERCENT / 100 * loss[place];
          }
          if (change > better) {
            better = change;
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
