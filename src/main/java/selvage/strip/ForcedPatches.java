package selvage.strip;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import selvage.finding.Finding;
import selvage.ink.Colorant;
import selvage.ink.Tint;
import selvage.survey.Census;

/**
 * The rows that a job strip has before coverage is asked for: every spot's solid, whatever its
 * area, or where the job never prints it, the spot's largest mixture; the flat tints of spots that
 * cover at least {@value #LEAST_TINT_PERCENT} % of the inked area; the darkest and the lightest
 * colour.
 */
final class ForcedPatches {
  /** Flat tints of spots are taken from this share of the inked area on, percent. */
  private static final double LEAST_TINT_PERCENT = 0.1;

  /** No more of the strip than this goes to tints of spots. */
  private static final double MOST_TINTS = 0.6;

  /** A tint nearer than this to a chosen tint of its spot, in ΔE00, adds nothing. */
  private static final float LEAST_STEP = 1.5f;

  /** Darkest and lightest are taken on strips of at least so many patches. */
  private static final int LEAST_FOR_EXTREMES = 12;

  /** The darkest and the lightest so many percent of the inked area are passed over as specks. */
  private static final double SPECKS_PERCENT = 0.5;

  /** An extreme nearer than this to a forced patch is there already. */
  private static final float EXTREME_IS_NEW = 3f;

  private final Census census;
  private final int count;
  private final double inked;
  private final Set<Integer> rows = new LinkedHashSet<>();
  private final List<Finding> findings = new ArrayList<>();

  private ForcedPatches(Census census, int count) {
    this.census = census;
    this.count = count;
    double sum = 0;
    for (int row = 0; row < census.size(); row++) {
      sum += census.isPaper(row) ? 0 : census.samples(row);
    }
    this.inked = sum;
  }

  /**
   * Finds them.
   *
   * @param count patches of the job strip; no more rows than these are forced
   */
  static ForcedPatches of(Census census, int count) {
    ForcedPatches forced = new ForcedPatches(census, count);
    forced.addSpots();
    if (count >= LEAST_FOR_EXTREMES) {
      forced.addExtremes();
    }
    return forced;
  }

  /** The rows, most needed first. */
  List<Integer> rows() {
    return List.copyOf(rows);
  }

  /** What had to be left out. */
  List<Finding> findings() {
    return List.copyOf(findings);
  }

  private void addSpots() {
    int colorants = census.colorants().size();
    int[] solid = new int[colorants];
    int[] pure = new int[colorants];
    int[] any = new int[colorants];
    List<Integer> tints = new ArrayList<>();
    java.util.Arrays.fill(solid, -1);
    java.util.Arrays.fill(pure, -1);
    java.util.Arrays.fill(any, -1);
    for (int row = 0; row < census.size(); row++) {
      int spot = -1;
      int inks = 0;
      for (int c = 0; c < colorants; c++) {
        if (census.tint(row, c) > 0) {
          inks++;
          if (census.colorants().get(c).isSpot()) {
            spot = c;
            any[c] = any[c] < 0 ? row : any[c];
          }
        }
      }
      if (inks != 1 || spot < 0) {
        continue;
      }
      pure[spot] = pure[spot] < 0 ? row : pure[spot];
      if (census.tint(row, spot) == Tint.FULL) {
        solid[spot] = row;
      } else if (Candidates.isFlat(census, row)) {
        tints.add(row);
      }
    }
    List<Integer> leading = new ArrayList<>();
    for (int c = 0; c < colorants; c++) {
      int row = solid[c] >= 0 ? solid[c] : pure[c] >= 0 ? pure[c] : any[c];
      if (row >= 0) {
        leading.add(row);
      }
    }
    leading.sort(null); // rows lie in order of area
    addLeading(leading);
    addTints(tints);
  }

  private void addLeading(List<Integer> leading) {
    for (int row : leading) {
      if (rows.size() < count) {
        rows.add(row);
      }
    }
    if (leading.size() > count) {
      findings.add(
          Finding.warning(
              "spots-left-out",
              "the job has "
                  + leading.size()
                  + " spot colours, the strip has room for "
                  + count
                  + " of them; ask for more patches"));
    }
  }

  /** Tints in order of area, passing over near twins where they don't all fit. */
  private void addTints(List<Integer> tints) {
    int room = Math.min(count - rows.size(), (int) (count * MOST_TINTS));
    List<Integer> wanted = tints.stream().filter(row -> !rows.contains(row)).toList();
    List<Integer> large =
        wanted.stream()
            .filter(row -> 100 * census.samples(row) >= LEAST_TINT_PERCENT * inked)
            .toList();
    List<Integer> taken = new ArrayList<>();
    for (int row : large) {
      boolean twin = !isNew(row, rows, LEAST_STEP) || !isNew(row, taken, LEAST_STEP);
      if (taken.size() < room && !(large.size() > room && twin)) {
        taken.add(row);
      }
    }
    rows.addAll(taken);
    if (taken.size() < wanted.size()) {
      findings.add(
          Finding.note(
              "spot-tints-thinned",
              String.format(
                  Locale.ROOT,
                  "the job uses %d flat tints of spot colours; the %d of greatest area are in the"
                      + " strip, the others (under %.1f %% of the inked area, alike, or past the"
                      + " strip's room) only where they serve coverage",
                  wanted.size(),
                  taken.size(),
                  LEAST_TINT_PERCENT)));
    }
  }

  private boolean isNew(int row, Iterable<Integer> others, float least) {
    for (int other : others) {
      if (sameSpot(row, other) && Candidates.de00(census, row, other) < least) {
        return false;
      }
    }
    return true;
  }

  private boolean sameSpot(int row, int other) {
    for (int c = 0; c < census.colorants().size(); c++) {
      Colorant colorant = census.colorants().get(c);
      if (colorant.isSpot() && (census.tint(row, c) > 0) != (census.tint(other, c) > 0)) {
        return false;
      }
    }
    return true;
  }

  private void addExtremes() {
    double[] byLightness = new double[202]; // samples a half unit of L*
    for (int row = 0; row < census.size(); row++) {
      if (!census.isPaper(row)) {
        byLightness[halfUnits(row)] += census.samples(row);
      }
    }
    double specks = inked * SPECKS_PERCENT / 100;
    int dark = 0;
    for (double sum = byLightness[0]; sum < specks && dark < 201; ) {
      sum += byLightness[++dark];
    }
    int light = 201;
    for (double sum = byLightness[light]; sum < specks && light > 0; ) {
      sum += byLightness[--light];
    }
    addLargestAt(dark);
    addLargestAt(light);
  }

  private int halfUnits(int row) {
    return Math.max(0, Math.min(201, (int) (2 * census.lab(row, 0))));
  }

  private void addLargestAt(int halfUnits) {
    for (int row = 0; row < census.size(); row++) {
      if (!census.isPaper(row) && halfUnits(row) == halfUnits) {
        boolean there = rows.size() >= count;
        for (int other : rows) {
          there |= Candidates.de00(census, row, other) < EXTREME_IS_NEW;
        }
        if (!there) {
          rows.add(row);
        }
        return;
      }
    }
  }
}
