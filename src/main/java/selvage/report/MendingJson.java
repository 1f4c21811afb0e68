package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.score.Mending;
import selvage.score.PatchMend;
import selvage.score.ProofScore;
import selvage.score.SetScore;

/** What would mend a print, as a JSON object. */
final class MendingJson {
  private MendingJson() {}

  static void write(Mending mending, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeArrayFieldStart("predicted");
    for (ProofScore score : mending.predicted()) {
      json.writeStartObject();
      json.writeStringField("strip_id", score.stripId());
      json.writeNumberField("page", score.page());
      json.writeStringField("verdict", score.verdict().word());
      json.writeObjectFieldStart("sets");
      for (SetScore set : score.sets()) {
        json.writeObjectFieldStart(set.set().word());
        json.writeNumberField("mean_de00", rounded(set.meanDe00()));
        json.writeNumberField("p95_de00", rounded(set.p95De00()));
        json.writeNumberField("max_de00", rounded(set.maxDe00()));
        json.writeStringField("verdict", set.verdict().word());
        json.writeEndObject();
      }
      json.writeEndObject();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("patches");
    for (PatchMend patch : mending.patches()) {
      json.writeStartObject();
      json.writeStringField("id", patch.patch().id());
      writeInks(json, "inks", patch.patch().mixture());
      writeInks(json, "corrected", patch.corrected());
      json.writeNumberField("de00", rounded(patch.de00Now()));
      json.writeNumberField("predicted_de00", rounded(patch.de00After()));
      json.writeNumberField("limit", patch.limit());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("words");
    for (String sentence : mending.words()) {
      json.writeString(sentence);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void writeInks(JsonGenerator json, String name, InkMixture mixture)
      throws IOException {
    json.writeObjectFieldStart(name);
    for (Colorant ink : mixture.units().keySet()) {
      json.writeNumberField(ink.name(), mixture.percent(ink));
    }
    json.writeEndObject();
  }

  private static double rounded(double value) {
    return Math.round(value * 1e4) / 1e4 + 0.0;
  }
}
