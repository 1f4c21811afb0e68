package selvage.measurement;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
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
 * @param repeatability how readings of the same patches spread; empty where none was read twice
 * @param findings doubts met in matching, those of the measurement not among them
 */
public record MatchedStrip(
    Strip strip,
    Measurement measurement,
    Alignment alignment,
    List<PatchReading> readings,
    Optional<Repeatability> repeatability,
    List<Finding> findings) {
  /** A patch and its reading. */
  public record PatchReading(Patch patch, Reading reading) {}

  /** A strip of which no patch was read twice. */
  public MatchedStrip(
      Strip strip,
      Measurement measurement,
      Alignment alignment,
      List<PatchReading> readings,
      List<Finding> findings) {
    this(strip, measurement, alignment, readings, Optional.empty(), findings);
  }

  public MatchedStrip {
    Objects.requireNonNull(repeatability, "repeatability");
    Objects.requireNonNull(strip, "strip");
    Objects.requireNonNull(measurement, "measurement");
    Objects.requireNonNull(alignment, "alignment");
    readings = List.copyOf(readings);
    findings = List.copyOf(findings);
  }
}
