package selvage.report;

import java.io.IOException;
import java.io.OutputStream;
import java.time.Instant;
import java.util.List;
import selvage.comparison.Comparison;
import selvage.comparison.FailingColor;
import selvage.comparison.Trend;
import selvage.comparison.VerdictTable;
import selvage.report.Drawing.Anchor;
import selvage.score.Verdict;

/**
 * A comparison as a PDF of A4 pages: the verdicts and the paired colour differences, the colours
 * that fail, then a sheet for each trend. The same comparison and time give the same bytes.
 */
public final class ComparisonPdf {
  private static final double LEFT = PdfReport.LEFT;
  private static final double RIGHT = PdfReport.RIGHT;
  private static final double TEXT = 2.7;
  private static final double LINE = 3.7;
  private static final double MOST_TREND_MM = 52;
  private static final int MOST_COLORS = 30;

  private final PdfPages pages;
  private final Comparison comparison;
  private double y;

  private ComparisonPdf(PdfPages pages, Comparison comparison) {
    this.pages = pages;
    this.comparison = comparison;
  }

  /**
   * Writes it.
   *
   * @param time stands on the sheets and in the file
   */
  public static void write(Comparison comparison, Instant time, OutputStream out)
      throws IOException {
    try (PdfPages pages = new PdfPages()) {
      new ComparisonPdf(pages, comparison).draw();
      for (int page = 0; page < pages.pageCount(); page++) {
        pages.turnTo(page);
        foot(pages, time, page + 1);
      }
      pages.write(out, "Job strip against standard strip", time, time.getEpochSecond());
    }
  }

  private static void foot(PdfPages pages, Instant time, int page) {
    double at = PdfReport.HEIGHT - 12;
    pages.line(LEFT, at - 3.5, RIGHT, at - 3.5, Shade.RULE, 0.15);
    List<String> lines = pages.wrapped(ScoreText.CAUTION, 2.2, false, RIGHT - LEFT - 50);
    for (int i = 0; i < lines.size(); i++) {
      pages.text(LEFT, at + 3 * i, 2.2, false, Shade.MUTED, Anchor.START, lines.get(i));
    }
    pages.text(
        RIGHT,
        at,
        2.2,
        false,
        Shade.MUTED,
        Anchor.END,
        ComparisonText.day(time) + ", page " + page + " of " + pages.pageCount());
  }

  private void draw() {
    newPage("Job strip against standard strip");
    paragraph(ComparisonText.scope(comparison));
    for (String note : ComparisonText.notes(comparison)) {
      paragraph(note);
    }
    y += 2;
    if (comparison.pairs().isEmpty()) {
      paragraph("Nothing to compare: no scored strip with both verdicts.");
      return;
    }
    title("Verdicts");
    table(comparison.table());
    for (String sentence : ComparisonText.verdictSentences(comparison.table())) {
      paragraph(sentence);
    }
    y += 2;
    title("Mean ΔE00 of both strips, proof by proof");
    new PairPlot(pages, comparison.pairs()).draw(LEFT, y, 92);
    Comparison.Differences differences = comparison.differences().orElseThrow();
    new QuartilePlot(pages).draw(differences, LEFT + 108, y, RIGHT - LEFT - 108, 60);
    y += 99;
    paragraph(ComparisonText.signedRank(differences.test()));
    colors();
    for (Trend trend : comparison.trends()) {
      trend(trend);
    }
    room(50);
    title("How the figures were made");
    paragraph(ComparisonText.method(comparison));
  }

  private void newPage(String heading) {
    pages.newPage(PdfReport.WIDTH, PdfReport.HEIGHT);
    y = 18;
    pages.text(LEFT, y, 4.6, true, Shade.INK, Anchor.START, heading);
    y += 7;
  }

  private void room(double height) {
    if (y + height > PdfReport.BOTTOM - 2) {
      newPage("Job strip against standard strip");
    }
  }

  private void title(String words) {
    room(12);
    String shown = pages.fitted(words, 3.4, true, RIGHT - LEFT);
    pages.text(LEFT, y, 3.4, true, Shade.INK, Anchor.START, shown);
    y += 5;
  }

  private void paragraph(String words) {
    for (String line : pages.wrapped(words, TEXT, false, RIGHT - LEFT)) {
      room(LINE);
      pages.text(LEFT, y, TEXT, false, Shade.INK, Anchor.START, line);
      y += LINE;
    }
    y += 0.6;
  }

  private void table(VerdictTable table) {
    double first = LEFT + 34;
    double column = 26;
    pages.text(first + 1.5 * column, y, TEXT, true, Shade.INK, Anchor.MIDDLE, "standard strip");
    y += 4.4;
    pages.text(LEFT, y, TEXT, true, Shade.INK, Anchor.START, "job strip");
    for (int i = 0; i < 3; i++) {
      pages.text(
          first + (i + 0.5) * column,
          y,
          TEXT,
          true,
          Shade.INK,
          Anchor.MIDDLE,
          ComparisonText.VERDICTS.get(i).word());
    }
    y += 1.6;
    for (Verdict job : ComparisonText.VERDICTS) {
      pages.text(LEFT, y + 4.6, TEXT, true, Shade.INK, Anchor.START, job.word());
      for (int i = 0; i < 3; i++) {
        Verdict standard = ComparisonText.VERDICTS.get(i);
        cell(first + i * column, column, job, standard, table.count(job, standard));
      }
      y += 7;
    }
    y += 5;
  }

