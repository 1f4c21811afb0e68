package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import selvage.finding.Finding;

/** The field {@code findings} of every result. */
final class FindingsJson {
  private FindingsJson() {}

  static void write(JsonGenerator json, List<Finding> findings) throws IOException {
    json.writeArrayFieldStart("findings");
    for (Finding finding : findings) {
      json.writeStartObject();
      json.writeStringField("code", finding.code());
      json.writeStringField("severity", finding.severity().word());
      json.writeStringField("text", finding.text());
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
