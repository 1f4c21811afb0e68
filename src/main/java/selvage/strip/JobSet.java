package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.survey.Census;

/**
 * The patches of a job's own colours and what they are worth.
 *
 * <p>Roles: {@code spot-solid}, {@code spot-tint} (one spot alone), {@code spot-overprint} (a spot
 * with other inks), {@code darkest} and {@code lightest} (of this set), {@code neutral} (process
 * inks, close to the grey axis from paper to black), {@code flat} (fills, strokes, text), {@code
 * image} (photographs and shadings).
 *
 * @param patches every mixture occurs in the job; empty where nothing is inked
 * @param coverage of the job set and of the standard colours; all 0 where nothing is inked
 * @param pages what the set is worth for each page; empty before {@link #located}
 * @param findings what was left out
 */
public record JobSet(
    List<JobPatch> patches, Coverage coverage, List<PageShare> pages, List<Finding> findings) {
  /** The most patches that may be asked for. */
  public static final int MOST_PATCHES = 200;

  static final double CELL_STEP = 1.5;

  /** The number of patches is found: {@link #AUTO_GAIN_PERCENT}. */
  public static final int AUTO = 0;

  /** Where the number is found, no patch is taken that adds less than this, percent. */
  public static final double AUTO_GAIN_PERCENT = 0.5;

  private static final int MOST_AUTO = 96;
  private static final int USUAL_COUNT = 24;
  static final double NEUTRAL_CHROMA = 4;

  public JobSet {
    patches = List.copyOf(patches);
    pages = List.copyOf(pages);
    findings = List.copyOf(findings);
  }

  /**
   * Chooses patches for a page.
   *
   * @param count how many at most, 1 to {@value #MOST_PATCHES}; or {@link #AUTO}: as many as each
   *     add {@value #AUTO_GAIN_PERCENT} % of the inked area to what lies within ΔE00 3, the forced
   *     ones apart, at most {@value #MOST_AUTO}
   * @param standard the aims of the standard set, for comparison
   */
  public static JobSet choose(Census census, int count, List<Lab> standard) {
    if (count < AUTO || count > MOST_PATCHES) {
      throw new IllegalArgumentException("patches: 1 to " + MOST_PATCHES + ", not " + count);
    }
    ColorCells cells = ColorCells.of(census, CELL_STEP);
    if (cells.size() == 0) {
      return new JobSet(List.of(), new Coverage(0, 0, 0, 0), List.of(), List.of());
    }
    ForcedPatches forced = ForcedPatches.of(census, cells, count == AUTO ? USUAL_COUNT : count);
    int[] candidates = Candidates.of(census, cells, forced.rows());
    CoverageSearch search = new CoverageSearch(census, cells, candidates);
    List<Integer> rows =
        count == AUTO
            ? search.choose(forced.rows(), MOST_AUTO, AUTO_GAIN_PERCENT / 100)
            : search.choose(forced.rows(), count, 0);
    return measured(census, cells, rows, standard, forced);
  }

  /**
   * The same set with the place of each patch's colour on the pages, and its worth for each page.
   *
   * @param located the pages that the set was chosen for
   */
  public JobSet located(List<PageColors> located) {
    if (patches.isEmpty()) {
      return this;
    }
    PatchPlaces places = PatchPlaces.of(patches, located);
    List<JobPatch> placed = new ArrayList<>();
    for (int i = 0; i < patches.size(); i++) {
      placed.add(patches.get(i).at(places.of(i)));
    }
    return new JobSet(placed, coverage, places.shares(), findings);
  }

  private static JobSet measured(
      Census census,
      ColorCells cells,
      List<Integer> rows,
      List<Lab> standard,
      ForcedPatches forced) {
    List<Lab> aims = rows.stream().map(row -> census.aim(row).lab()).toList();
    NearestPatches job = NearestPatches.of(census, cells, aims);
    NearestPatches.Sums sums = job.sums();
    double inked = cells.total();
    List<JobPatch> patches = new ArrayList<>();
    for (int i = 0; i < rows.size(); i++) {
      int row = rows.get(i);
      patches.add(
          new JobPatch(
              census.mixture(row),
              census.aim(row),
              role(census, row, rows),
              forced.reason(row),
              Optional.empty(),
              census.areaPercent(row),
              100 * sums.samples(i) / inked));
    }
    return new JobSet(
        patches,
        new Coverage(
            100 * sums.within2() / inked,
            100 * sums.within3() / inked,
            sums.distance() / inked,
            WithinReach.percent(census, cells, standard, 3)),
        List.of(),
        forced.findings());
  }

  private static String role(Census census, int row, List<Integer> rows) {
    InkMixture mixture = census.mixture(row);
    if (mixture.hasSpot()) {
      if (mixture.units().size() > 1) {
        return "spot-overprint";
      }
      return mixture.units().get(mixture.units().firstKey()) == Tint.FULL
          ? "spot-solid"
          : "spot-tint";
    }
    boolean darkest = rows.size() > 2;
    boolean lightest = rows.size() > 2;
    for (int other : rows) {
      darkest &= census.lab(row, 0) <= census.lab(other, 0);
      lightest &= census.lab(row, 0) >= census.lab(other, 0);
    }
    if (darkest || lightest) {
      return darkest ? "darkest" : "lightest";
    }
    if (census.aim(row).lab().chroma() <= NEUTRAL_CHROMA) {
      return "neutral";
    }
    return Candidates.isFlat(census, row) ? "flat" : "image";
  }
}
