package selvage.web;

import selvage.color.Lab;
import selvage.report.PagePlots;
import selvage.score.Verdict;

/** Signs and swatches as SVG elements, for templates; every text in them is escaped. */
public final class Marks {
  /** The drawings. */
  static final PagePlots PLOTS = new PagePlots();

  private Marks() {}

  /** A verdict's sign. */
  public static String sign(Verdict verdict) {
    return PLOTS.sign(verdict);
  }

  /** A colour. */
  public static String swatch(Lab color, String description) {
    return PLOTS.swatch(color, description);
  }

  /** Aim and reading in one swatch, split in half. */
  public static String pair(Lab aim, Lab lab, String description) {
    return PLOTS.pair(aim, lab, description);
  }

  /** A text as part of an element's id. */
  public static String anchor(String... parts) {
    return String.join("-", parts).replaceAll("[^A-Za-z0-9-]", "_");
  }
}
