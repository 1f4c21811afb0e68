package selvage.measurement;

import java.util.List;
import java.util.Objects;
import selvage.finding.Finding;
import selvage.strip.Strip;

/**
 * An invented measurement.
 *
 * @param drift what the virtual device did
 * @param text CGATS text, to be encoded in UTF-8
 * @param strips the strips that it holds, in its order
 * @param findings what had to be guessed
 */
public record Rehearsal(Drift drift, String text, List<Strip> strips, List<Finding> findings) {
  public Rehearsal {
    Objects.requireNonNull(drift, "drift");
    Objects.requireNonNull(text, "text");
    strips = List.copyOf(strips);
    findings = List.copyOf(findings);
  }
}
