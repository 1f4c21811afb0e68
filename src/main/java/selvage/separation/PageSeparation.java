package selvage.separation;

import java.util.List;
import java.util.Map;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.ink.Colorant;

/**
 * What is left of a separated page when its bands are gone.
 *
 * @param geometry the page's boxes and raster
 * @param colorants the colorants that its objects name
 * @param alternates the spot colours as the job's alternate colours give them, by name
 * @param findings what was skipped, assumed or substituted
 */
public record PageSeparation(
    PageGeometry geometry,
    List<Colorant> colorants,
    Map<String, SpotInk> alternates,
    List<Finding> findings) {
  public PageSeparation {
    colorants = List.copyOf(colorants);
    alternates = Map.copyOf(alternates);
    findings = List.copyOf(findings);
  }
}
