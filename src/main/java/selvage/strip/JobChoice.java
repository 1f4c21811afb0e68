package selvage.strip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.ForkJoinTask;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.ink.InkMixture;
import selvage.survey.Census;

/**
 * The census of a page, or of several merged, while patches are chosen for it: what does not depend
 * on the set is worked out once. Safe for use by several threads.
 */
public final class JobChoice {
  /** What was searched for last; a set is often measured and then drawn. */
  private record Search(List<Lab> aims, NearestPatches found) {}

  /** The same of which patch stands for what. */
  private record Standing(List<InkMixture> mixtures, StandingPatches found) {}

  private final Census census;
  private final ColorCells cells;
  private final ForkJoinTask<InkCells> inkCells; // found beside what does not need it
  private final ForkJoinTask<Double> standardWithin3; // this too
  private final SpotRows spots;
  private final BitSet candidates;
  private final Map<Integer, JobSet> usual = new ConcurrentHashMap<>(); // by count
  private volatile MixtureRows rows; // null until a row is asked for
  private volatile Search last;
  private volatile Standing lastStanding;

  /**
   * Prepares a choice.
   *
   * @param standardAims the aims of the standard set, for comparison
   */
  public JobChoice(Census census, List<Lab> standardAims) {
    this.census = census;
    this.cells = ColorCells.of(census, JobSet.CELL_STEP);
    this.inkCells = ForkJoinPool.commonPool().submit(() -> InkCells.of(census, cells));
    this.standardWithin3 =
        ForkJoinPool.commonPool().submit(() -> standardWithin3(census, cells, standardAims));
    this.spots = new SpotRows(census, cells.total());
    this.candidates = Candidates.of(census, cells);
  }

  private static double standardWithin3(Census census, ColorCells cells, List<Lab> aims) {
    return cells.size() == 0 ? 0 : WithinReach.percent(census, cells, aims, NearestPatches.REACH);
  }

  /** The census that is chosen for. */
  public Census census() {
    return census;
  }

  /** The row of a mixture; empty where the census does not have it. */
  public Optional<Integer> row(InkMixture mixture) {
    int row = rowOf(mixture);
    return row < 0 ? Optional.empty() : Optional.of(row);
  }

  /**
   * Chooses patches.
   *
   * @param count how many at most, 1 to {@value JobSet#MOST_PATCHES}, or {@link JobSet#AUTO}, as
   *     {@link JobSet#choose} takes it; where more are kept, as many as are kept
   * @throws IllegalArgumentException where the count is none of these, or the census does not have
   *     a mixture that is to be kept
   */
  public JobSet choose(int count, Wishes wishes) {
    if (count < JobSet.AUTO || count > JobSet.MOST_PATCHES) {
      throw new IllegalArgumentException("patches: 1 to " + JobSet.MOST_PATCHES + ", not " + count);
    }
    return wishes.equals(Wishes.NONE)
        ? usual.computeIfAbsent(count, any -> chosen(any, wishes))
        : chosen(count, wishes);
  }

  private JobSet chosen(int count, Wishes wishes) {
    List<Integer> kept = wishes.kept().stream().map(this::requiredRow).toList();
    requireRoom(kept.size());
    if (cells.size() == 0) {
      return new JobSet(List.of(), new Coverage(0, 0, 0, 0), List.of(), List.of());
    }
    Set<Integer> dropped = new HashSet<>();
    wishes.dropped().forEach(mixture -> row(mixture).ifPresent(dropped::add));
    int forcedCount = count == JobSet.AUTO ? JobSet.USUAL_COUNT : count;
    ForcedPatches forced = ForcedPatches.of(census, cells, spots, forcedCount, kept, dropped);
    BitSet asked = (BitSet) candidates.clone();
    dropped.forEach(asked::clear);
    forced.rows().forEach(asked::set);
    CoverageSearch search =
        new CoverageSearch(census, cells, inkCells::join, asked.stream().toArray());
    List<Integer> chosen =
        count == JobSet.AUTO
            ? search.choose(forced, JobSet.MOST_AUTO, JobSet.AUTO_GAIN_PERCENT / 100)
            : search.choose(forced, count, 0);
    List<Finding> findings = new ArrayList<>(forced.findings());
    addDroppedSpots(dropped, chosen, findings);
    ForcedPatches anyway =
        kept.isEmpty()
            ? forced
            : ForcedPatches.of(census, cells, spots, forcedCount, List.of(), Set.of());
    List<Reason> reasons = new ArrayList<>();
    for (int place = 0; place < chosen.size(); place++) {
      reasons.add(reason(forced.reasonAt(place), anyway.reason(chosen.get(place))));
    }
    return measured(chosen, reasons, findings);
  }

  /** Why a row was taken; one that is kept may have been forced anyway. */
  private static Reason reason(Reason reason, Reason anyway) {
    boolean kept = reason == Reason.OPERATOR && anyway == Reason.COVERAGE;
    return reason == Reason.OPERATOR && !kept ? anyway : reason;
  }

