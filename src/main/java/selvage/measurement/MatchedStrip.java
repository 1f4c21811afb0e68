package selvage.measurement;

import java.util.List;
import java.util.Objects;
import selvage.finding.Finding;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * A strip with its readings.
 *
 * @param strip the strip
 * @param measurement where the readings come from
 * @param alignment how they were matched
 * @param readings in the order of the strip's patches; a patch without reading is left out
 * @param findings doubts met in matching, those of the measurement not among them
 */
public record MatchedStrip(
    Strip strip,
    Measurement measurement,
    Alignment alignment,
    List<PatchReading> readings,
    List<Finding> findings) {
  /** A patch and its reading. */
  public record PatchReading(Patch patch, Reading reading) {}

  public MatchedStrip {
    Objects.requireNonNull(strip, "strip");
    Objects.requireNonNull(measurement, "measurement");
    Objects.requireNonNull(alignment, "alignment");
    readings = List.copyOf(readings);
    findings = List.copyOf(findings);
  }
}
