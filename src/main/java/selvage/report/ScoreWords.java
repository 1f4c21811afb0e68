package selvage.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import selvage.score.Metric;
import selvage.score.Statistic;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/** The words for a score's parts, the same in reports and on pages. */
public final class ScoreWords {
  /** A hyphen that stands for a minus sign. */
  private static final Pattern SIGN = Pattern.compile("(^|[\\s(])-(\\d)");

  private static final int MOST_DIGITS = 6;

  /**
   * A check in a summary.
   *
   * @param name in words
   * @param value as it is shown
   * @param verdict on it
   */
  record Line(String name, String value, Verdict verdict) {}

  private ScoreWords() {}

  /** A check's name as words: {@code near-neutrals-mean} is {@code Near neutrals mean}. */
  public static String checkName(String name) {
    String words = name.replace('-', ' ');
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  /** For example {@code ΔE00 maximum}. */
  public static String figure(Metric metric, Statistic statistic) {
    String word =
        switch (statistic) {
          case MEAN -> "mean";
          case P95 -> "95th percentile";
          case MAX -> "maximum";
          case AREA_MEAN -> "mean by area";
          case AREA_P95 -> "95th perc. by area";
        };
    return metric.sign() + " " + word;
  }

  /** Of whose patches a set is. */
  public static String setName(PatchSet set) {
    return set == PatchSet.JOB ? "Job strip" : "Standard strip";
  }

  /** Two digits, or as many as show that a value lies beyond its limit. */
  public static int digits(double value, double limit) {
    int digits = 2;
    while (digits < MOST_DIGITS
        && value > limit
        && Double.parseDouble(Figures.fixed(value, digits)) <= limit) {
      digits++;
    }
    return digits;
  }

  /** The verdict in a sentence, naming what stands against a pass. */
  static String summary(Verdict verdict, List<Line> checks) {
    List<String> failed = names(checks, Verdict.FAIL);
    List<String> undecided = names(checks, Verdict.UNDECIDED);
    if (!failed.isEmpty()) {
      return failed.size()
          + " of "
          + checks.size()
          + (checks.size() == 1 ? " check" : " checks")
          + (failed.size() == 1 ? " is beyond its limit: " : " are beyond their limits: ")
          + String.join("; ", failed)
          + ".";
    }
    if (!undecided.isEmpty()) {
      return "Too close to the limit to decide: " + String.join("; ", undecided) + ".";
    }
    if (verdict == Verdict.UNDECIDED) {
      return "There was nothing to judge one of the sets by; see the findings.";
    }
    return checks.size() == 1
        ? "The one check made is within its limit."
        : "All " + checks.size() + " checks are within their limits.";
  }

  private static List<String> names(List<Line> checks, Verdict verdict) {
    return checks.stream()
        .filter(check -> check.verdict() == verdict)
        .map(check -> check.name().toLowerCase(Locale.ROOT) + " " + check.value())
        .toList();
  }

  /** Sentences with true minus signs before their numbers. */
  static List<String> withSigns(List<String> sentences) {
    return sentences.stream()
        .map(sentence -> SIGN.matcher(sentence).replaceAll("$1\u2212$2"))
        .toList();
  }

  /**
   * What happened to a print.
   *
   * @param words of the diagnosis
   * @param patches that they rest on
   */
  static ReportSection diagnosis(List<String> words, int patches) {
    List<String> lines = new ArrayList<>(withSigns(words));
    lines.add("As far as " + patches + " patches tell.");
    return new ReportSection("What happened to the print", lines);
  }
}
