package selvage.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import selvage.color.Lab;
import selvage.report.Drawing.Anchor;
import selvage.score.ScoredPatch;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/** The sheets behind a report's first: what found no place there, every patch, the method. */
final class PdfFigures {
  private static final double TEXT = 2.5;
  private static final double ROW = 3.9;
  private static final double LINE = 3.4;
  private static final double GAP = 5;

  private final PdfPages pages;
  private final ProofReport report;
  private double y;

  PdfFigures(PdfPages pages, ProofReport report) {
    this.pages = pages;
    this.report = report;
  }

  /**
   * Draws them.
   *
   * @param words whether sections and findings are to be told in full
   */
  void draw(boolean words) {
    newPage();
    if (words) {
      for (ReportSection section : report.sections()) {
        title(section.title());
        paragraphs(section.lines());
        table(section.table());
      }
      if (!report.score().findings().isEmpty()) {
        title("Findings");
        paragraphs(report.score().findings().stream().map(PdfReport::finding).toList());
      }
    }
    for (PatchSet set : PatchSet.values()) {
      patches(set);
    }
    title("How the figures were made");
    paragraphs(List.of(report.method()));
  }

  private void newPage() {
    pages.newPage(PdfReport.WIDTH, PdfReport.HEIGHT);
    y = 16;
    pages.text(
        PdfReport.LEFT, y, 2.7, false, Shade.MUTED, Anchor.START, "Proof report: the figures");
    pages.text(PdfReport.RIGHT, y, 2.7, false, Shade.MUTED, Anchor.END, report.date());
    y += 8;
  }

  private void room(double height) {
    if (y + height > PdfReport.BOTTOM - 2) {
      newPage();
    }
  }

  private void title(String text) {
    room(14);
    pages.text(PdfReport.LEFT, y, 3.4, true, Shade.INK, Anchor.START, text);
    y += 4.8;
  }

  private void paragraphs(List<String> texts) {
    for (String text : texts) {
      for (String line : pages.wrapped(text, TEXT, false, PdfReport.RIGHT - PdfReport.LEFT)) {
        room(LINE);
        pages.text(PdfReport.LEFT, y, TEXT, false, Shade.INK, Anchor.START, line);
        y += LINE;
      }
      y += 0.8;
    }
    y += 3;
  }

  private void table(List<List<String>> rows) {
    if (rows.isEmpty()) {
      return;
    }
    double[] widths = widths(rows);
    for (int row = 0; row < rows.size(); row++) {
      room(ROW);
      double x = PdfReport.LEFT;
      for (int column = 0; column < rows.get(row).size(); column++) {
        boolean bold = row == 0;
        String text = pages.fitted(rows.get(row).get(column), TEXT, bold, widths[column] - GAP);
        pages.text(x, y, TEXT, bold, Shade.INK, Anchor.START, text);
        x += widths[column];
      }
      rule(row == 0 ? Shade.INK : Shade.RULE);
      y += ROW;
    }
    y += 4;
  }

  /** As wide as the columns' texts, in proportion narrower where that is more than there is. */
  private double[] widths(List<List<String>> rows) {
    double[] widths = new double[rows.get(0).size()];
    for (List<String> row : rows) {
      for (int column = 0; column < widths.length; column++) {
        double width = pages.width(row.get(column), TEXT, true) + GAP;
        widths[column] = Math.max(widths[column], width);
      }
    }
    double sum = Arrays.stream(widths).sum();
    double shrink = Math.min(1, (PdfReport.RIGHT - PdfReport.LEFT) / sum);
    for (int column = 0; column < widths.length; column++) {
      widths[column] *= shrink;
    }
    return widths;
  }

  private void patches(PatchSet set) {
    List<ScoredPatch> patches = report.patches(set);
    if (patches.isEmpty()) {
      return;
    }
    title(ProofReport.setName(set));
    heads(set);
    for (ScoredPatch patch : patches) {
      if (y + ROW > PdfReport.BOTTOM - 2) {
        newPage();
        heads(set);
      }
      row(patch, set);
    }
    y += 5;
  }

  private static final List<String> HEADS =
      List.of("L*", "a*", "b*", "L*", "a*", "b*", "ΔL*", "ΔCh", "ΔH", "ΔE00", "Share %");

  private void heads(PatchSet set) {
    pages.text(x(2), y, 2.3, false, Shade.MUTED, Anchor.END, "aim");
    pages.text(x(5), y, 2.3, false, Shade.MUTED, Anchor.END, "measured");
    y += 3.4;
    pages.text(PdfReport.LEFT, y, TEXT, true, Shade.INK, Anchor.START, "Patch");
    pages.text(PdfReport.LEFT + 9, y, TEXT, true, Shade.INK, Anchor.START, "Aim | measured");
    pages.text(PdfReport.LEFT + 31, y, TEXT, true, Shade.INK, Anchor.START, "Inks, %");
    for (int i = 0; i < HEADS.size() - (set == PatchSet.JOB ? 0 : 1); i++) {
      pages.text(x(i), y, TEXT, true, Shade.INK, Anchor.END, HEADS.get(i));
    }
    rule(Shade.INK);
    y += ROW;
  }

  private static double x(int column) {
    int fromRight = HEADS.size() - 1 - column;
    return PdfReport.RIGHT - (fromRight == 0 ? 0 : 2 + fromRight * 10);
  }

  private void row(ScoredPatch patch, PatchSet set) {
    double left = PdfReport.LEFT;
    Lab aim = patch.patch().aim().lab();
    Lab lab = patch.lab();
    boolean beyond = PatchLimits.of(report.score(), set).verdict(patch) != Verdict.PASS;
    pages.text(left, y, TEXT, beyond, Shade.INK, Anchor.START, patch.patch().id());
    pages.box(left + 9, y - 2.72, 18, ROW, Shade.SURROUND);
    pages.swatch(left + 9.6, y - 2.3, 8.4, 3.06, aim);
    pages.swatch(left + 18, y - 2.3, 8.4, 3.06, lab);
    String doubt = patch.judged() ? "" : ", not judged";
    double inksWidth = x(0) - 9 - left - 31 - pages.width(doubt, TEXT, false);
    String inks = pages.fitted(InkText.of(patch.patch().mixture()), TEXT, false, inksWidth) + doubt;
    pages.text(left + 31, y, TEXT, false, Shade.INK, Anchor.START, inks);
    List<String> cells = new ArrayList<>();
    cells.add(Figures.fixed(aim.l(), 2));
    cells.add(Figures.fixed(aim.a(), 2));
    cells.add(Figures.fixed(aim.b(), 2));
    cells.add(Figures.fixed(lab.l(), 2));
    cells.add(Figures.fixed(lab.a(), 2));
    cells.add(Figures.fixed(lab.b(), 2));
    cells.add(Figures.signed(patch.dl(), 2));
    cells.add(Figures.fixed(patch.dch(), 2));
    cells.add(Figures.signed(patch.dh(), 2));
    cells.add(Figures.fixed(patch.de00(), 2));
    if (set == PatchSet.JOB) {
      cells.add(Figures.fixed(patch.patch().representsPercent(), 1));
    }
    for (int i = 0; i < cells.size(); i++) {
      boolean strong = beyond && i == 9;
      pages.text(x(i), y, TEXT, strong, strong ? Shade.FAIL : Shade.INK, Anchor.END, cells.get(i));
    }
    rule(Shade.RULE);
    y += ROW;
  }

  private void rule(Shade shade) {
    pages.line(PdfReport.LEFT, y + 1.18, PdfReport.RIGHT, y + 1.18, shade, 0.1);
  }
}
