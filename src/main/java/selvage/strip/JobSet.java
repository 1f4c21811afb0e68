package selvage.strip;

import java.util.ArrayList;
import java.util.List;
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

  static final int MOST_AUTO = 96;
  static final int USUAL_COUNT = 24;
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
    return new JobChoice(census, standard).choose(count, Wishes.NONE);
  }

  /**
   * The same set with the place of each patch's colour on the pages, and its worth for each page.
   *
   * @param located the pages that the set was chosen for
   */
  public JobSet located(List<PageColors> located) {
    return located(located, PatchReach::of);
  }

  JobSet located(List<PageColors> located, PatchPlaces.Search search) {
    if (patches.isEmpty()) {
      return this;
    }
    PatchPlaces places = PatchPlaces.of(patches, located, search);
    List<JobPatch> placed = new ArrayList<>();
    for (int i = 0; i < patches.size(); i++) {
      placed.add(patches.get(i).at(places.of(i)));
    }
    return new JobSet(placed, coverage, places.shares(), findings);
  }

  /** The role of a row among those of a set. */
  static String role(Census census, int row, List<Integer> rows) {
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
