package selvage.report;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import selvage.comparison.Comparison;
import selvage.comparison.FailingColor;
import selvage.comparison.LabMean;
import selvage.comparison.PairedVerdicts;
import selvage.comparison.Proportion;
import selvage.comparison.Quartiles;
import selvage.comparison.ScoredPair;
import selvage.comparison.SignedRank;
import selvage.comparison.Trend;
import selvage.comparison.VerdictTable;
import selvage.ledger.ScoreFilter;
import selvage.score.Verdict;

/** A comparison in words, for a terminal; the PDF takes its sentences from here. */
public final class ComparisonText {
  static final List<Verdict> VERDICTS = List.of(Verdict.PASS, Verdict.FAIL, Verdict.UNDECIDED);
  static final String[] AXES = {"L*", "a*", "b*"};

  /** Colours that are named in the text. */
  static final int NAMED_COLORS = 12;

  private static final int NAMED_ALARMS = 12;
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);

  private final Comparison comparison;
  private final StringBuilder text = new StringBuilder();

  private ComparisonText(Comparison comparison) {
    this.comparison = comparison;
  }

  /** The whole text, with a line end at its end. */
  public static String of(Comparison comparison) {
    ComparisonText writer = new ComparisonText(comparison);
    writer.write();
    return writer.text.toString();
  }

  private void write() {
    line(scope(comparison));
    for (String note : notes(comparison)) {
      line(note);
    }
    if (comparison.pairs().isEmpty()) {
      line("");
      line("Nothing to compare: no scored strip with both verdicts.");
      line("");
      line(ScoreText.CAUTION);
      return;
    }
    line("");
    writeTable(comparison.table());
    line("");
    for (String sentence : verdictSentences(comparison.table())) {
      line(sentence);
    }
    line("");
    line("Mean ΔE00 of a strip        least   25 %  median  75 %  greatest");
    Comparison.Differences differences = comparison.differences().orElseThrow();
    quartiles("job strip, by area", differences.job());
    quartiles("standard strip", differences.standard());
    quartiles("job less standard", differences.difference());
    line(signedRank(differences.test()));
    line("");
    writeColors();
    for (Trend trend : comparison.trends()) {
      line("");
      line("Trend of " + name(trend.source()) + " (EWMA of the standard strip's mean drift)");
      for (String sentence : trendSentences(trend, comparison.baselineProofs())) {
        line("  " + sentence);
      }
    }
    line("");
    line(ScoreText.CAUTION);
  }

  private void line(String words) {
    text.append(words).append('\n');
  }

  /** What was asked for and how much of it there is. */
  public static String scope(Comparison comparison) {
    StringBuilder words = new StringBuilder();
    words
        .append(comparison.pairs().size())
        .append(" scored strips with both verdicts in ")
        .append(comparison.ledger());
    ScoreFilter filter = comparison.filter();
    filter.from().ifPresent(time -> words.append(", from ").append(time));
    filter.to().ifPresent(time -> words.append(", before ").append(time));
    filter.proofingSystem().ifPresent(name -> words.append(", proofing system ").append(name));
    filter.substrate().ifPresent(name -> words.append(", substrate ").append(name));
    filter.condition().ifPresent(name -> words.append(", condition ").append(name));
    filter.folder().ifPresent(name -> words.append(", hot folder ").append(name));
    if (!comparison.pairs().isEmpty()) {
      words
          .append("; measured ")
          .append(day(comparison.pairs().get(0).received()))
          .append(" to ")
          .append(day(comparison.pairs().get(comparison.pairs().size() - 1).received()));
    }
    return words.append('.').toString();
  }

  /** What was left out, and whether anything was measured at all. */
  public static List<String> notes(Comparison comparison) {
    List<String> notes = new ArrayList<>();
    if (comparison.simulated() > 0) {
      notes.add(
          comparison.simulated()
              + " of them are SIMULATED: nobody measured a print, and they say nothing about one.");
    }
    if (comparison.left().earlier() > 0) {
      notes.add(
          comparison.left().earlier()
              + " earlier scores of the same strip on the same proof do not count; the last does.");
    }
    if (comparison.left().withoutBoth() > 0) {
      notes.add(
          comparison.left().withoutBoth() + " scored strips without both verdicts are left out.");
    }
    return notes;
  }

  private void writeTable(VerdictTable table) {
    line("                     standard strip");
    line(String.format(Locale.ROOT, "  %-16s%8s%8s%11s", "job strip", "pass", "fail", "undecided"));
    for (Verdict job : VERDICTS) {
      line(
          String.format(
              Locale.ROOT,
              "  %-16s%8d%8d%11d",
              job.word(),
              table.count(job, Verdict.PASS),
              table.count(job, Verdict.FAIL),
              table.count(job, Verdict.UNDECIDED)));
    }
  }

  /** Escapes, false alarms, and whether the strips differ beyond chance. */
  public static List<String> verdictSentences(VerdictTable table) {
    PairedVerdicts decided = table.decided();
    List<String> sentences = new ArrayList<>();
    sentences.add(
        "Escapes, the standard strip passes and the job strip fails: "
            + share(table.escapes(), "that the standard strip passed"));
    sentences.add(
        "False alarms, the standard strip fails and the job strip passes: "
            + share(table.falseAlarms(), "that the standard strip failed"));
    if (decided.pairs() == 0) {
      sentences.add("No proof on which both decided; no test.");
      return sentences;
    }
    PairedVerdicts.Interval interval = decided.differenceInterval();
    sentences.add(
        String.format(
            Locale.ROOT,
            "The job strip fails %s points %s of the %d proofs on which both decided (95 %%: %s to"
                + " %s). McNemar's test: exact p = %s, mid-p = %s.",
            Figures.fixed(Math.abs(100 * decided.difference()), 1),
            decided.difference() < 0 ? "less" : "more",
            decided.pairs(),
            Figures.signed(100 * interval.low(), 1),
            Figures.signed(100 * interval.high(), 1),
            p(decided.exactP()),
            p(decided.midP())));
    return sentences;
  }

  private static String share(Proportion share, String of) {
    if (share.of() == 0) {
      return "none can be told, there is no proof " + of + ".";
    }
    return String.format(
        Locale.ROOT,
        "%d of %d %s, %s %% (95 %%: %s to %s %%).",
        share.count(),
        share.of(),
        of,
        Figures.fixed(100 * share.share(), 1),
        Figures.fixed(100 * share.low(), 1),
        Figures.fixed(100 * share.high(), 1));
  }

  /** A p-value, to two digits that matter. */
  public static String p(double value) {
    if (value < 0.0001) {
      return "under 0.0001";
    }
    return Figures.fixed(value, value < 0.001 ? 5 : value < 0.01 ? 4 : value < 0.1 ? 3 : 2);
  }

  private void quartiles(String name, Quartiles values) {
    line(
        String.format(
            Locale.ROOT,
            "  %-24s%7s%7s%8s%6s%10s",
            name,
            Figures.fixed(values.least(), 2),
            Figures.fixed(values.lower(), 2),
            Figures.fixed(values.median(), 2),
            Figures.fixed(values.upper(), 2),
            Figures.fixed(values.greatest(), 2)));
  }

  /** The test of the differences, in words. */
  public static String signedRank(SignedRank test) {
    return String.format(
        Locale.ROOT,
        "Wilcoxon's signed-rank test of the differences: p = %s (%s, %d pairs%s).",
        p(test.p()),
        test.exact() ? "exact, ties with mean ranks" : "normal, corrected for ties",
        test.pairs(),
        test.zeros() == 0 ? "" : ", " + test.zeros() + " equal ones left out");
  }

  private void writeColors() {
    List<FailingColor> failing = failing(comparison);
    if (failing.isEmpty()) {
      line("No colour was over a limit on it by itself.");
      return;
    }
    line("Colours most often over the tightest limit on them by themselves");
    line("  over   of  mean ΔE00  set       inks, and where they went");
    for (FailingColor color : failing.subList(0, Math.min(NAMED_COLORS, failing.size()))) {
      line(
          String.format(
              Locale.ROOT,
              "  %4d %4d  %9s  %-8s  %s: %s",
              color.over().count(),
              color.over().of(),
              Figures.fixed(color.meanDe00(), 2),
              color.set().word(),
              InkText.of(color.mixture()),
              direction(color.direction())));
    }
    if (failing.size() > NAMED_COLORS) {
      line("  and " + (failing.size() - NAMED_COLORS) + " more");
    }
  }

  /** The colours that were over a limit at all, in their order. */
  public static List<FailingColor> failing(Comparison comparison) {
    return comparison.colors().stream().filter(color -> color.over().count() > 0).toList();
  }

  /** A mean shift in words and figures. */
  public static String direction(LabMean mean) {
    return String.format(
        Locale.ROOT,
        "%s (ΔL* %s, Δa* %s, Δb* %s)",
        mean.words(),
        Figures.signed(mean.dl(), 1),
        Figures.signed(mean.da(), 1),
        Figures.signed(mean.db(), 1));
  }

  /** The device, paper and condition of a trend. */
  public static String name(ScoredPair.Source source) {
    return source.proofingSystem().orElse("a proofing system that is not stated")
        + source.substrate().map(name -> ", " + name).orElse("")
        + source.condition().map(name -> ", " + name).orElse("");
  }

  /** Each stage, then the alarms. */
  public static List<String> trendSentences(Trend trend, int baselineProofs) {
    List<String> sentences = new ArrayList<>();
    for (Trend.Stage stage : trend.stages()) {
      sentences.add(stageSentence(stage, baselineProofs));
    }
    List<Trend.Alarm> alarms = Comparison.alarms(trend);
    boolean charted = trend.stages().stream().anyMatch(stage -> stage.baseline().isPresent());
    if (charted && alarms.isEmpty()) {
      sentences.add("No alarm.");
    }
    for (Trend.Alarm alarm : alarms.subList(0, Math.min(NAMED_ALARMS, alarms.size()))) {
      sentences.add(alarm(alarm));
    }
    if (alarms.size() > NAMED_ALARMS) {
      sentences.add("and " + (alarms.size() - NAMED_ALARMS) + " alarms more");
    }
    return sentences;
  }

  private static String stageSentence(Trend.Stage stage, int baselineProofs) {
    Optional<Instant> begin = stage.begin();
    String since =
        begin.isPresent()
            ? "Since the calibration of " + day(begin.get()) + ": "
            : "From the first proof, " + day(stage.points().get(0).time()) + ": ";
    if (stage.baseline().isEmpty()) {
      return since
          + stage.points().size()
          + " proofs, too few: a baseline takes "
          + baselineProofs
          + " and one more to hold against it.";
    }
    Trend.Baseline baseline = stage.baseline().get();
    LabMean centre = baseline.centre();
    return since
        + stage.points().size()
        + " proofs, the first "
        + baseline.proofs()
        + " make the baseline at ΔL* "
        + Figures.signed(centre.dl(), 2)
        + ", Δa* "
        + Figures.signed(centre.da(), 2)
        + ", Δb* "
        + Figures.signed(centre.db(), 2)
        + ".";
  }

  private static String alarm(Trend.Alarm alarm) {
    return String.format(
        Locale.ROOT,
        "ALARM %s, proof %s: %s; the average Δ%s is %s, the limit %s%s.",
        day(alarm.time()),
        alarm.proof(),
        alarm.word(),
        AXES[alarm.axis()],
        Figures.signed(alarm.average(), 2),
        Figures.signed(
            alarm.centre() + Math.copySign(alarm.limit(), alarm.average() - alarm.centre()), 2),
        alarm.lasted() == 1 ? "" : "; " + alarm.lasted() + " proofs in a row");
  }

  /** The date in UTC. */
  public static String day(Instant time) {
    return DAY.format(time);
  }

  /** How the figures were made. */
  public static String method(Comparison comparison) {
    return String.format(
        Locale.ROOT,
        "A pair is a strip on a proof with a verdict of its job set and of its standard set; of"
            + " several scores of one strip on one proof the last counts. Shares: score interval of"
            + " Wilson (1927). Test of the verdicts: McNemar's, exact (binomial) and mid-p"
            + " (Fagerland, Lydersen and Laake 2013), undecided pairs left out; interval of the"
            + " difference by Agresti and Min (2005). Quartiles: type 7 of Hyndman and Fan (1996)."
            + " Signed ranks: Wilcoxon (1945), differences of 0 left out, equal ones with mean"
            + " ranks. Pairs of one job or one device are not independent of each other; p and"
            + " intervals are then too favourable. Trend: EWMA (ISO 7870-6) of the standard set's"
            + " mean ΔL*, Δa*, Δb*, λ = %s, L = %s (from memory), exact variance, for each proofing"
            + " system, substrate and condition; the baseline is the mean of the first %d proofs"
            + " from the beginning or a recorded calibration, its spread their standard deviation"
            + " over c4. With so short a baseline and three charts side by side, false alarms come"
            + " oftener than the theory of one chart says.",
        Figures.fixed(comparison.ewma().lambda(), 2),
        Figures.fixed(comparison.ewma().width(), 2),
        comparison.baselineProofs());
  }
}
