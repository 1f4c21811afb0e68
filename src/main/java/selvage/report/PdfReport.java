package selvage.report;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import selvage.finding.Finding;
import selvage.report.Drawing.Anchor;
import selvage.score.Check;
import selvage.score.ScoredPatch;
import selvage.score.SetScore;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * Reports as a PDF of A4 pages: for each scored strip one page that stands by itself, then as many
 * as its figures need. The same reports give the same bytes.
 */
public final class PdfReport {
  static final double WIDTH = 210;
  static final double HEIGHT = 297;
  static final double LEFT = 14;
  static final double RIGHT = WIDTH - LEFT;
  static final double BOTTOM = HEIGHT - 17;
  static final double TEXT = 2.7;
  static final double LINE = 3.7;

  /** Most patches that a row of bars takes with letters that can be read. */
  private static final int MOST_IN_ROW = 48;

  private static final double LEAST_BARS_MM = 10;
  private static final double MOST_BARS_MM = 20;
  private static final double LEAST_DRIFT_MM = 60;

  private static final String LETTERS = "[U+…]: letters not in this type";

  /** The rows of the table of both sets; {@link #figure} has their values. */
  static final List<String> SET_FIGURES =
      List.of(
          "mean",
          "95th percentile",
          "maximum",
          "mean by area",
          "95th perc. by area",
          "patches",
          "of them judged");

  private final PdfPages pages;
  private final ProofReport report;
  private double y = 13;

  private PdfReport(PdfPages pages, ProofReport report) {
    this.pages = pages;
    this.report = report;
  }

  /**
   * Writes reports one after the other.
   *
   * @param reports at least one
   */
  public static void write(List<ProofReport> reports, OutputStream out) throws IOException {
    ProofReport first = reports.get(0);
    try (PdfPages pages = new PdfPages()) {
      for (ProofReport report : reports) {
        int begin = pages.pageCount();
        pages.newPage(WIDTH, HEIGHT);
        boolean whole = new PdfReport(pages, report).drawSheet();
        new PdfFigures(pages, report).draw(!whole);
        addFeet(pages, report, begin);
      }
      pages.write(
          out,
          "Proof report: " + first.jobName(),
          first.time(),
          first.score().stripId().hashCode() * 31L + first.time().getEpochSecond());
    }
  }

  private static void addFeet(PdfPages pages, ProofReport report, int begin) {
    int count = pages.pageCount() - begin;
    for (int i = 0; i < count; i++) {
      pages.turnTo(begin + i);
      double base = HEIGHT - 6.5;
      pages.line(LEFT, base - 8.9, RIGHT, base - 8.9, Shade.RULE, 0.2);
      pages.text(LEFT, base - 5.9, 2.3, true, Shade.INK, Anchor.START, ScoreText.CAUTION);
      pages.text(LEFT, base - 2.6, 2.3, false, Shade.MUTED, Anchor.START, ProofReport.SCREENS);
      if (pages.lacksLetters()) {
        pages.text(RIGHT - 26, base + 0.8, 2.3, false, Shade.MUTED, Anchor.END, LETTERS);
      }
      String where =
          pages.fitted(report.jobName(), 2.3, false, 90)
              + ", page "
              + report.score().page()
              + ", strip "
              + report.score().stripId();
      pages.text(LEFT, base + 0.8, 2.3, false, Shade.MUTED, Anchor.START, where);
      String number = "Report sheet " + (i + 1) + " of " + count;
      pages.text(RIGHT, base + 0.8, 2.3, false, Shade.MUTED, Anchor.END, number);
    }
  }

  /** Whether everything found its place on it. */
  private boolean drawSheet() {
    drawHead();
    drawVerdict();
    drawFacts();
    drawChecks();
    double spare = BOTTOM - y - LEAST_DRIFT_MM - 2 * (5 + PatchBars.heightMm(0));
    double barsMm = Math.max(LEAST_BARS_MM, Math.min(MOST_BARS_MM, spare / 2));
    drawBars(PatchSet.JOB, barsMm);
    drawBars(PatchSet.STANDARD, barsMm);
    return drawDrift();
  }

