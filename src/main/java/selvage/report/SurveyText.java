package selvage.report;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import selvage.finding.Finding;
import selvage.ink.Colorant;
import selvage.separation.ObjectKind;
import selvage.survey.Census;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/** Tells a survey to a person at a terminal. */
public final class SurveyText {
  private static final int COLORS_SHOWN = 16;

  private SurveyText() {}

  public static void write(JobSurvey survey, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%s: %d page%s, reference printing condition %s (%s)%n",
        survey.job().file(),
        survey.job().pages(),
        survey.job().pages() == 1 ? "" : "s",
        survey.condition().name(),
        survey.condition().origin().word());
    for (PageSurvey page : survey.pages()) {
      write(page, out);
    }
  }

  private static void write(PageSurvey page, PrintWriter out) {
    Census census = page.census();
    out.printf(
        Locale.ROOT,
        "%nPage %d, trim %.1f × %.1f mm, %s box at %.0f dpi: %.1f %% inked, %d mixtures%n",
        page.page(),
        page.trimWidthMm(),
        page.trimHeightMm(),
        page.area().word(),
        page.dpi(),
        census.inkedPercent(),
        census.size());
    List<Colorant> colorants = census.colorants();
    StringBuilder means = new StringBuilder("  mean tint:");
    for (int c = 0; c < colorants.size(); c++) {
      means.append(
          String.format(
              Locale.ROOT,
              "%s %s %.2f %%",
              c == 0 ? "" : ",",
              colorants.get(c).name(),
              census.meanPercent(c)));
    }
    out.println(means);
    int shown = Math.min(COLORS_SHOWN, census.size());
    for (int row = 0; row < shown; row++) {
      var lab = census.aim(row).lab();
      StringBuilder kinds = new StringBuilder();
      for (ObjectKind kind : ObjectKind.ofBits(census.kindBits(row))) {
        kinds.append(kinds.length() == 0 ? "" : ", ").append(kind.word());
      }
      out.printf(
          Locale.ROOT,
          "  %6.2f %%  L* %5.1f  a* %6.1f  b* %6.1f  %-10s  %s%s%n",
          census.areaPercent(row),
          lab.l(),
          lab.a(),
          lab.b(),
          census.aim(row).source().word(),
          census.mixture(row),
          kinds.length() == 0 ? "" : " (" + kinds + ")");
    }
    if (census.size() > shown) {
      out.printf(Locale.ROOT, "  … and %d more%n", census.size() - shown);
    }
    for (Finding finding : page.findings()) {
      out.println("  " + finding.severity().word() + ": " + finding.text());
    }
  }
}
