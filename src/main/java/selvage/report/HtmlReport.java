package selvage.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.score.Check;
import selvage.score.ScoredPatch;
import selvage.score.SetScore;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * Reports as one HTML page that needs nothing beside it: style and drawings are in it, there is no
 * script. It says what {@link PdfReport} says, fits narrow and wide windows, light and dark.
 */
public final class HtmlReport {
  private static final int PATCHES_A_CHART = 8;
  private static final double SLOT_MM = 7.4;
  private static final double BARS_MM = 22;

  private final StringBuilder html = new StringBuilder();
  private final ScreenColor screen = new ScreenColor();

  private HtmlReport() {}

  /**
   * Makes the page.
   *
   * @param reports at least one
   * @return to be encoded in UTF-8
   */
  public static String of(List<ProofReport> reports) {
    return new HtmlReport().page(reports);
  }

  private String page(List<ProofReport> reports) {
    ProofReport first = reports.get(0);
    html.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    html.append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html.append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>");
    html.append(HtmlText.escaped("Proof report: " + first.jobName())).append("</title>\n<style>\n");
    html.append(style()).append("</style>\n</head>\n<body>\n<main>\n");
    for (ProofReport report : reports) {
      article(report);
    }
    html.append("</main>\n</body>\n</html>\n");
    return html.toString();
  }