  /**
   * Measures a set that is given.
   *
   * @param patches exactly these, in this order
   * @throws IllegalArgumentException where there is none or there are more than {@value
   *     JobSet#MOST_PATCHES}, a mixture stands twice, is paper, or does not occur in the census
   */
  public JobSet of(List<ChosenPatch> patches) {
    if (patches.isEmpty()) {
      throw new IllegalArgumentException("a set of no patches; take at least one");
    }
    requireRoom(patches.size());
    Map<Integer, Reason> reasons = new LinkedHashMap<>();
    for (ChosenPatch patch : patches) {
      if (reasons.put(requiredRow(patch.mixture()), patch.reason()) != null) {
        throw new IllegalArgumentException(patch.mixture() + " stands twice; take it once");
      }
    }
    List<Integer> taken = List.copyOf(reasons.keySet());
    List<Finding> findings = new ArrayList<>();
    addDroppedSpots(Set.copyOf(spots.leading()), taken, findings);
    addTintsTaken(reasons.keySet(), findings);
    return measured(taken, List.copyOf(reasons.values()), findings);
  }

  /**
   * What some patches tell of every row of the census.
   *
   * @param patches at least one
   */
  public PatchReach reach(List<JobPatch> patches) {
    return reach(
        patches.stream().map(JobPatch::mixture).toList(),
        patches.stream().map(patch -> patch.aim().lab()).toList());
  }

  private PatchReach reach(List<InkMixture> mixtures, List<Lab> aims) {
    return new PatchReach(standing(mixtures, aims), search(aims));
  }

  /**
   * As {@link JobSet#located(List)}, the sooner where a page has the census that is chosen for.
   *
   * @param set of this choice
   * @param pages that it was chosen for
   */
  public JobSet located(JobSet set, List<PageColors> pages) {
    return set.located(
        pages,
        (of, mixtures, aims) ->
            of == census ? reach(mixtures, aims) : PatchReach.of(of, mixtures, aims));
  }

  private NearestPatches search(List<Lab> aims) {
    Search known = last;
    if (known == null || !known.aims().equals(aims)) {
      known = new Search(aims, NearestPatches.of(census, cells, aims));
      last = known;
    }
    return known.found();
  }

  private StandingPatches standing(List<InkMixture> mixtures, List<Lab> aims) {
    Standing known = lastStanding;
    if (known == null || !known.mixtures().equals(mixtures)) {
      known = new Standing(mixtures, StandingPatches.of(census, inkCells.join(), mixtures, aims));
      lastStanding = known;
    }
    return known.found();
  }

  private int rowOf(InkMixture mixture) {
    MixtureRows known = rows;
    if (known == null) {
      known = new MixtureRows(census);
      rows = known;
    }
    return known.row(mixture);
  }

  private int requiredRow(InkMixture mixture) {
    if (mixture.isPaper()) {
      throw new IllegalArgumentException(
          "the paper is no patch of the job; every row of a strip has it anyway");
    }
    int row = rowOf(mixture);
    if (row < 0) {
      throw new IllegalArgumentException(
          "the job does not have " + mixture + " here; take a mixture that it has");
    }
    return row;
  }

  private static void requireRoom(int patches) {
    if (patches > JobSet.MOST_PATCHES) {
      throw new IllegalArgumentException(
          patches + " patches, at most " + JobSet.MOST_PATCHES + "; leave some out");
    }
  }

  /** A doubt for each row of some that stands for a spot and is not in the set. */
  private void addDroppedSpots(Set<Integer> dropped, List<Integer> taken, List<Finding> findings) {
    for (int row : spots.leading()) {
      if (dropped.contains(row) && !taken.contains(row)) {
        long others = taken.stream().filter(other -> spots.shareSpot(row, other)).count();
        findings.add(
            Finding.warning(
                "spot-dropped",
                "an operator left out "
                    + census.mixture(row)
                    + ", the patch that tells whether the proof hits this spot colour where the job"
                    + " prints it fullest; "
                    + (others == 0
                        ? "no other patch"
                        : others == 1 ? "1 other patch" : others + " other patches")
                    + " of the strip "
                    + (others > 1 ? "have" : "has")
                    + " this ink"));
      }
    }
  }

  private void addTintsTaken(Set<Integer> taken, List<Finding> findings) {
    List<Integer> tints =
        spots.tints().stream().filter(row -> !spots.leading().contains(row)).toList();
    long found = tints.stream().filter(taken::contains).count();
    if (found < tints.size()) {
      findings.add(
          Finding.note(
              "spot-tints-thinned",
              "the job uses "
                  + tints.size()
                  + " flat tints of spot colours besides the leading ones; "
                  + found
                  + " of them are in the set that an operator approved"));
    }
  }

  private JobSet measured(List<Integer> taken, List<Reason> reasons, List<Finding> findings) {
    List<Lab> aims = taken.stream().map(row -> census.aim(row).lab()).toList();
    NearestPatches.Sums sums = search(aims).sums();
    StandingPatches standing = standing(taken.stream().map(census::mixture).toList(), aims);
    double inked = cells.total();
    List<JobPatch> patches = new ArrayList<>();
    for (int i = 0; i < taken.size(); i++) {
      int row = taken.get(i);
      patches.add(
          new JobPatch(
              census.mixture(row),
              census.aim(row),
              JobSet.role(census, row, taken),
              reasons.get(i),
              Optional.empty(),
              census.areaPercent(row),
              100 * standing.samples(i) / inked));
    }
    return new JobSet(
        patches,
        new Coverage(
            100 * sums.within2() / inked,
            100 * sums.within3() / inked,
            sums.distance() / inked,
            standardWithin3.join()),
        List.of(),
        findings);
  }
}
