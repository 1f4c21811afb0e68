package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import selvage.color.Aim;
import selvage.finding.Finding;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.separation.ObjectKind;
import selvage.survey.Census;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/** Writes a survey as JSON; the form is described in {@code docs/file-formats.md}. */
public final class SurveyJson {
  private SurveyJson() {}

  /**
   * Writes the whole survey as one object.
   *
   * @param mostColors how many mixtures a page lists, largest area first
   */
  public static void write(JobSurvey survey, int mostColors, JsonGenerator json)
      throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", 1);
    json.writeObjectFieldStart("job");
    json.writeStringField("file", survey.job().file());
    json.writeStringField("sha256", survey.job().sha256());
    json.writeNumberField("pages", survey.job().pages());
    json.writeEndObject();
    json.writeObjectFieldStart("condition");
    json.writeStringField("name", survey.condition().name());
    json.writeStringField("source", survey.condition().origin().word());
    json.writeEndObject();
    json.writeArrayFieldStart("pages");
    for (PageSurvey page : survey.pages()) {
      write(page, mostColors, json);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void write(PageSurvey page, int mostColors, JsonGenerator json)
      throws IOException {
    Census census = page.census();
    json.writeStartObject();
    json.writeNumberField("page", page.page());
    number(json, "dpi", page.dpi(), 3);
    json.writeStringField("area", page.area().word());
    json.writeArrayFieldStart("trim_mm");
    number(json, page.trimWidthMm(), 2);
    number(json, page.trimHeightMm(), 2);
    json.writeEndArray();
    json.writeArrayFieldStart("colorants");
    List<Colorant> colorants = census.colorants();
    for (int c = 0; c < colorants.size(); c++) {
      json.writeStartObject();
      json.writeStringField("name", colorants.get(c).name());
      json.writeStringField("kind", colorants.get(c).kind().word());
      number(json, "mean_pct", census.meanPercent(c), 4);
      json.writeEndObject();
    }
    json.writeEndArray();
    number(json, "inked_pct", census.inkedPercent(), 4);
    json.writeNumberField("distinct_colors", census.size());
    json.writeArrayFieldStart("colors");
    for (int row = 0; row < Math.min(mostColors, census.size()); row++) {
      color(census, row, json);
    }
    json.writeEndArray();
    findings(page.findings(), json);
    json.writeEndObject();
  }

  private static void color(Census census, int row, JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeFieldName("inks");
    inks(census.mixture(row), json);
    number(json, "area_pct", census.areaPercent(row), 5);
    Aim aim = census.aim(row);
    json.writeArrayFieldStart("lab");
    number(json, aim.lab().l(), 3);
    number(json, aim.lab().a(), 3);
    number(json, aim.lab().b(), 3);
    json.writeEndArray();
    json.writeStringField("lab_source", aim.source().word());
    json.writeArrayFieldStart("objects");
    for (ObjectKind kind : ObjectKind.ofBits(census.kindBits(row))) {
      json.writeString(kind.word());
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  /** Writes a mixture as an object of tints in percent by colorant. */
  static void inks(InkMixture mixture, JsonGenerator json) throws IOException {
    json.writeStartObject();
    for (Map.Entry<Colorant, Integer> entry : mixture.units().entrySet()) {
      number(json, entry.getKey().name(), Tint.toPercent(entry.getValue()), 3);
    }
    json.writeEndObject();
  }

  private static void findings(List<Finding> findings, JsonGenerator json) throws IOException {
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

  private static void number(JsonGenerator json, String name, double value, int digits)
      throws IOException {
    json.writeFieldName(name);
    number(json, value, digits);
  }

  private static void number(JsonGenerator json, double value, int digits) throws IOException {
    double scale = Math.pow(10, digits);
    json.writeNumber(Math.round(value * scale) / scale);
  }
}
