package selvage.report;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.finding.Finding;
import selvage.score.Check;
import selvage.score.Diagnosis;
import selvage.score.Mending;
import selvage.score.ProofScore;
import selvage.score.ScoredPatch;
import selvage.score.SetScore;
import selvage.score.Statistic;
import selvage.score.Verdict;

/** Scores as text for a terminal, the verdict first. */
public final class ScoreText {
  /** The caution that goes with every verdict. */
  public static final String CAUTION =
      "Results support, and do not replace, agreed standards, the instrument maker's instructions"
          + " and the judgement of those who sign the proof.";

  private static final int WORST_PATCHES = 8;
  private static final int NAME_WIDTH = 30;

  private final StringBuilder text = new StringBuilder();

  private ScoreText() {}

  /** The verdict on all of these scores. */
  public static Verdict verdict(List<ProofScore> scores) {
    Verdict verdict = Verdict.PASS;
    for (ProofScore score : scores) {
      verdict = verdict.and(score.verdict());
    }
    return verdict;
  }

  /** All scores, one after the other, with the caution at the end. */
  public static String of(List<ProofScore> scores) {
    return of(scores, Optional.empty());
  }

  /** All scores, one after the other, then what would mend them, with the caution at the end. */
  public static String of(List<ProofScore> scores, Optional<Mending> mending) {
    ScoreText text = new ScoreText();
    for (ProofScore score : scores) {
      text.add(score);
    }
    if (scores.size() > 1) {
      text.line("%s of all %d strips", headline(verdict(scores)), scores.size());
      text.line("");
    }
    mending.ifPresent(found -> text.text.append(MendingText.of(found)));
    text.line("%s", CAUTION);
    return text.text.toString();
  }

  private void add(ProofScore score) {
    line(
        "%s%s  page %d, strip %s, %s",
        headline(score.verdict()),
        score.simulated() ? " (SIMULATED)" : "",
        score.page(),
        score.stripId(),
        score.source());
    line("Evaluated with tolerance set %s.", score.tolerance().name());
    line("");
    addSets(score);
    addChecks(score);
    addWorst(score);
    score.diagnosis().ifPresent(this::addDiagnosis);
    line("Matched %s (confidence %.2f).", score.alignment().how(), score.alignment().confidence());
    for (Finding finding : score.findings()) {
      line("%s: %s", finding.severity().word(), finding.text());
    }
    line("");
  }

  private void addSets(ProofScore score) {
    line(
        "%-10s %7s %7s %7s %7s %7s %10s %9s  %s",
        "set", "patches", "judged", "mean", "p95", "max", "area mean", "area p95", "verdict");
    for (SetScore set : score.sets()) {
      line(
          "%-10s %7d %7d %7.2f %7.2f %7.2f %10s %9s  %s",
          set.set().word(),
          set.patches(),
          set.judged(),
          set.meanDe00(),
          set.p95De00(),
          set.maxDe00(),
          figure(set.areaMeanDe00()),
          figure(set.areaP95De00()),
          words(set.verdict()));
    }
    line("(ΔE00 over all patches of a set)");
    line("");
  }

  private static String figure(OptionalDouble value) {
    return value.isPresent() ? String.format(Locale.ROOT, "%.2f", value.getAsDouble()) : "-";
  }

  private void addChecks(ProofScore score) {
    line(
        "  %-20s %-9s %-6s %-10s %7s %8s %7s",
        "check", "set", "metric", "statistic", "patches", "value", "limit");
    for (Check check : score.checks()) {
      Statistic statistic = check.limit().statistic();
      line(
          "%s %-20s %-9s %-6s %-10s %7d %8s %7.2f%s",
          sign(check.verdict()),
          check.limit().name(),
          check.limit().set().word(),
          check.limit().metric().sign(),
          statistic.word(),
          check.patches(),
          value(check),
          check.limit().limit(),
          check.guardBand() > 0 ? String.format(Locale.ROOT, " ± %.2f", check.guardBand()) : "");
    }
    line("");
  }

  /** Two digits, or as many as show on which side of the limit the value lies. */
  private static String value(Check check) {
    double limit = check.limit().limit();
    String shown = "";
    for (int digits = 2; digits <= 6; digits++) {
      shown = String.format(Locale.ROOT, "%." + digits + "f", check.value());
      if (check.value() <= limit || Double.parseDouble(shown) > limit) {
        break;
      }
    }
    return shown;
  }

  private void addWorst(ProofScore score) {
    List<ScoredPatch> worst =
        score.patches().stream()
            .sorted(Comparator.comparingDouble(ScoredPatch::de00).reversed())
            .limit(WORST_PATCHES)
            .toList();
    line("Worst patches, %d of %d:", worst.size(), score.patches().size());
    line(
        "  %-6s %-9s %-" + NAME_WIDTH + "s %7s %7s %7s %7s %7s",
        "id",
        "set",
        "inks",
        "ΔE00",
        "ΔE76",
        "ΔL",
        "ΔCh",
        "ΔH");
    for (ScoredPatch patch : worst) {
      line(
          "  %-6s %-9s %-" + NAME_WIDTH + "s %7.2f %7.2f %7.2f %7.2f %7.2f%s",
          patch.patch().id(),
          patch.patch().set().word(),
          shortened(InkText.of(patch.patch().mixture())),
          patch.de00(),
          patch.de76(),
          patch.dl() + 0.0,
          patch.dch(),
          patch.dh() + 0.0,
          patch.judged() ? "" : "  predicted aim, not judged");
    }
    line("");
  }

  private void addDiagnosis(Diagnosis diagnosis) {
    line("What happened, as far as %d patches tell:", diagnosis.readings());
    for (String sentence : diagnosis.words()) {
      line("  %s", sentence);
    }
    line("");
  }

  private static String shortened(String name) {
    return name.length() <= NAME_WIDTH ? name : name.substring(0, NAME_WIDTH - 1) + "…";
  }

  private static String headline(Verdict verdict) {
    return sign(verdict) + " " + verdict.name();
  }

  private static String words(Verdict verdict) {
    return sign(verdict) + " " + verdict.word();
  }

  private static String sign(Verdict verdict) {
    return switch (verdict) {
      case PASS -> "✓";
      case FAIL -> "✗";
      case UNDECIDED -> "?";
    };
  }

  private void line(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values).stripTrailing()).append('\n');
  }
}
