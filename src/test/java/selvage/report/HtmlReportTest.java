package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import selvage.finding.InputException;
import selvage.measurement.LabShift;

class HtmlReportTest {
  /** WCAG 2.1, success criterion 1.4.3, level AA. */
  private static final double LEAST_CONTRAST = 4.5;

  private static final List<String> LETTERS = List.of("ink", "muted", "pass", "fail", "undecided");

  @Test
  void of_fail_saysAllAndTakesNothingFromOutside() throws InputException {
    String html = html("flyer.pdf");
    assertThat(html)
        .startsWith("<!DOCTYPE html>")
        .contains("FAIL", "flyer.pdf", "KM7T-90QA", "FOGRA39", "iso-12647-7-2016", "SIMULATED")
        .contains("Every patch", "−6.00", HtmlText.escaped(ScoreText.CAUTION), ProofReport.SCREENS)
        .contains("viewport", "prefers-color-scheme: dark")
        .doesNotContain("<script", "http", "url(", "@import", "src=", "href=", "<link");
  }

  @Test
  void of_nameWithMarkup_shownAsText() throws InputException {
    assertThat(html("<img onerror=\"x\">&'.pdf"))
        .doesNotContain("<img")
        .contains("&lt;img onerror=&quot;x&quot;&gt;&amp;&#39;.pdf");
  }

  @Test
  void of_twice_theSame() throws InputException {
    assertThat(html("flyer.pdf")).isEqualTo(html("flyer.pdf"));
  }

  @Test
  void style_lettersOnTheirGround_contrastOfWcagAa() throws InputException {
    String style = html("flyer.pdf");
    Matcher roots = Pattern.compile(":root \\{(.*?)\\}", Pattern.DOTALL).matcher(style);
    int themes = 0;
    while (roots.find()) {
      Map<String, Integer> colors = new HashMap<>();
      Matcher color = Pattern.compile("--([a-z-]+): #([0-9a-f]{6})").matcher(roots.group(1));
      while (color.find()) {
        colors.put(color.group(1), Integer.parseInt(color.group(2), 16));
      }
      for (String letters : LETTERS) {
        for (String ground : List.of("ground", "panel")) {
          assertThat(contrast(colors.get(letters), colors.get(ground)))
              .as("%s on %s of theme %d", letters, ground, themes)
              .isGreaterThan(LEAST_CONTRAST);
        }
      }
      themes++;
    }
    assertThat(themes).isEqualTo(3);
  }

  @Test
  void shades_lettersOnPaper_contrastOfWcagAa() {
    for (Shade letters : List.of(Shade.INK, Shade.MUTED, Shade.PASS, Shade.FAIL, Shade.UNDECIDED)) {
      assertThat(contrast(letters.paper(), Shade.PANEL.paper()))
          .as(letters.name())
          .isGreaterThan(LEAST_CONTRAST);
    }
  }

  private static String html(String job) throws InputException {
    return HtmlReport.of(List.of(ReportFixture.report(job, new LabShift(-6, 2, 0))));
  }

  /** Contrast ratio of WCAG 2.1. */
  private static double contrast(int one, int other) {
    double a = luminance(one) + 0.05;
    double b = luminance(other) + 0.05;
    return Math.max(a, b) / Math.min(a, b);
  }

  private static double luminance(int rgb) {
    return 0.2126 * linear(rgb >> 16 & 255)
        + 0.7152 * linear(rgb >> 8 & 255)
        + 0.0722 * linear(rgb & 255);
  }

  private static double linear(int code) {
    double value = code / 255.0;
    return value <= 0.03928 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
  }
}
