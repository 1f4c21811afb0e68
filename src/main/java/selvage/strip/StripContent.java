package selvage.strip;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import selvage.color.ReferenceCondition;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.strip.StandardStrip.StandardPatch;
import selvage.survey.Census;

/**
 * What a strip is to show, before it has a shape.
 *
 * @param jobSha256 of the customer's file
 * @param page counted from 1; the page that the strip lies on
 * @param paper the substrate patch that every row has
 * @param job patches of the job set alone
 * @param standard patches of the standard set, those that serve the job too among them
 * @param standardName of the standard strip
 * @param label what is written beside the patches
 * @param inJobOrder whether the job's rows follow the order of {@code job}, instead of the one that
 *     makes neighbours differ most
 */
public record StripContent(
    String jobSha256,
    int page,
    PrintedPatch paper,
    List<PrintedPatch> job,
    List<PrintedPatch> standard,
    String standardName,
    StripLabel label,
    boolean inJobOrder) {
  public StripContent {
    job = List.copyOf(job);
    standard = List.copyOf(standard);
    if (!paper.mixture().isPaper() || paper.standardRole().isEmpty()) {
      throw new IllegalArgumentException("expected a substrate patch, found " + paper.mixture());
    }
  }

  /**
   * Puts a job set and a standard strip together. A mixture of both is printed once, with the
   * standard patches; substrate patches of the standard strip become those that every row has.
   *
   * @param census of the page or job, for the areas
   */
  public static StripContent of(
      String jobSha256,
      int page,
      Census census,
      JobSet jobSet,
      StandardStrip standard,
      ReferenceCondition condition,
      StripLabel label) {
    Map<InkMixture, Double> areas = areas(census, standard);
    Map<InkMixture, JobPatch> left = new HashMap<>();
    jobSet.patches().forEach(patch -> left.put(patch.mixture(), patch));
    List<PrintedPatch> standardPatches = new ArrayList<>();
    for (StandardPatch patch : standard.patches()) {
      if (!patch.mixture().isPaper()) {
        JobPatch shared = left.remove(patch.mixture());
        standardPatches.add(printed(patch, shared, condition, areas));
      }
    }
    List<PrintedPatch> jobPatches = new ArrayList<>();
    for (JobPatch patch : jobSet.patches()) {
      if (left.containsKey(patch.mixture())) {
        jobPatches.add(
            new PrintedPatch(
                patch.mixture(),
                patch.aim(),
                Optional.of(patch.role()),
                Optional.empty(),
                Optional.of(patch.reason()),
                patch.where(),
                patch.areaPercent(),
                patch.representsPercent()));
      }
    }
    StandardPatch paper = new StandardPatch(StandardStrip.SUBSTRATE, InkMixture.PAPER);
    return new StripContent(
        jobSha256,
        page,
        printed(paper, null, condition, areas),
        jobPatches,
        standardPatches,
        standard.name(),
        label,
        /* inJobOrder= */ false);
  }

  /** The same with the job's rows in the order in which its patches are given. */
  public StripContent inGivenOrder() {
    return new StripContent(jobSha256, page, paper, job, standard, standardName, label, true);
  }

  private static PrintedPatch printed(
      StandardPatch patch,
      JobPatch shared,
      ReferenceCondition condition,
      Map<InkMixture, Double> areas) {
    double[] cmyk = patch.mixture().cmyk();
    return new PrintedPatch(
        patch.mixture(),
        condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]),
        Optional.ofNullable(shared).map(JobPatch::role),
        Optional.of(patch.role()),
        Optional.ofNullable(shared).map(JobPatch::reason),
        Optional.ofNullable(shared).flatMap(JobPatch::where),
        areas.getOrDefault(patch.mixture(), 0.0),
        shared == null ? 0 : shared.representsPercent());
  }

  /** The area of each standard mixture that the job uses. */
  private static Map<InkMixture, Double> areas(Census census, StandardStrip standard) {
    Map<Long, InkMixture> wanted = new HashMap<>();
    wanted.put(0L, InkMixture.PAPER);
    for (StandardPatch patch : standard.patches()) {
      long key = 0;
      for (Colorant colorant : Colorant.PROCESS) {
        key = key << 16 | patch.mixture().units(colorant);
      }
      wanted.put(key, patch.mixture());
    }
    long[] keys = wanted.keySet().stream().mapToLong(Long::longValue).sorted().toArray();
    int[] shift = new int[census.colorants().size()];
    for (int c = 0; c < shift.length; c++) {
      int process = Colorant.PROCESS.indexOf(census.colorants().get(c));
      shift[c] = process < 0 ? -1 : 48 - 16 * process;
    }
    Map<InkMixture, Double> areas = new HashMap<>();
    for (int row = 0; row < census.size(); row++) {
      long key = 0;
      boolean spot = false;
      for (int c = 0; c < shift.length; c++) {
        int tint = census.tint(row, c);
        spot |= shift[c] < 0 && tint > 0;
        key |= shift[c] < 0 ? 0 : (long) tint << shift[c];
      }
      if (!spot && java.util.Arrays.binarySearch(keys, key) >= 0) {
        areas.merge(wanted.get(key), census.areaPercent(row), Double::sum);
      }
    }
    return areas;
  }
}
