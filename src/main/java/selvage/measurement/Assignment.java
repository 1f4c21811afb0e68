package selvage.measurement;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import selvage.finding.Finding;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * Which readings of one measurement belong to which patches; patches may lack one, or have several.
 *
 * @param readings by patch, in the file's order; no empty list
 * @param fitDe76 mean ΔE*ab between the assigned readings and their aims
 */
record Assignment(
    Strip strip,
    Measurement measurement,
    Alignment alignment,
    Map<Patch, List<Reading>> readings,
    double fitDe76,
    List<Finding> findings) {
  Assignment {
    readings = new LinkedHashMap<>(readings);
    findings = List.copyOf(findings);
  }
}