  private void cell(double x, double width, Verdict job, Verdict standard, int count) {
    boolean escape = job == Verdict.FAIL && standard == Verdict.PASS;
    boolean falseAlarm = job == Verdict.PASS && standard == Verdict.FAIL;
    pages.box(x + 0.4, y + 0.4, width - 0.8, 6.2, Shade.PANEL);
    if (escape || falseAlarm) {
      Shade shade = escape ? Shade.FAIL : Shade.UNDECIDED;
      pages.frame(x + 0.4, y + 0.4, width - 0.8, 6.2, shade, 0.3);
      String word = escape ? "escapes" : "false alarms";
      pages.text(x + width - 1.4, y + 4.5, 1.9, false, shade, Anchor.END, word);
      pages.text(x + 5, y + 4.7, 3.4, true, shade, Anchor.MIDDLE, Integer.toString(count));
    } else {
      pages.text(
          x + width / 2, y + 4.7, 3.4, false, Shade.INK, Anchor.MIDDLE, Integer.toString(count));
    }
  }

  private void colors() {
    List<FailingColor> failing = ComparisonText.failing(comparison);
    room(60);
    y += 3;
    title("Which colours fail");
    if (failing.isEmpty()) {
      paragraph("No colour was over a limit on it by itself.");
      return;
    }
    paragraph(
        "Times over the tightest limit on the colour by itself; the line is the 95 % interval of"
            + " the share.");
    y += 2;
    double barLeft = LEFT + 84;
    double barWidth = 50;
    pages.text(LEFT, y, TEXT, true, Shade.INK, Anchor.START, "Inks, %");
    pages.text(LEFT + 62, y, TEXT, true, Shade.INK, Anchor.START, "Strip");
    pages.text(barLeft - 1, y, TEXT, true, Shade.INK, Anchor.END, "ΔE00");
    pages.text(barLeft, y, 2.2, false, Shade.MUTED, Anchor.START, "0");
    pages.text(barLeft + barWidth, y, 2.2, false, Shade.MUTED, Anchor.END, "100 %");
    pages.text(barLeft + barWidth + 17, y, TEXT, true, Shade.INK, Anchor.END, "Over, of");
    pages.text(barLeft + barWidth + 20, y, TEXT, true, Shade.INK, Anchor.START, "Went");
    y += 4;
    for (FailingColor color : failing.subList(0, Math.min(MOST_COLORS, failing.size()))) {
      room(6);
      color(color, barLeft, barWidth);
    }
    if (failing.size() > MOST_COLORS) {
      paragraph("and " + (failing.size() - MOST_COLORS) + " more");
    }
    y += 4;
  }

  private void color(FailingColor color, double barLeft, double barWidth) {
    pages.text(
        LEFT,
        y,
        TEXT,
        false,
        Shade.INK,
        Anchor.START,
        pages.fitted(InkText.of(color.mixture()), TEXT, false, 60));
    pages.text(LEFT + 62, y, TEXT, false, Shade.INK, Anchor.START, color.set().word());
    pages.text(
        barLeft - 1, y, TEXT, false, Shade.INK, Anchor.END, Figures.fixed(color.meanDe00(), 1));
    pages.box(barLeft, y - 2.4, barWidth * color.over().share(), 2.8, Shade.BAR);
    double middle = y - 1;
    pages.line(
        barLeft + barWidth * color.over().low(),
        middle,
        barLeft + barWidth * color.over().high(),
        middle,
        Shade.INK,
        0.25);
    pages.text(
        barLeft + barWidth + 17,
        y,
        TEXT,
        false,
        Shade.INK,
        Anchor.END,
        color.over().count() + " of " + color.over().of());
    double room = RIGHT - barLeft - barWidth - 20;
    pages.text(
        barLeft + barWidth + 20,
        y,
        TEXT,
        false,
        Shade.INK,
        Anchor.START,
        pages.fitted(color.direction().words(), TEXT, false, room));
    y += 4.4;
  }

  private void trend(Trend trend) {
    boolean charted = trend.stages().stream().anyMatch(stage -> stage.baseline().isPresent());
    if (charted) {
      newPage("Trend of a proofing system");
    } else {
      room(30);
      y += 3;
    }
    title(ComparisonText.name(trend.source()));
    if (charted) {
      TrendPlot plot = new TrendPlot(pages, trend);
      for (int axis = 0; axis < 3; axis++) {
        y += 3;
        plot.draw(axis, LEFT, y, RIGHT - LEFT, MOST_TREND_MM);
        y += MOST_TREND_MM + 9;
      }
      paragraph(
          "Dots: proofs; those of a baseline are hollow. Line: the average; grey: its limits about"
              + " the centre; dashes: calibrations; squares: beyond the limits.");
    }
    ComparisonText.trendSentences(trend, comparison.baselineProofs()).forEach(this::paragraph);
  }
}