  private void drawHead() {
    pages.text(LEFT, y, 2.7, false, Shade.MUTED, Anchor.START, "Proof report");
    pages.text(RIGHT, y, 2.7, false, Shade.MUTED, Anchor.END, report.date());
    y += 6.6;
    String title = pages.fitted(report.jobName(), 5.6, true, RIGHT - LEFT - 34);
    pages.text(LEFT, y, 5.6, true, Shade.INK, Anchor.START, title);
    String page = "page " + report.score().page() + " of " + report.file().job().pages();
    pages.text(RIGHT, y, 3.6, false, Shade.INK, Anchor.END, page);
    y += 3.4;
  }

  private void drawVerdict() {
    Verdict verdict = report.score().verdict();
    List<String> lines = pages.wrapped(report.summary(), 3.3, false, RIGHT - LEFT - 66);
    int shown = Math.min(lines.size(), 3);
    boolean simulated = report.score().simulated();
    double height = 19;
    pages.box(LEFT, y, RIGHT - LEFT, height, Shade.PANEL);
    pages.box(LEFT, y, 1.4, height, VerdictSign.shade(verdict));
    double middle = y + height / 2;
    VerdictSign.draw(pages, verdict, LEFT + 12, middle, 6.2);
    double size = verdict == Verdict.UNDECIDED ? 5.2 : 9;
    pages.text(
        LEFT + 22,
        middle + 0.36 * size,
        size,
        true,
        VerdictSign.shade(verdict),
        Anchor.START,
        report.verdictWord());
    double textY = middle + 1.1 - ((simulated ? shown + 1 : shown) - 1) * 2.2;
    for (int i = 0; i < shown; i++) {
      String line = i == shown - 1 && lines.size() > shown ? lines.get(i) + " …" : lines.get(i);
      pages.text(LEFT + 62, textY, 3.3, false, Shade.INK, Anchor.START, line);
      textY += 4.4;
    }
    if (simulated) {
      pages.text(LEFT + 62, textY, 3.1, true, Shade.UNDECIDED, Anchor.START, ProofReport.SIMULATED);
    }
    y += height + 5.4;
  }

  private void drawFacts() {
    List<ProofReport.Fact> facts = report.facts().stream().skip(2).toList();
    int rows = (facts.size() + 1) / 2;
    double column = (RIGHT - LEFT) / 2;
    double top = y;
    for (int i = 0; i < facts.size(); i++) {
      double x = i < rows ? LEFT : LEFT + column;
      double base = top + (i % rows) * LINE;
      ProofReport.Fact fact = facts.get(i);
      pages.text(
          x,
          base,
          TEXT,
          false,
          Shade.MUTED,
          Anchor.START,
          pages.fitted(fact.name(), TEXT, false, 27));
      String value = pages.fitted(fact.value(), TEXT, false, column - 33);
      pages.text(x + 29, base, TEXT, false, Shade.INK, Anchor.START, value);
    }
    y = top + rows * LINE;
    String source = "Tolerances from: " + report.score().tolerance().source();
    List<String> lines = pages.wrapped(source, 2.3, false, RIGHT - LEFT);
    for (String line : lines.subList(0, Math.min(2, lines.size()))) {
      pages.text(LEFT, y, 2.3, false, Shade.MUTED, Anchor.START, line);
      y += 3;
    }
    y += 3;
  }

