package selvage.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import selvage.comparison.Comparison;
import selvage.comparison.ComparisonBuilder;
import selvage.comparison.Ewma;
import selvage.comparison.ScoredPair;
import selvage.comparison.Trend;
import selvage.finding.InputException;
import selvage.ledger.Ledger;
import selvage.ledger.ScoredStrip;
import selvage.report.ComparisonCsv;
import selvage.report.ComparisonPdf;
import selvage.report.ComparisonText;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/** The supervisor's comparison: what job strips said against what standard strips said. */
final class ComparisonPages {
  private static final int MOST_CASES = 100;
  private static final int MOST_CULPRITS = 8;

  private final Pages pages;
  private final Ledger ledger;
  private final Clock clock;
  private final RememberedComparisons<ComparisonView> views;

  private ComparisonPages(Pages pages, Ledger ledger, Clock clock) {
    this.pages = pages;
    this.ledger = ledger;
    this.clock = clock;
    this.views = new RememberedComparisons<>(ledger);
  }

  static void register(RoutesConfig routes, Pages pages, Ledger ledger, Clock clock) {
    ComparisonPages comparison = new ComparisonPages(pages, ledger, clock);
    routes.get("/comparison", comparison::show);
    routes.get("/comparison/strips.csv", comparison::csv);
    routes.get("/comparison/report.pdf", comparison::pdf);
  }

  static Comparison compare(Ledger ledger, ComparisonWish wish) {
    // Where the server keeps its files is nobody's business elsewhere.
    return ComparisonBuilder.of(
            ledger, wish.filter(), Ewma.USUAL, ComparisonBuilder.BASELINE_PROOFS)
        .calling("this shop's ledger");
  }

  private void show(Context context) throws InputException {
    ComparisonWish wish = ComparisonWish.of(context);
    ComparisonView view = views.get(wish, () -> view(wish));
    pages.show(
        context,
        "comparison.jte",
        pages.frame(context, "Job strip against standard strip", "comparison"),
        Map.of("view", view));
  }

  private ComparisonView view(ComparisonWish wish) {
    Comparison comparison = compare(ledger, wish);
    return new ComparisonView(
        wish,
        ledger.names(),
        ledger.count().scores(),
        comparison,
        cases(comparison, Verdict.FAIL, Verdict.PASS, PatchSet.JOB),
        cases(comparison, Verdict.PASS, Verdict.FAIL, PatchSet.STANDARD),
        comparison.trends().stream().map(trend -> trend(comparison, trend)).toList(),
        ChartData.of(comparison));
  }

  /**
   * The proofs with these verdicts, the latest first, with the colours that made the difference.
   */
  private List<ComparisonView.Case> cases(
      Comparison comparison, Verdict job, Verdict standard, PatchSet failing) {
    List<ComparisonView.Case> cases = new ArrayList<>();
    List<ScoredPair> pairs = comparison.pairs();
    for (int i = pairs.size() - 1; i >= 0 && cases.size() < MOST_CASES; i--) {
      ScoredPair pair = pairs.get(i);
      if (pair.job() == job && pair.standard() == standard) {
        cases.add(new ComparisonView.Case(pair, culprits(pair, failing)));
      }
    }
    return cases;
  }

  /** The patches beyond a limit by themselves, else those furthest off: a mean failed then. */
  private List<ComparisonView.Culprit> culprits(ScoredPair pair, PatchSet set) {
    List<ScoredStrip.Reading> readings = new ArrayList<>();
    for (ScoredStrip strip : ledger.scoredStrips(pair.scoreId())) {
      if (strip.stripId().equals(pair.stripId())) {
        strip.patches().stream().filter(patch -> patch.set() == set).forEach(readings::add);
      }
    }
    readings.sort(Comparator.comparingDouble(ScoredStrip.Reading::de00).reversed());
    List<ScoredStrip.Reading> over =
        readings.stream().filter(patch -> patch.overLimit().orElse(false)).toList();
    List<ScoredStrip.Reading> named = over.isEmpty() ? readings : over;
    return named.stream()
        .limit(over.isEmpty() ? 3 : MOST_CULPRITS)
        .map(patch -> ComparisonView.Culprit.of(pair.stripId(), patch))
        .toList();
  }

  private static ComparisonView.TrendView trend(Comparison comparison, Trend trend) {
    boolean charted = trend.stages().stream().anyMatch(stage -> stage.baseline().isPresent());
    List<String> plots = new ArrayList<>();
    for (int axis = 0; charted && axis < 3; axis++) {
      plots.add(Marks.PLOTS.trend(trend, axis));
    }
    return new ComparisonView.TrendView(
        ComparisonText.name(trend.source()),
        charted,
        plots,
        ComparisonText.trendSentences(trend, comparison.baselineProofs()),
        trend);
  }

  private void csv(Context context) {
    Downloads.text(
        context,
        ComparisonCsv.of(compare(ledger, ComparisonWish.of(context))),
        "comparison.csv",
        "text/csv");
  }

  private void pdf(Context context) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ComparisonPdf.write(compare(ledger, ComparisonWish.of(context)), clock.instant(), out);
    Downloads.bytes(context, out.toByteArray(), "comparison.pdf", "application/pdf");
  }
}
