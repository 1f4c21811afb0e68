package selvage.power;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import selvage.draw.BenchmarkPage;
import selvage.draw.DemoJob;
import selvage.draw.SizedSheet;
import selvage.finding.InputException;
import selvage.strip.StandardStrip;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;
import selvage.workflow.SurveyJob;

/**
 * What a strip's verdict is worth: how often it agrees with the truth, which is the ΔE00 of every
 * sample of the page. Random devices print the page and the patches, an instrument with noise reads
 * the patches; the job is bad where its area mean is over 2.5 or its area 95th percentile over 5.
 *
 * <p>{@code docs/benchmarks.md} says how to run it.
 */
public final class PowerBenchmark {
  private static final int[] COUNTS = {6, 12, 18, 24, 36, 48};
  private static final double NOISE = 0.25;
  private static final long SEED = 20261125;

  private PowerBenchmark() {}

  /** What one way of judging came to, on one page or several. */
  static final class Tally {
    int good;
    int bad;
    int missed;
    int falseAlarms;
    double within3;
    int pages;

    void add(boolean truth, boolean verdict) {
      good += truth ? 0 : 1;
      bad += truth ? 1 : 0;
      missed += truth && !verdict ? 1 : 0;
      falseAlarms += !truth && verdict ? 1 : 0;
    }

    void add(Tally other) {
      good += other.good;
      bad += other.bad;
      missed += other.missed;
      falseAlarms += other.falseAlarms;
      within3 += other.within3;
      pages += other.pages;
    }

    double missedPercent() {
      return 100.0 * missed / Math.max(1, bad);
    }

    double falsePercent() {
      return 100.0 * falseAlarms / Math.max(1, good);
    }

    double balancedPercent() {
      return 100 - (missedPercent() + falsePercent()) / 2;
    }

    /** Half of the balanced accuracy's 95 % interval, by the normal distribution. */
    double halfInterval() {
      double m = missedPercent() / 100;
      double f = falsePercent() / 100;
      return 100
          * 1.96
          / 2
          * Math.sqrt(m * (1 - m) / Math.max(1, bad) + f * (1 - f) / Math.max(1, good));
    }
  }

  /**
   * Runs.
   *
   * @param args a folder for the results; how many devices a page; then PDF files, none for the
   *     drawn ones
   */
  public static void main(String[] args) throws IOException, InputException {
    Path folder = Path.of(args[0]);
    int devices = Integer.parseInt(args[1]);
    Files.createDirectories(folder);
    List<Path> files = new ArrayList<>();
    for (int i = 2; i < args.length; i++) {
      files.add(Path.of(args[i]));
    }
    if (files.isEmpty()) {
      files.addAll(drawn(folder));
    }
    for (PowerDrift.Causes causes : PowerDrift.Causes.values()) {
      Map<String, Map<String, Tally>> byPage = new LinkedHashMap<>();
      for (Path file : files) {
        JobSurvey survey = new SurveyJob(SurveyJob.Request.of(file)).run();
        for (PageSurvey page : survey.pages()) {
          PowerPage judged =
              new PowerPage(
                  PowerPage.title(file, page.page()),
                  page,
                  survey.condition(),
                  StandardStrip.load("full"));
          byPage.put(judged.name, judge(judged, devices, causes));
        }
      }
      Map<String, Tally> all = summed(byPage);
      try (PrintWriter out =
          new PrintWriter(
              Files.newBufferedWriter(
                  folder.resolve(causes.file + ".csv"), StandardCharsets.UTF_8))) {
        write(out, byPage, all);
      }
      PowerPlot.write(folder.resolve(causes.file + ".png"), COUNTS, all);
    }
  }

  /** Draws the pages that are judged where none are given. */
  static List<Path> drawn(Path folder) throws IOException {
    Path demo = folder.resolve("demo.pdf");
    Path photograph = folder.resolve("photograph.pdf");
    Path spots = folder.resolve("eight-spots.pdf");
    DemoJob.main(new String[] {demo.toString()});
    BenchmarkPage.main(new String[] {photograph.toString()});
    SizedSheet.main(new String[] {spots.toString(), "A4"});
    return List.of(demo, photograph, spots);
  }

  private static Map<String, Tally> judge(PowerPage page, int devices, PowerDrift.Causes causes) {
    List<PowerSet> sets = new ArrayList<>();
    for (int count : COUNTS) {
      sets.addAll(page.sets(count, SEED));
    }
    boolean[] truth = new boolean[devices];
    boolean[][] verdicts = new boolean[devices][sets.size()];
    IntStream.range(0, devices)
        .parallel()
        .forEach(
            device -> {
              Random random = new Random(SEED + 7919L * device);
              PowerDrift drift =
                  new PowerDrift(
                      page.condition,
                      page.spots,
                      page.colorants,
                      causes,
                      causes == PowerDrift.Causes.REGION ? page.anyColor(random) : null,
                      random);
              float[] printed = drift.print(page.tints);
              truth[device] = page.isBad(printed);
              for (int i = 0; i < sets.size(); i++) {
                verdicts[device][i] = sets.get(i).judges(page.aims, printed, NOISE, random);
              }
            });
    Map<String, Tally> tallies = new LinkedHashMap<>();
    for (int i = 0; i < sets.size(); i++) {
      Tally tally = new Tally();
      tally.pages = 1;
      tally.within3 = sets.get(i).within3Percent();
      for (int device = 0; device < devices; device++) {
        tally.add(truth[device], verdicts[device][i]);
      }
      tallies.put(key(sets.get(i).name(), sets.get(i).count()), tally);
    }
    return tallies;
  }

  static String key(String name, int count) {
    return name + ";" + count;
  }

  private static Map<String, Tally> summed(Map<String, Map<String, Tally>> byPage) {
    Map<String, Tally> all = new LinkedHashMap<>();
    byPage
        .values()
        .forEach(
            tallies ->
                tallies.forEach(
                    (key, tally) -> all.computeIfAbsent(key, unused -> new Tally()).add(tally)));
    return all;
  }

  private static void write(
      PrintWriter out, Map<String, Map<String, Tally>> byPage, Map<String, Tally> all) {
    out.println(
        "page;way;patches;devices good;bad;within ΔE00 3 %;missed %;false alarms %;balanced"
            + " agreement %;± (95 %)");
    byPage.forEach((page, tallies) -> rows(out, page, tallies));
    rows(out, "all pages", all);
  }

  private static void rows(PrintWriter out, String page, Map<String, Tally> tallies) {
    tallies.forEach(
        (key, tally) ->
            out.println(
                String.format(
                    Locale.ROOT,
                    "%s;%s;%d;%d;%.1f;%.1f;%.1f;%.1f;%.1f",
                    page,
                    key,
                    tally.good,
                    tally.bad,
                    tally.within3 / tally.pages,
                    tally.missedPercent(),
                    tally.falsePercent(),
                    tally.balancedPercent(),
                    tally.halfInterval())));
  }
}
