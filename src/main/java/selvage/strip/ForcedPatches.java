package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import selvage.color.De00Kernel;
import selvage.finding.Finding;
import selvage.ink.Tint;
import selvage.survey.Census;

/**
 * The rows that a job strip has before coverage is asked for, most needed first:
 *
 * <ol>
 *   <li>every spot's solid, whatever its area; where the job never prints it alone and solid, the
 *       spot's largest pure tint, else its largest mixture;
 *   <li>the flat tints of spots from {@value #LEAST_TINT_PERCENT} % of the inked area on, by area,
 *       one of those that look alike;
 *   <li>flat mixtures of a spot with other inks from {@value SpotRows#LEAST_OVERPRINT_PERCENT} % of
 *       the inked area on, one for each eight patches;
 *   <li>on strips of {@value #LEAST_FOR_EXTREMES} patches or more, the darkest, the lightest and
 *       the most inked colour, and for each {@value #PATCHES_A_NEUTRAL} patches a neutral.
 * </ol>
 *
 * All but the spots' solids stop where half of the strip is filled. The last two kinds are left out
 * where a patch that is taken already looks nearly the same.
 *
 * <p>What an operator keeps stands before all of them, takes none of their room but that of the
 * strip, and counts as taken; what an operator drops is passed over.
 */
final class ForcedPatches {
  private static final double LEAST_TINT_PERCENT = 0.1;
  private static final int PATCHES_AN_OVERPRINT = 8;
  private static final int LEAST_FOR_EXTREMES = 12;
  private static final int PATCHES_A_NEUTRAL = 24;

  /** A tint nearer than this to a chosen mixture of the same spots, in ΔE00, adds nothing. */
  private static final float ALIKE = 1f;

  /** An extreme, an overprint or a neutral nearer than this to a forced patch is there already. */
  private static final float THERE = 3f;

  /** So near to an extreme, in ΔE00, its patch may lie where more of the page is covered. */
  private static final float NEARLY = 2f;

  /** Measures of extremes are looked at in steps of a half. */
  private static final double STEPS_A_UNIT = 2;

  /** The first so many percent of the inked area, counted from an extreme, are specks. */
  private static final double SPECKS_PERCENT = 0.5;

  /** Neutrals that cover less of the inked area than this need no patch of their own. */
  private static final double LEAST_NEUTRAL_PERCENT = 5;

  private final Census census;
  private final ColorCells cells;
  private final int count;
  private final SpotRows spotRows;
  private final int[] spots; // columns
  private final Set<Integer> dropped;
  private final Map<Integer, Reason> rows = new LinkedHashMap<>();
  private final Map<Integer, Integer> ends = new HashMap<>(); // of the rows that may give way
  private final List<Finding> findings = new ArrayList<>();
  private List<Integer> order = List.of(); // of the rows, once all are found

  private ForcedPatches(
      Census census,
      ColorCells cells,
      SpotRows spotRows,
      int count,
      List<Integer> kept,
      Set<Integer> dropped) {
    this.census = census;
    this.cells = cells;
    this.count = count;
    this.spotRows = spotRows;
    this.spots = spotRows.spots();
    this.dropped = dropped;
    kept.forEach(row -> rows.put(row, Reason.OPERATOR));
  }

  /**
   * Finds them.
   *
   * @param count patches of the job strip; no more rows than these are forced
   * @param kept rows that stand before the forced ones, because an operator wants them
   * @param dropped rows that an operator does not want
   */
  static ForcedPatches of(
      Census census,
      ColorCells cells,
      SpotRows spotRows,
      int count,
      List<Integer> kept,
      Set<Integer> dropped) {
    ForcedPatches forced = new ForcedPatches(census, cells, spotRows, count, kept, dropped);
    if (forced.spots.length > 0) {
      forced.addLeading();
      forced.addTints(spotRows.tints());
      forced.addOverprints(spotRows.overprints());
    }
    if (count >= LEAST_FOR_EXTREMES) {
      forced.addExtremes();
      forced.addNeutrals();
    }
    forced.order = List.copyOf(forced.rows.keySet());
    return forced;
  }

