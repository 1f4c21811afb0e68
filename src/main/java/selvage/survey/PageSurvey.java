package selvage.survey;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import selvage.color.SpotInk;
import selvage.finding.Finding;

/**
 * What a page is made of.
 *
 * @param page counted from 1
 * @param dpi samples an inch
 * @param area the box that was counted
 * @param trimWidthMm width of the trim box as displayed (Rotate and UserUnit applied), millimetres
 * @param trimHeightMm its height
 * @param census every distinct mixture of the counted area
 * @param spots what is known of each spot colorant of the page, by name
 * @param ink where the page bears ink, over the whole media; null where that is not known
 * @param findings doubts met on the way
 */
public record PageSurvey(
    int page,
    double dpi,
    AreaKind area,
    double trimWidthMm,
    double trimHeightMm,
    Census census,
    Map<String, SpotInk> spots,
    InkMap ink,
    List<Finding> findings) {
  public PageSurvey {
    if (page < 1 || !(dpi > 0) || !(trimWidthMm > 0) || !(trimHeightMm > 0)) {
      throw new IllegalArgumentException(
          "page " + page + ", " + dpi + " dpi, " + trimWidthMm + " × " + trimHeightMm + " mm");
    }
    Objects.requireNonNull(area, "area");
    Objects.requireNonNull(census, "census");
    spots = Map.copyOf(spots);
    findings = List.copyOf(findings);
  }
}
