package selvage.power;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import selvage.finding.InputException;
import selvage.strip.JobPatch;
import selvage.strip.JobSet;
import selvage.strip.Reason;
import selvage.strip.StandardStrip;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;
import selvage.workflow.SurveyJob;

/**
 * How much of a page any 24 of its own mixtures could have within ΔE00 3, beside what the choice
 * has: the search is for a maximum, and says nothing of how far it fell short.
 *
 * <p>Of {@value #SAMPLES} samples, drawn at even steps of area, the bound is that of a Lagrangian
 * relaxation (Fisher 1981 [fisher1981]). Sample i is worth its weight w where a chosen mixture lies
 * within reach; a price u, from 0 to w, is asked for that. Whatever the prices, no choice of n is
 * worth more than {@code Σ (w − u)} and the n largest of the sums of prices that the mixtures have
 * in reach. The prices are moved so that this falls. No choice among the sampled mixtures is better
 * than the bound; a mixture that is not sampled has one nearly like it that is.
 */
public final class CoverageBound {
  private static final int SAMPLES = 8000;
  private static final int COUNT = 24;
  private static final float REACH = 3;
  private static final int STEPS = 3000;

  private final PowerPage page;
  private final int[] rows; // sampled, each once
  private final double[] weights; // shares of all samples
  private final int[][] inReach; // of each sampled row, as candidate, the sampled rows near to it

  private CoverageBound(PowerPage page) {
    this.page = page;
    this.rows = page.evenly(SAMPLES).stream().distinct().mapToInt(Integer::intValue).toArray();
    this.weights = new double[rows.length];
    for (int row : page.evenly(SAMPLES)) {
      weights[Arrays.binarySearch(rows, row)] += 1.0 / SAMPLES;
    }
    this.inReach = new int[rows.length][];
    IntStream.range(0, rows.length).parallel().forEach(i -> inReach[i] = near(rows[i]));
  }

  private int[] near(int row) {
    return IntStream.range(0, rows.length)
        .filter(i -> PowerPage.de00(page.aims, row, page.aims, rows[i]) <= REACH)
        .toArray();
  }

  /**
   * Runs.
   *
   * @param args a folder for the drawn pages; then PDF files, none for the drawn ones
   */
  public static void main(String[] args) throws IOException, InputException {
    Path folder = Path.of(args[0]);
    Files.createDirectories(folder);
    List<Path> files = new ArrayList<>();
    for (int i = 1; i < args.length; i++) {
      files.add(Path.of(args[i]));
    }
    if (files.isEmpty()) {
      files.addAll(PowerBenchmark.drawn(folder));
    }
    System.out.println("page;chosen %;forced;at most with these %;at most of any 24 %");
    for (Path file : files) {
      JobSurvey survey = new SurveyJob(SurveyJob.Request.of(file)).run();
      for (PageSurvey surveyed : survey.pages()) {
        String title = PowerPage.title(file, surveyed.page());
        PowerPage page =
            new PowerPage(title, surveyed, survey.condition(), StandardStrip.load("full"));
        System.out.println(title + ";" + new CoverageBound(page).line());
      }
    }
  }

  private String line() {
    List<JobPatch> chosen = JobSet.choose(page.census, COUNT, List.of()).patches();
    int[] forced =
        chosen.stream()
            .filter(patch -> patch.reason() != Reason.COVERAGE)
            .mapToInt(patch -> page.row(patch.mixture()))
            .toArray();
    int[] all = chosen.stream().mapToInt(patch -> page.row(patch.mixture())).toArray();
    double worth = worth(all);
    return String.format(
        Locale.ROOT,
        "%.1f;%d;%.1f;%.1f",
        100 * worth,
        forced.length,
        100 * bound(forced, worth),
        100 * bound(new int[0], worth));
  }

  private double worth(int[] chosen) {
    BitSet within = new BitSet();
    for (int row : chosen) {
      for (int i : near(row)) {
        within.set(i);
      }
    }
    return within.stream().mapToDouble(i -> weights[i]).sum();
  }

  /**
   * The least bound found.
   *
   * @param forced rows that are chosen anyway
   * @param reached what some choice is worth
   */
  private double bound(int[] forced, double reached) {
    BitSet covered = new BitSet();
    for (int row : forced) {
      for (int i : near(row)) {
        covered.set(i);
      }
    }
    double anyway = covered.stream().mapToDouble(i -> weights[i]).sum();
    int left = COUNT - forced.length;
    double[] prices = new double[rows.length];
    for (int i = 0; i < prices.length; i++) {
      prices[i] = covered.get(i) ? 0 : weights[i] / 2;
    }
    double least = 1;
    double pace = 1;
    int idle = 0;
    for (int step = 0; step < STEPS; step++) {
      double[] sums = new double[rows.length];
      IntStream.range(0, rows.length)
          .parallel()
          .forEach(
              candidate -> {
                double sum = 0;
                for (int i : inReach[candidate]) {
                  sum += prices[i];
                }
                sums[candidate] = sum;
              });
      int[] best =
          IntStream.range(0, rows.length)
              .boxed()
              .sorted((one, other) -> Double.compare(sums[other], sums[one]))
              .limit(left)
              .mapToInt(Integer::intValue)
              .toArray();
      double bound = anyway;
      for (int i = 0; i < prices.length; i++) {
        bound += covered.get(i) ? 0 : weights[i] - prices[i];
      }
      int[] times = new int[rows.length];
      for (int candidate : best) {
        bound += sums[candidate];
        for (int i : inReach[candidate]) {
          times[i]++;
        }
      }
      if (bound < least - 1e-6) {
        least = bound;
        idle = 0;
      } else if (++idle == 30) {
        pace /= 2;
        idle = 0;
      }
      lower(prices, covered, times, pace * (bound - reached));
    }
    return least;
  }

  /** Moves prices against the slope of the bound, by a step that would bring it so far down. */
  private void lower(double[] prices, BitSet covered, int[] times, double down) {
    double squares = 0;
    for (int i = 0; i < prices.length; i++) {
      if (!covered.get(i)) {
        squares += weights[i] * (times[i] - 1.0) * (times[i] - 1.0);
      }
    }
    double scale = down / Math.max(1e-9, squares);
    for (int i = 0; i < prices.length; i++) {
      if (!covered.get(i)) {
        prices[i] =
            Math.max(0, Math.min(weights[i], prices[i] - scale * weights[i] * (times[i] - 1)));
      }
    }
  }
}