  /** The rows, most needed first. */
  List<Integer> rows() {
    return order;
  }

  /** Why the row at a place of a set was taken, which begins with these rows, in their order. */
  Reason reasonAt(int place) {
    return place < order.size() ? rows.get(order.get(place)) : Reason.COVERAGE;
  }

  /** Why a row was taken. */
  Reason reason(int row) {
    return rows.getOrDefault(row, Reason.COVERAGE);
  }

  /**
   * Whether a row may stand at a place of a set that begins with these rows, in their order. Of
   * them, a neutral gives way to another neutral and an extreme to a colour nearly as extreme, in
   * either case within ΔE00 {@value #THERE} of what was looked for; the others do not give way.
   */
  boolean mayStandAt(int place, int row) {
    if (place >= rows.size()) {
      return true;
    }
    int forced = order.get(place);
    Integer end = ends.get(forced);
    return end != null
        && (rows.get(forced) != Reason.NEUTRAL || isNeutral(row))
        && Candidates.de00(census, end, row) < THERE;
  }

  /** What had to be left out. */
  List<Finding> findings() {
    return List.copyOf(findings);
  }

  private void addLeading() {
    List<Integer> leading =
        spotRows.leading().stream().filter(row -> !dropped.contains(row)).toList();
    int left = 0;
    for (int row : leading) {
      if (rows.containsKey(row) || rows.size() < count) {
        rows.put(row, Reason.SPOT);
      } else {
        left++;
      }
    }
    if (left > 0) {
      findings.add(
          Finding.warning(
              "spots-left-out",
              "the job has "
                  + leading.size()
                  + " spot colours, the strip has room for "
                  + (leading.size() - left)
                  + " of them; ask for more patches"));
    }
  }

  private void addTints(List<Integer> tints) {
    int room = room();
    int wanted = 0;
    int taken = 0;
    for (int row : tints) {
      if (rows.containsKey(row) || dropped.contains(row)) {
        continue;
      }
      wanted++;
      boolean large = 100 * census.samples(row) >= LEAST_TINT_PERCENT * cells.total();
      if (large && taken < room && !hasTwin(row)) {
        rows.put(row, Reason.SPOT_TINT);
        taken++;
      }
    }
    if (taken < wanted) {
      findings.add(
          Finding.note(
              "spot-tints-thinned",
              String.format(
                  Locale.ROOT,
                  "the job uses %d flat tints of spot colours besides the leading ones; %d of them"
                      + " are in the strip, the others (under %.1f %% of the inked area, alike, or"
                      + " past the room) only where they serve coverage",
                  wanted,
                  taken,
                  LEAST_TINT_PERCENT)));
    }
  }

  private boolean hasTwin(int row) {
    for (int other : rows.keySet()) {
      if (spotRows.haveSameSpots(row, other) && Candidates.de00(census, row, other) < ALIKE) {
        return true;
      }
    }
    return false;
  }

  private void addOverprints(List<Integer> overprints) {
    int room = Math.min(room(), count / PATCHES_AN_OVERPRINT);
    for (int row : overprints) {
      if (room > 0 && addNew(row, Reason.OVERPRINT)) {
        room--;
      }
    }
  }

  /** How many more may be forced: half of the strip is for coverage, save from spots' solids. */
  private int room() {
    long kept = rows.values().stream().filter(reason -> reason == Reason.OPERATOR).count();
    int forced = rows.size() - (int) kept;
    return Math.max(0, Math.min(count / 2 - forced, count - rows.size()));
  }

  /** Takes a row unless there is no room or a forced patch looks nearly so. */
  private boolean addNew(int row, Reason reason) {
    if (room() == 0 || dropped.contains(row)) {
      return false;
    }
    for (int other : rows.keySet()) {
      if (Candidates.de00(census, row, other) < THERE) {
        return false;
      }
    }
    rows.put(row, reason);
    return true;
  }

