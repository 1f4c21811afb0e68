package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import selvage.score.Cause;
import selvage.score.Diagnosis;
import selvage.score.FoundCause;

/** A diagnosis as a JSON object. Figures are rounded to 0.0001. */
final class DiagnosisJson {
  private DiagnosisJson() {}

  static void write(Diagnosis diagnosis, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeNumberField("patches", diagnosis.readings());
    writeRounded(json, "error_rms_de76", diagnosis.errorDe76());
    writeRounded(json, "unexplained_rms_de76", diagnosis.unexplainedDe76());
    writeRounded(json, "unexplained_pct", 100 * diagnosis.unexplainedShare());
    json.writeArrayFieldStart("causes");
    for (FoundCause cause : diagnosis.causes()) {
      json.writeStartObject();
      writeCause(cause.cause(), json);
      json.writeStringField("unit", cause.cause().kind().unit());
      writeNumbers(json, "values", cause.values());
      writeNumbers(json, "margins_95", cause.margins());
      writeRounded(json, "explains_pct", 100 * cause.share());
      if (!cause.rivals().isEmpty()) {
        json.writeArrayFieldStart("or_else");
        for (Cause rival : cause.rivals()) {
          json.writeStartObject();
          writeCause(rival, json);
          json.writeEndObject();
        }
        json.writeEndArray();
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    writeTexts(json, "odd_patches", diagnosis.oddPatches());
    writeTexts(json, "words", diagnosis.words());
    json.writeEndObject();
  }

  private static void writeCause(Cause cause, JsonGenerator json) throws IOException {
    json.writeStringField("cause", cause.kind().word());
    if (!cause.ink().isEmpty()) {
      json.writeStringField("ink", cause.ink());
    }
  }

  private static void writeTexts(JsonGenerator json, String name, List<String> texts)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (String text : texts) {
      json.writeString(text);
    }
    json.writeEndArray();
  }

  private static void writeNumbers(JsonGenerator json, String name, List<Double> values)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (double value : values) {
      json.writeNumber(rounded(value));
    }
    json.writeEndArray();
  }

  private static void writeRounded(JsonGenerator json, String name, double value)
      throws IOException {
    json.writeNumberField(name, rounded(value));
  }

  private static double rounded(double value) {
    return Math.round(value * 1e4) / 1e4 + 0.0;
  }
}