  private static String style() {
    try (InputStream in = HtmlReport.class.getResourceAsStream("report.css")) {
      if (in == null) {
        throw new IllegalStateException("missing from the program: report.css");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException("the jar lacks a readable report.css", e);
    }
  }

  private void article(ProofReport report) {
    html.append("<article>\n<header><p class=\"kind\"><span>Proof report</span><span>");
    html.append(HtmlText.escaped(report.date())).append("</span></p>\n");
    html.append("<h1 title=\"").append(HtmlText.escaped(report.jobName())).append("\">");
    html.append(HtmlText.escaped(report.jobName())).append(" <small>page ");
    html.append(report.score().page()).append(" of ").append(report.file().job().pages());
    html.append("</small></h1></header>\n");
    verdict(report);
    facts(report);
    html.append("<div class=\"columns\">\n");
    checks(report);
    sets(report);
    html.append("</div>\n");
    for (PatchSet set : PatchSet.values()) {
      bars(report, set);
    }
    html.append("<div class=\"columns\">\n");
    drift(report);
    html.append("<div>\n");
    for (ReportSection section : report.sections()) {
      section(section);
    }
    findings(report);
    html.append("</div>\n</div>\n");
    patches(report);
    html.append("<section><h2>How the figures were made</h2>");
    paragraph(report.method());
    paragraph("Tolerances from: " + report.score().tolerance().source() + ".");
    html.append("</section>\n<footer>");
    paragraph(ScoreText.CAUTION);
    html.append("</footer>\n</article>\n");
  }

  private void verdict(ProofReport report) {
    Verdict verdict = report.score().verdict();
    String shade = VerdictSign.shade(verdict).htmlClass();
    html.append("<section class=\"verdict ").append(shade).append("\">");
    html.append(sign(verdict, "sign"));
    html.append("<p class=\"word\">").append(report.verdictWord()).append("</p><div>");
    paragraph(report.summary());
    if (report.score().simulated()) {
      html.append("<p class=\"simulated\">").append(ProofReport.SIMULATED).append("</p>");
    }
    html.append("</div></section>\n");
  }

  private String sign(Verdict verdict, String kind) {
    SvgDrawing drawing = new SvgDrawing(screen, 10, 10, kind, verdict.word());
    VerdictSign.draw(drawing, verdict, 5, 5, 4.4);
    return drawing.element();
  }

  private void facts(ProofReport report) {
    html.append("<dl class=\"facts\">\n");
    for (ProofReport.Fact fact : report.facts().subList(2, report.facts().size())) {
      html.append("<div><dt>").append(HtmlText.escaped(fact.name())).append("</dt><dd>");
      html.append(HtmlText.escaped(fact.value())).append("</dd></div>\n");
    }
    html.append("</dl>\n");
  }

  private void checks(ProofReport report) {
    html.append("<section><h2>Checks</h2>\n<table class=\"checks\"><thead><tr>");
    html.append("<th scope=\"col\">Check</th><th scope=\"col\">Strip</th>");
    html.append("<th scope=\"col\">Figure</th><th scope=\"col\" class=\"n\">Value</th>");
    html.append("<th scope=\"col\" class=\"n\">Limit</th><th scope=\"col\">Verdict</th>");
    html.append("</tr></thead><tbody>\n");
    for (Check check : report.score().checks()) {
      html.append("<tr><th scope=\"row\">");
      html.append(HtmlText.escaped(ProofReport.checkName(check))).append("</th>");
      cell("Strip", "", check.limit().set().word());
      cell("Figure", "", ProofReport.metric(check));
      cell("Value", "n", Figures.value(check));
      cell("Limit", "n", (Figures.limit(check) + " " + Figures.guardBand(check)).strip());
      verdictCell("Verdict", check.verdict());
      html.append("</tr>\n");
    }
    html.append("</tbody></table></section>\n");
  }

  private void sets(ProofReport report) {
    html.append("<section><h2>Job strip against standard strip</h2>\n");
    html.append("<table class=\"sets\"><thead><tr><th scope=\"col\">ΔE00</th>");
    for (SetScore set : report.score().sets()) {
      html.append("<th scope=\"col\" class=\"n\">");
      html.append(set.set() == PatchSet.JOB ? "Job" : "Standard").append("</th>");
    }
    html.append("</tr></thead><tbody>\n");
    for (int row = 0; row < PdfReport.SET_FIGURES.size(); row++) {
      html.append("<tr><th scope=\"row\">").append(PdfReport.SET_FIGURES.get(row)).append("</th>");
      for (SetScore set : report.score().sets()) {
        cell("", "n", PdfReport.figure(set, row));
      }
      html.append("</tr>\n");
    }
    html.append("<tr><th scope=\"row\">verdict</th>");
    for (SetScore set : report.score().sets()) {
      verdictCell("", set.verdict());
    }
    html.append("</tr></tbody></table></section>\n");
  }

  private void cell(String label, String kind, String text) {
    html.append("<td");
    if (!kind.isEmpty()) {
      html.append(" class=\"").append(kind).append('"');
    }
    if (!label.isEmpty()) {
      html.append(" data-label=\"").append(label).append('"');
    }
    html.append('>').append(HtmlText.escaped(text)).append("</td>");
  }

  private void verdictCell(String label, Verdict verdict) {
    html.append("<td class=\"v ").append(VerdictSign.shade(verdict).htmlClass()).append('"');
    if (!label.isEmpty()) {
      html.append(" data-label=\"").append(label).append('"');
    }
    html.append('>').append(sign(verdict, "small-sign")).append(verdict.word()).append("</td>");
  }

  private void bars(ProofReport report, PatchSet set) {
    List<ScoredPatch> patches = report.patches(set);
    if (patches.isEmpty()) {
      return;
    }
    PatchLimits limits = PatchLimits.of(report.score(), set);
    List<PlottedPatch> all = PlottedPatch.of(patches, limits);
    html.append("<section><h2>").append(ProofReport.setName(set)).append("</h2>");
    paragraph(
        limits.metric().sign()
            + " of each patch (empty: not judged) with its own limit as a stroke, the limit of the"
            + " mean in dashes. Below: aim | measured. "
            + ProofReport.SCREENS);
    html.append("<div class=\"charts\">\n");
    for (int from = 0; from < patches.size(); from += PATCHES_A_CHART) {
      List<ScoredPatch> some =
          patches.subList(from, Math.min(patches.size(), from + PATCHES_A_CHART));
      SvgDrawing drawing =
          new SvgDrawing(
              screen,
              PatchBars.widthMm(PATCHES_A_CHART, SLOT_MM),
              PatchBars.heightMm(BARS_MM),
              "bars",
              ProofReport.setName(set)
                  + ", patches "
                  + some.get(0).patch().id()
                  + " to "
                  + some.get(some.size() - 1).patch().id()
                  + "; the figures stand in the table below");
      new PatchBars(drawing, limits.mean(), all, BARS_MM, SLOT_MM)
          .draw(0, 0, all.subList(from, from + some.size()));
      html.append(drawing.element()).append('\n');
    }
    html.append("</div></section>\n");
  }

  private void drift(ProofReport report) {
    double size = 70;
    SvgDrawing plane =
        new SvgDrawing(screen, size, size, "plot", "Drift on the a*b* plane, aim to measured");
    DriftPlots plots = new DriftPlots(plane, PlottedPatch.of(report.score().patches()));
    plots.drawPlane(0, 0, size);
    SvgDrawing lightness = new SvgDrawing(screen, 46, size, "plot", "Drift of L* over L*");
    new DriftPlots(lightness, PlottedPatch.of(report.score().patches()))
        .drawLightness(0, 0, 46, size);
    html.append("<section><h2>Drift</h2>");
    paragraph(
        "On a*b* from aim towards measured, strokes drawn × "
            + plots.stretch()
            + "; over L* the change of L*. Discs are job patches, squares standard patches.");
    html.append("<div class=\"plots\">").append(plane.element()).append(lightness.element());
    html.append("</div></section>\n");
  }

  private void section(ReportSection section) {
    html.append("<section><h2>").append(HtmlText.escaped(section.title())).append("</h2>");
    section.lines().forEach(this::paragraph);
    if (!section.table().isEmpty()) {
      html.append("<div class=\"scroll\" tabindex=\"0\"><table>");
      for (int row = 0; row < section.table().size(); row++) {
        html.append("<tr>");
        for (String text : section.table().get(row)) {
          html.append(row == 0 ? "<th scope=\"col\">" : "<td>").append(HtmlText.escaped(text));
          html.append(row == 0 ? "</th>" : "</td>");
        }
        html.append("</tr>\n");
      }
      html.append("</table></div>");
    }
    html.append("</section>\n");
  }

  private void findings(ProofReport report) {
    if (report.score().findings().isEmpty()) {
      return;
    }
    html.append("<section><h2>Findings</h2><ul>\n");
    for (Finding finding : report.score().findings()) {
      html.append("<li><b>").append(finding.severity().word()).append(":</b> ");
      html.append(HtmlText.escaped(finding.text())).append("</li>\n");
    }
    html.append("</ul></section>\n");
  }

  private void patches(ProofReport report) {
    html.append("<section><h2>Every patch</h2>\n");
    html.append("<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"Every patch\">");
    html.append("<table class=\"patches\"><thead><tr>");
    for (String head :
        List.of(
            "Patch",
            "Aim | measured",
            "Inks, %",
            "aim L*",
            "a*",
            "b*",
            "measured L*",
            "a*",
            "b*",
            "ΔL*",
            "ΔCh",
            "ΔH",
            "ΔE00",
            "Share %")) {
      html.append("<th scope=\"col\">").append(head).append("</th>");
    }
    html.append("</tr></thead><tbody>\n");
    for (PatchSet set : PatchSet.values()) {
      PatchLimits limits = PatchLimits.of(report.score(), set);
      for (ScoredPatch patch : report.patches(set)) {
        patch(patch, limits.verdict(patch) != Verdict.PASS);
      }
    }
    html.append("</tbody></table></div></section>\n");
  }

  private void patch(ScoredPatch patch, boolean beyond) {
    Lab aim = patch.patch().aim().lab();
    Lab lab = patch.lab();
    SvgDrawing pair = new SvgDrawing(screen, 16, 5, "pair", "aim and measured colour");
    pair.box(0, 0, 16, 5, Shade.SURROUND);
    pair.swatch(0.8, 0.8, 7.2, 3.4, aim);
    pair.swatch(8, 0.8, 7.2, 3.4, lab);
    html.append("<tr><th scope=\"row\">").append(HtmlText.escaped(patch.patch().id()));
    html.append("</th><td>").append(pair.element()).append("</td>");
    String inks = InkText.of(patch.patch().mixture());
    html.append("<td class=\"inks\" title=\"").append(HtmlText.escaped(inks)).append("\">");
    html.append(HtmlText.escaped(inks)).append(patch.judged() ? "" : " (not judged)");
    html.append("</td>");
    List<String> figures = new ArrayList<>();
    for (double value : new double[] {aim.l(), aim.a(), aim.b(), lab.l(), lab.a(), lab.b()}) {
      figures.add(Figures.fixed(value, 2));
    }
    figures.add(Figures.signed(patch.dl(), 2));
    figures.add(Figures.fixed(patch.dch(), 2));
    figures.add(Figures.signed(patch.dh(), 2));
    for (String figure : figures) {
      cell("", "n", figure);
    }
    cell("", beyond ? "n fail" : "n", Figures.fixed(patch.de00(), 2));
    boolean job = patch.patch().set() == PatchSet.JOB;
    cell("", "n", job ? Figures.fixed(patch.patch().representsPercent(), 1) : "–");
    html.append("</tr>\n");
  }

  private void paragraph(String text) {
    html.append("<p>").append(HtmlText.escaped(text)).append("</p>\n");
  }
}