  private void addExtremes() {
    double[] lightness = new double[cells.size()];
    double[] darkness = new double[cells.size()];
    double[] ink = new double[cells.size()];
    for (int cell = 0; cell < ink.length; cell++) {
      lightness[cell] = cells.lab(cell, 0);
      darkness[cell] = -lightness[cell];
      for (int c = 0; c < census.colorants().size(); c++) {
        ink[cell] += Tint.toPercent(census.tint(cells.member(cell), c));
      }
    }
    addExtreme(greatest(darkness, 1), Reason.DARKEST);
    addExtreme(greatest(lightness, 1), Reason.LIGHTEST);
    addExtreme(greatest(ink, 5), Reason.MOST_INK);
  }

  private void addExtreme(int cell, Reason reason) {
    int row = densestNear(cell);
    if (addNew(row, reason)) {
      ends.put(row, cells.member(cell));
    }
  }

  /**
   * The cell of an extreme: the one of greatest area among those where, by some measure, the specks
   * end.
   *
   * @param band how much less than there still counts
   */
  private int greatest(double[] measure, double band) {
    double most = Arrays.stream(measure).max().orElseThrow();
    double least = Arrays.stream(measure).min().orElseThrow();
    double[] weights = new double[(int) ((most - least) * STEPS_A_UNIT) + 1];
    for (int cell = 0; cell < measure.length; cell++) {
      weights[(int) ((most - measure[cell]) * STEPS_A_UNIT)] += cells.weight(cell);
    }
    double specks = SPECKS_PERCENT / 100 * cells.total();
    int at = 0;
    for (double sum = weights[0]; sum < specks && at < weights.length - 1; ) {
      sum += weights[++at];
    }
    double to = most - at / STEPS_A_UNIT;
    int best = -1;
    for (int cell = 0; cell < measure.length; cell++) {
      if (measure[cell] <= to
          && measure[cell] >= to - band
          && (best < 0 || cells.weight(cell) > cells.weight(best))) {
        best = cell;
      }
    }
    return best;
  }

  /** Of the cells that look nearly like one, the row where the page's colours lie densest. */
  private int densestNear(int cell) {
    float[] place = Arrays.copyOfRange(cells.places(), 3 * cell, 3 * cell + 3);
    int[] near = new int[cells.size()];
    int count = cells.near(place, NEARLY, NEARLY, near);
    int best = cell;
    double most = cells.weightAround(cell);
    for (int i = 0; i < count; i++) {
      double around = cells.weightAround(near[i]);
      if (around > most) {
        most = around;
        best = near[i];
      }
    }
    return cells.largestMember(best);
  }

  private void addNeutrals() {
    List<Integer> neutrals = new ArrayList<>();
    double area = 0;
    for (int cell = 0; cell < cells.size(); cell++) {
      if (isNeutral(cells.member(cell))) {
        neutrals.add(cell);
        area += cells.weight(cell);
      }
    }
    if (area < LEAST_NEUTRAL_PERCENT / 100 * cells.total()) {
      return;
    }
    double[] around = new double[cells.size()];
    neutrals.forEach(cell -> around[cell] = cells.weightAround(cell));
    neutrals.sort((one, other) -> Double.compare(around[other], around[one]));
    int room = count / PATCHES_A_NEUTRAL;
    for (int i = 0; i < neutrals.size() && room > 0; i++) {
      int row = cells.largestMember(neutrals.get(i));
      if (addNew(row, Reason.NEUTRAL)) {
        ends.put(row, row);
        room--;
      }
    }
  }

  private boolean isNeutral(int row) {
    if (De00Kernel.chroma(census.lab(row, 1), census.lab(row, 2)) > JobSet.NEUTRAL_CHROMA) {
      return false;
    }
    for (int spot : spots) {
      if (census.tint(row, spot) > 0) {
        return false;
      }
    }
    return true;
  }
}