  private void drawChecks() {
    double top = y;
    double right = LEFT + 124;
    double[] columns = {LEFT + 5, LEFT + 38, LEFT + 51, LEFT + 90, LEFT + 99, right};
    heading(columns[0], top, Anchor.START, "Check");
    heading(columns[1], top, Anchor.START, "Strip");
    heading(columns[2], top, Anchor.START, "Figure");
    heading(columns[3], top, Anchor.END, "Value");
    heading(columns[4], top, Anchor.END, "Limit");
    heading(columns[5], top, Anchor.END, "Verdict");
    pages.line(LEFT, top + 1.2, right, top + 1.2, Shade.INK, 0.2);
    double base = top + 4.6;
    for (Check check : report.score().checks()) {
      boolean pass = check.verdict() == Verdict.PASS;
      Shade shade = VerdictSign.shade(check.verdict());
      VerdictSign.draw(pages, check.verdict(), LEFT + 1.7, base - 0.95, 1.25);
      cell(columns[0], base, Anchor.START, !pass, ProofReport.checkName(check), 32);
      cell(columns[1], base, Anchor.START, false, check.limit().set().word(), 13);
      cell(columns[2], base, Anchor.START, false, ProofReport.metric(check), 33);
      cell(columns[3], base, Anchor.END, !pass, Figures.value(check), 14);
      cell(columns[4], base, Anchor.END, false, Figures.limit(check), 9);
      String band = Figures.guardBand(check);
      pages.text(columns[4] + 8.7, base, TEXT, false, Shade.MUTED, Anchor.END, band);
      pages.text(columns[5], base, TEXT, !pass, shade, Anchor.END, check.verdict().word());
      pages.line(LEFT, base + 1.1, right, base + 1.1, Shade.RULE, 0.1);
      base += 4.05;
    }
    double below = drawSets(LEFT + 130, top);
    y = Math.max(base, below) + 1.6;
  }

  private double drawSets(double left, double top) {
    List<SetScore> sets = report.score().sets();
    double[] columns = {RIGHT - 16, RIGHT};
    heading(left, top, Anchor.START, "ΔE00");
    for (int i = 0; i < sets.size(); i++) {
      heading(columns[i], top, Anchor.END, sets.get(i).set() == PatchSet.JOB ? "Job" : "Standard");
    }
    pages.line(left, top + 1.2, RIGHT, top + 1.2, Shade.INK, 0.2);
    double base = top + 4.6;
    for (int row = 0; row < SET_FIGURES.size(); row++) {
      cell(left, base, Anchor.START, false, SET_FIGURES.get(row), 34);
      for (int i = 0; i < sets.size(); i++) {
        cell(columns[i], base, Anchor.END, false, figure(sets.get(i), row), 16);
      }
      pages.line(left, base + 1.1, RIGHT, base + 1.1, Shade.RULE, 0.1);
      base += 4.05;
    }
    cell(left, base, Anchor.START, true, "verdict", 34);
    for (int i = 0; i < sets.size(); i++) {
      Verdict verdict = sets.get(i).verdict();
      String word = verdict.word();
      double width = pages.width(word, TEXT, true);
      VerdictSign.draw(pages, verdict, columns[i] - width - 2.2, base - 0.95, 1.25);
      pages.text(columns[i], base, TEXT, true, VerdictSign.shade(verdict), Anchor.END, word);
    }
    return base + 4;
  }

  static String figure(SetScore set, int row) {
    return switch (row) {
      case 0 -> Figures.fixed(set.meanDe00(), 2);
      case 1 -> Figures.fixed(set.p95De00(), 2);
      case 2 -> Figures.fixed(set.maxDe00(), 2);
      case 3 -> Figures.fixed(set.areaMeanDe00(), 2);
      case 4 -> Figures.fixed(set.areaP95De00(), 2);
      case 5 -> Integer.toString(set.patches());
      default -> Integer.toString(set.judged());
    };
  }

