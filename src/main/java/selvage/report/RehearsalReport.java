package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import selvage.finding.Finding;
import selvage.measurement.Rehearsal;
import selvage.strip.Strip;

/** What a rehearsal made, as text and JSON. */
public final class RehearsalReport {
  private RehearsalReport() {}

  /**
   * For a terminal.
   *
   * @param file where the measurement was written
   */
  public static String text(Rehearsal rehearsal, String file) {
    StringBuilder text = new StringBuilder();
    text.append("SIMULATED measurement written to ").append(file).append('\n');
    for (Strip strip : rehearsal.strips()) {
      text.append("  page ")
          .append(strip.page())
          .append(", strip ")
          .append(strip.stripId())
          .append('\n');
    }
    text.append("Drift: ").append(rehearsal.drift().describe()).append('\n');
    for (Finding finding : rehearsal.findings()) {
      text.append(finding.severity().word()).append(": ").append(finding.text()).append('\n');
    }
    return text.append("Nothing was printed or measured.\n").toString();
  }

  /** For programs, as one object. */
  public static void writeJson(Rehearsal rehearsal, String file, JsonGenerator json)
      throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", 1);
    json.writeBooleanField("simulated", true);
    json.writeStringField("measurement", file);
    json.writeStringField("drift", rehearsal.drift().describe());
    json.writeArrayFieldStart("strips");
    for (Strip strip : rehearsal.strips()) {
      json.writeStartObject();
      json.writeStringField("strip_id", strip.stripId());
      json.writeNumberField("page", strip.page());
      json.writeEndObject();
    }
    json.writeEndArray();
    FindingsJson.write(json, rehearsal.findings());
    json.writeEndObject();
  }
}
