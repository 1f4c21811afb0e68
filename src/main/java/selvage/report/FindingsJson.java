package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.finding.Severity;
import selvage.strip.JsonFields;

/** The field {@code findings} of every result. */
public final class FindingsJson {
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

  /**
   * Reads the findings of a result, as they were written.
   *
   * @param name of the file, for messages
   * @param json a whole result; without that field it has none
   * @throws InputException where the text is no result
   */
  public static List<Finding> read(String name, String json) throws InputException {
    try {
      JsonNode root = new ObjectMapper().readTree(json);
      return root.has("findings") ? read(JsonFields.of(name, "result", root)) : List.of();
    } catch (JsonProcessingException e) {
      throw InputException.of(name, "expected a result (JSON): " + e.getOriginalMessage(), e);
    }
  }

  static List<Finding> read(JsonFields fields) throws InputException {
    List<Finding> findings = new ArrayList<>();
    for (JsonFields one : fields.objects("findings")) {
      findings.add(
          new Finding(one.text("code"), one.word("severity", Severity.values()), one.text("text")));
    }
    return findings;
  }
}
