package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Supplier;
import selvage.color.De00Kernel;
import selvage.survey.Census;

/**
 * Chooses rows so that as much inked area as possible lies within ΔE00 3 of a chosen one, and so
 * that what must be left outside lies near to one: greedy, then by exchange until no swap helps.
 *
 * <p>What is made as large as possible is Σ weight · max over chosen of u(ΔE00), u falling from 1
 * to 0.9 at the reach and there to 0, gradually where the reach cuts a cell. Where greedy comes to
 * less than {@value #ENOUGH} of the inked area so, the page has more colours than there are
 * patches. Then {@code λ · Σ weight · max over chosen of (1 − d / }{@value #FARTHEST}{@code )} is
 * added, d the distance in colour and inks ({@link InkCells}) and λ the larger the more is missing.
 * Such sums are monotone and submodular, so that the greedy choice reaches at least 1 − 1/e of the
 * best (Nemhauser, Wolsey, Fisher 1978 [nemhauser1978]); a flat mixture is preferred to a
 * photograph's where it loses at most {@value #FLAT_BONUS_PERCENT} % of a step's gain.
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
  private static final int MOST_PASSES = 50;

  /** From this worth on, of 1, coverage alone is asked for: about 94 % within reach. */
  private static final double ENOUGH = 0.88;

  /** What λ grows by, for a worth of 1 that is missing. */
  private static final double LAMBDA_A_WORTH = 15;

  private static final double MOST_LAMBDA = 3;

  /** A patch at this distance in colour and inks, or farther, tells nothing of a mixture. */
  private static final float FARTHEST = 60;

  /** What lies out of reach is asked for in cubes of this edge, in units of about one ΔE00. */
  private static final float ROUGH_STEP = 6;

  /** A place out of reach of less than this share of the inked area is passed over. */
  private static final double LEAST_PLACE = 0.0005;

  private final Census census;
  private final ColorCells cells;
  private final Supplier<InkCells> inkCells;
  private final int[] rows;
  private final boolean[] isFlat;
  private int size; // cells, later the rough places after them
  private final int[][] points; // of each candidate: the cells in reach
  private final float[][] worths; // of each candidate: their utility, times weight
  private final double[] all; // of each candidate: no less than all its worth

  /**
   * Prepares a search.
   *
   * @param cells the inked area, grouped by colour
   * @param inkCells and by inks; asked where coverage is not enough
   * @param rows the candidates, rising
   */
  CoverageSearch(Census census, ColorCells cells, Supplier<InkCells> inkCells, int[] rows) {
    this.census = census;
    this.rows = rows;
    this.cells = cells;
    this.inkCells = inkCells;
    this.size = cells.size();
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
      float reach = (REACH + SPREAD) / EvenSpace.leastQuotient(a, b);
      int found =
          cells.near(place, reach, EvenSpace.MOST_STEP_OF_LIGHTNESS * (REACH + SPREAD), near);
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

  /** Adds to what each candidate is worth that of the colours out of reach, times λ. */
  private void addRest(double lambda) {
    InkCells grouped = inkCells.get();
    InkPlaces rest = grouped.coarser(ROUGH_STEP).from(LEAST_PLACE * cells.total());
    int before = size;
    size += rest.size();
    double scale = lambda / cells.total();
    Parallel.each(
        rows.length,
        CANDIDATES_A_TASK,
        (from, to) -> {
          for (int candidate = from; candidate < to; candidate++) {
            addRest(candidate, grouped, rest, before, scale);
          }
        });
  }

  private void addRest(int candidate, InkCells grouped, InkPlaces rest, int before, double scale) {
    int known = points[candidate].length;
    int[] in = Arrays.copyOf(points[candidate], known + rest.size());
    float[] worth = Arrays.copyOf(worths[candidate], known + rest.size());
    double sum = 0;
    int found = known;
    for (int place = 0; place < rest.size(); place++) {
      float squared = grouped.squared(rows[candidate], rest.coordinates(), place);
      if (squared < FARTHEST * FARTHEST) {
        double near = 1 - Math.sqrt(squared) / FARTHEST;
        in[found] = before + place;
        worth[found] = (float) (scale * rest.weight(place) * near);
        sum += worth[found++];
      }
    }
    points[candidate] = Arrays.copyOf(in, found);
    worths[candidate] = Arrays.copyOf(worth, found);
    all[candidate] += sum * (1 + ROUNDING);
  }

  /**
   * Chooses.
   *
   * @param forced rows taken first, all of them candidates; where one may give way to others that
   *     serve its end as well, exchange does so
   * @param count how many in all
   * @param leastGain what the next one must add to what lies within reach, as a share of the inked
   *     area; 0 for as many as are asked for
   * @return rows, one for each of the forced ones first, then in the order of their gain; fewer
   *     than {@code count} where no further candidate gains
   */
  List<Integer> choose(ForcedPatches forced, int count, double leastGain) {
    State state = greedy(forced, count, leastGain);
    double lambda = leastGain > 0 ? 0 : lambda(state.worth(), forced.rows().size(), count);
    if (lambda > 0) {
      addRest(lambda);
      state = greedy(forced, count, leastGain);
    }
    improve(state, forced);
    List<Integer> result = new ArrayList<>();
    for (int candidate : state.chosen) {
      result.add(rows[candidate]);
    }
    return result;
  }

  /**
   * What the colours out of reach weigh: the more, the more is missing; less where half of the
   * strip is forced, since the few patches that are free are then wanted for coverage.
   */
  private static double lambda(double worth, int forced, int count) {
    double free = 1 - (double) forced / count;
    double part = Math.max(0.25, Math.min(1, 0.25 + 6 * (free - 0.5)));
    return part * Math.min(MOST_LAMBDA, LAMBDA_A_WORTH * (ENOUGH - worth));
  }

  private State greedy(ForcedPatches forced, int count, double leastGain) {
    State state = new State();
    for (int row : forced.rows()) {
      state.add(Arrays.binarySearch(rows, row));
    }
    while (state.chosen.size() < count) {
      int next = best(state, Math.max(LEAST_GAIN, leastGain));
      if (next < 0) {
        break;
      }
      state.add(next);
    }
    return state;
  }

  /** Asks the most promising first, until no other can be better. */
  private int best(State state, double least) {
    int best = -1;
    int bestFlat = -1;
    double most = least;
    double mostFlat = least;
    boolean[] isAsked = state.isChosen.clone();
    while (true) {
      int candidate = state.mostPromising(isAsked);
      if (candidate < 0 || state.bound[candidate] < most * (1 - FLAT_BONUS_PERCENT / 100)) {
        return bestFlat >= 0 && mostFlat >= most * (1 - FLAT_BONUS_PERCENT / 100) ? bestFlat : best;
      }
      isAsked[candidate] = true;
      double gain = state.gain(candidate);
      if (gain > most || (gain == most && candidate < best)) {
        most = gain;
        best = candidate;
      }
      boolean isMoreFlat = gain > mostFlat || (gain == mostFlat && candidate < bestFlat);
      if (isFlat[candidate] && isMoreFlat) {
        mostFlat = gain;
        bestFlat = candidate;
      }
    }
  }

  /** Takes each candidate in turn in the place of the one that is best left out for it. */
  private void improve(State state, ForcedPatches forced) {
    boolean improved = true;
    for (int pass = 0; improved && pass < MOST_PASSES; pass++) {
      improved = false;
      state.sumLosses();
      for (int candidate = 0; candidate < rows.length; candidate++) {
        improved |= !state.isChosen[candidate] && state.swapIn(candidate, forced);
      }
    }
  }

  /** What is chosen so far, and for each cell the worth of its best and second choice. */
  private final class State {
    private final List<Integer> chosen = new ArrayList<>();
    private final boolean[] isChosen = new boolean[rows.length];
    private final double[] bound = all.clone(); // of each candidate: no less than its gain
    private final float[] first = new float[size];
    private final float[] second = new float[size];
    private final int[] owner = new int[size];
    private double[] loss; // by place: what leaving it out would lose
    private double[] kept; // by place: what of this a candidate would keep

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

    /** The candidate that may add most; -1 where all are asked. */
    int mostPromising(boolean[] isAsked) {
      int promising = -1;
      double most = -1;
      for (int candidate = 0; candidate < isAsked.length; candidate++) {
        if (bound[candidate] > most && !isAsked[candidate]) {
          most = bound[candidate];
          promising = candidate;
        }
      }
      return promising;
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

    /** What the choice is worth. */
    double worth() {
      double sum = 0;
      for (float worth : first) {
        sum += worth;
      }
      return sum;
    }

    void sumLosses() {
      loss = new double[chosen.size()];
      kept = new double[chosen.size()];
      for (int cell = 0; cell < first.length; cell++) {
        if (first[cell] > 0) {
          loss[owner[cell]] += first[cell] - second[cell];
        }
      }
    }

    /** Makes the best swap for a candidate; false where none gains. */
    boolean swapIn(int candidate, ForcedPatches forced) {
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
      double better = LEAST_GAIN;
      int out = -1;
      for (int place = 0; place < loss.length; place++) {
        double change = gain - loss[place] + kept[place];
        if (!isFlat[candidate] && isFlat[chosen.get(place)]) {
          change -= FLAT_BONUS_PERCENT / 100 * loss[place];
        }
        if (change > better && forced.mayStandAt(place, rows[candidate])) {
          better = change;
          out = place;
        }
      }
      if (out < 0) {
        return false;
      }
      isChosen[chosen.get(out)] = false;
      isChosen[candidate] = true;
      chosen.set(out, candidate);
      recover();
      sumLosses();
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