  private void drawBars(PatchSet set, double bars) {
    List<ScoredPatch> patches = report.patches(set);
    if (patches.isEmpty()) {
      return;
    }
    PatchLimits limits = PatchLimits.of(report.score(), set);
    List<ScoredPatch> shown = shown(patches, limits);
    String title = ProofReport.setName(set);
    pages.text(LEFT, y + 2, 3, true, Shade.INK, Anchor.START, title);
    String note =
        limits.metric().sign()
            + " a patch (empty: not judged), its limit as a stroke, that of the mean in dashes;"
            + " below: aim | measured"
            + (shown.size() < patches.size()
                ? "; the worst " + shown.size() + " of " + patches.size() + ", all in the figures"
                : "");
    pages.text(RIGHT, y + 2, 2.3, false, Shade.MUTED, Anchor.END, note);
    double slot = Math.min(9, (RIGHT - LEFT - PatchBars.AXIS_MM) / shown.size());
    new PatchBars(pages, limits.mean(), PlottedPatch.of(patches, limits), bars, slot)
        .draw(LEFT, y + 3, PlottedPatch.of(shown, limits));
    y += 3 + PatchBars.heightMm(bars) + 2;
  }

  /** All, or the worst in the strip's order where a row can't take all. */
  private static List<ScoredPatch> shown(List<ScoredPatch> patches, PatchLimits limits) {
    if (patches.size() <= MOST_IN_ROW) {
      return patches;
    }
    List<ScoredPatch> worst =
        patches.stream()
            .sorted(java.util.Comparator.comparingDouble(limits::value).reversed())
            .limit(MOST_IN_ROW)
            .toList();
    return patches.stream().filter(worst::contains).toList();
  }

  private boolean drawDrift() {
    double size = Math.min(64, BOTTOM - 2 - y);
    DriftPlots plots = new DriftPlots(pages, PlottedPatch.of(report.score().patches()));
    double top = y + 3.4;
    pages.text(LEFT, y + 1.6, 3, true, Shade.INK, Anchor.START, "Drift");
    String note =
        "a*b*: aim to measured, strokes × " + plots.stretch() + "; disc job, square standard";
    pages.text(LEFT + 10, y + 1.6, 2.3, false, Shade.MUTED, Anchor.START, note);
    size -= 3.4;
    plots.drawPlane(LEFT, top, size);
    plots.drawLightness(LEFT + size + 3, top, 38, size);
    double left = LEFT + size + 46;
    return drawWords(left, y + 1.6, RIGHT - left, top + size);
  }

  private boolean drawWords(double left, double from, double width, double limit) {
    double at = from;
    for (ReportSection section : report.sections()) {
      at = drawWords(left, at, width, limit, section.title(), section.lines());
    }
    List<String> findings = report.score().findings().stream().map(PdfReport::finding).toList();
    if (!findings.isEmpty() && at > 0) {
      at = drawWords(left, at, width, limit, "Findings", findings);
    }
    boolean tables = report.sections().stream().anyMatch(section -> !section.table().isEmpty());
    return at > 0 && !tables;
  }

  static String finding(Finding finding) {
    return finding.severity().word() + ": " + finding.text();
  }

  /** Returns where the next may begin, or 0 where not everything had its place. */
  private double drawWords(
      double left, double from, double width, double limit, String title, List<String> texts) {
    if (from <= 0) {
      return 0;
    }
    double at = from;
    if (at + 2 * 3.2 > limit) {
      more(left, limit);
      return 0;
    }
    pages.text(left, at, 3, true, Shade.INK, Anchor.START, title);
    at += 3.8;
    for (String text : texts) {
      for (String line : pages.wrapped(text, 2.4, false, width)) {
        if (at + 3.2 > limit) {
          more(left, limit);
          return 0;
        }
        pages.text(left, at, 2.4, false, Shade.INK, Anchor.START, line);
        at += 3.1;
      }
      at += 0.7;
    }
    return at + 2.2;
  }

  private void more(double left, double limit) {
    pages.text(left, limit, 2.4, true, Shade.INK, Anchor.START, "More on the next sheet.");
  }

  private void heading(double x, double base, Anchor anchor, String text) {
    pages.text(x, base, 2.5, true, Shade.INK, anchor, text);
  }

  private void cell(
      double x, double base, Anchor anchor, boolean bold, String text, double widthMm) {
    String shown = pages.fitted(text, TEXT, bold, widthMm);
    pages.text(x, base, TEXT, bold, Shade.INK, anchor, shown);
  }
}
