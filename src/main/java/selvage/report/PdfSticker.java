package selvage.report;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import selvage.report.Drawing.Anchor;
import selvage.score.Verdict;
import selvage.strip.BoxMm;
import selvage.strip.IdMark;

/** Small labels to stick on proofs, 90 × 50 mm, one page a scored strip. */
public final class PdfSticker {
  private static final double WIDTH = 90;
  private static final double HEIGHT = 50;
  private static final double EDGE = 4;
  private static final double MARK = 14;

  private PdfSticker() {}

  /**
   * Writes labels.
   *
   * @param reports at least one
   */
  public static void write(List<ProofReport> reports, OutputStream out) throws IOException {
    ProofReport first = reports.get(0);
    try (PdfPages pages = new PdfPages()) {
      for (ProofReport report : reports) {
        pages.newPage(WIDTH, HEIGHT);
        draw(pages, report);
      }
      pages.write(
          out,
          "Label: " + first.jobName(),
          first.time(),
          first.score().stripId().hashCode() * 37L + first.time().getEpochSecond());
    }
  }

  private static void draw(PdfPages pages, ProofReport report) {
    Verdict verdict = report.score().verdict();
    double right = WIDTH - EDGE;
    VerdictSign.draw(pages, verdict, EDGE + 5, EDGE + 5.4, 4.6);
    double size = verdict == Verdict.UNDECIDED ? 5.4 : 8;
    Shade shade = VerdictSign.shade(verdict);
    pages.text(EDGE + 13, EDGE + 8.2, size, true, shade, Anchor.START, report.verdictWord());
    drawMark(pages, report.score().stripId(), right - MARK, EDGE);
    if (report.score().simulated()) {
      pages.text(right - MARK - 3, EDGE + 4, 2.6, true, Shade.UNDECIDED, Anchor.END, "SIMULATED");
    }
    double y = EDGE + 15.6;
    pages.text(
        EDGE,
        y,
        3.6,
        true,
        Shade.INK,
        Anchor.START,
        pages.fitted(report.jobName(), 3.6, true, right - EDGE - MARK - 4));
    pages.line(EDGE, y + 2.2, right, y + 2.2, Shade.RULE, 0.2);
    y += 6;
    String page = report.score().page() + " of " + report.file().job().pages();
    row(pages, y, "Strip", report.score().stripId() + ", page " + page);
    row(pages, y + 4.1, "Evaluated as", report.labelItem("Evaluated as"));
    row(
        pages,
        y + 8.2,
        "Against",
        report.file().conditionName() + ", " + report.score().tolerance().name());
    row(pages, y + 12.3, "Evaluated on", report.date());
    y += 17.4;
    for (String line : pages.wrapped(ScoreText.CAUTION, 2.1, false, right - EDGE)) {
      pages.text(EDGE, y, 2.1, false, Shade.MUTED, Anchor.START, line);
      y += 2.6;
    }
  }

  private static void row(PdfPages pages, double y, String name, String value) {
    pages.text(EDGE, y, 2.6, false, Shade.MUTED, Anchor.START, name);
    String shown = pages.fitted(value, 2.6, false, WIDTH - 2 * EDGE - 21);
    pages.text(EDGE + 21, y, 2.6, false, Shade.INK, Anchor.START, shown);
  }

  private static void drawMark(PdfPages pages, String stripId, double left, double top) {
    IdMark mark = IdMark.of(stripId);
    double scale = MARK / mark.sizeMm();
    for (BoxMm bar : mark.bars(0, 0)) {
      double upper = MARK - (bar.yMm() + bar.heightMm()) * scale;
      pages.box(
          left + bar.xMm() * scale,
          top + upper,
          bar.widthMm() * scale,
          bar.heightMm() * scale,
          Shade.INK);
    }
  }
}
