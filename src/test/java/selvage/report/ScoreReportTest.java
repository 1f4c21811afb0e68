package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.finding.InputException;
import selvage.measurement.LabShift;
import selvage.measurement.Matching;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.measurement.SheetPatch;
import selvage.measurement.StripFixture;
import selvage.score.ProofScore;
import selvage.score.Scoring;
import selvage.score.ToleranceSets;
import selvage.strip.Strip;

class ScoreReportTest {
  @Test
  void json_oneScore_fieldsOfTheInterface() throws InputException, IOException {
    JsonNode json = json(List.of(score(new LabShift(-3, 0, 0))));
    assertThat(json.path("selvage").intValue()).isEqualTo(1);
    assertThat(json.path("strip_id").textValue()).isEqualTo("KM7T-90QA");
    assertThat(json.path("page").intValue()).isEqualTo(1);
    assertThat(json.path("tolerance").path("name").textValue()).isEqualTo("iso-12647-7-2016");
    assertThat(json.path("tolerance").path("source").textValue()).isNotBlank();
    assertThat(json.path("metric_notes").get(0).textValue()).startsWith("ΔE00: CIEDE2000");
    assertThat(json.path("verdict").textValue()).isEqualTo("fail");
    JsonNode job = json.path("sets").path("job");
    assertThat(job.path("patches").intValue()).isEqualTo(4);
    for (String figure :
        List.of("mean_de00", "p95_de00", "max_de00", "area_mean_de00", "area_p95_de00")) {
      assertThat(job.path(figure).isNumber()).as(figure).isTrue();
    }
    assertThat(job.path("verdict").textValue()).isEqualTo("fail");
    assertThat(json.path("sets").path("standard").path("verdict").textValue()).isEqualTo("pass");
    JsonNode check = json.path("checks").get(0);
    assertThat(check.path("name").textValue()).isEqualTo("substrate");
    assertThat(check.path("set").textValue()).isEqualTo("standard");
    assertThat(check.path("metric").textValue()).isEqualTo("de00");
    assertThat(check.path("value").doubleValue()).isZero();
    assertThat(check.path("limit").doubleValue()).isEqualTo(3);
    assertThat(check.path("verdict").textValue()).isEqualTo("pass");
    JsonNode patch = json.path("patches").get(2);
    assertThat(patch.path("id").textValue()).isEqualTo("J02");
    assertThat(patch.path("set").textValue()).isEqualTo("job");
    assertThat(patch.path("aim_lab").toString()).isEqualTo("[46.0,60.0,40.0]");
    assertThat(patch.path("lab").toString()).isEqualTo("[43.0,60.0,40.0]");
    assertThat(patch.path("de76").doubleValue()).isEqualTo(3);
    assertThat(patch.path("dl").doubleValue()).isEqualTo(-3);
    assertThat(patch.path("dch").doubleValue()).isZero();
    assertThat(patch.path("dh").doubleValue()).isZero();
    assertThat(patch.path("de00").isNumber()).isTrue();
    assertThat(json.path("alignment").path("how").textValue()).isEqualTo("by-id");
    assertThat(json.path("alignment").path("confidence").doubleValue()).isEqualTo(1);
    assertThat(json.path("findings").get(0).path("severity").textValue()).isNotBlank();
  }

  @Test
  void json_severalScores_listWithTheVerdictOnAll() throws InputException, IOException {
    JsonNode json = json(List.of(score(LabShift.NONE), score(new LabShift(-3, 0, 0))));
    assertThat(json.path("verdict").textValue()).isEqualTo("fail");
    assertThat(json.path("scores")).hasSize(2);
    assertThat(json.path("scores").get(0).path("verdict").textValue()).isEqualTo("pass");
  }

  @Test
  void text_fail_verdictInWordAndSignLimitAndValueAndCaution() throws InputException {
    String text = ScoreText.of(List.of(score(new LabShift(-3, 0, 0))));
    assertThat(text)
        .startsWith("✗ FAIL  page 1, strip KM7T-90QA, m.txt\n")
        .contains("Evaluated with tolerance set iso-12647-7-2016.")
        .containsPattern("✗ spot-solids +job +ΔE00 +max +1 +2\\.\\d\\d +2\\.50\n")
        .containsPattern("✓ substrate +standard +ΔE00 +max +1 +0\\.00 +3\\.00\n")
        .contains("predicted aim, not judged")
        .contains("Results support, and do not replace, agreed standards")
        .doesNotContain("conform");
    assertThat(text.lines().allMatch(line -> line.equals(line.stripTrailing()))).isTrue();
  }

  private static JsonNode json(List<ProofScore> scores) throws IOException {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      ScoreJson.write(scores, json);
    }
    return new ObjectMapper().readTree(text.toString());
  }

  private static ProofScore score(LabShift spotSolid) throws InputException {
    Strip strip = StripFixture.strip("KM7T-90QA", 1);
    List<Reading> readings = new ArrayList<>();
    for (SheetPatch patch : SheetPatch.of(strip)) {
      String id = patch.first().id();
      LabShift shift = id.equals("J02") ? spotSolid : new LabShift(id.equals("J03") ? -9 : 0, 0, 0);
      readings.add(
          new Reading(
              id, "", Map.of(), shift.applied(patch.first().aim().lab(), 1), readings.size() + 1));
    }
    Measurement measurement =
        new Measurement(
            "m.txt",
            Map.of(),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            false,
            readings,
            List.of());
    return new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false)
        .score(Matching.match(strip, measurement, false));
  }
}
