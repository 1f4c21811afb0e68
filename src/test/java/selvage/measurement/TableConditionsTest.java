package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.strip.StripsFile;
import selvage.survey.JobFile;

/** Which of several conditions counts, and what is said of one that is not the aims'. */
class TableConditionsTest {
  @ParameterizedTest
  @CsvSource({"FOGRA39,M0", "Fogra 39,M0", "FOGRA40,M0", "TR 006,M0", "TR002,M0", "our own.icc,M1"})
  void kept_severalOfOneFile_theAimsElseM1(String condition, String taken) {
    TableConditions conditions =
        conditions(
            condition,
            read("f, table 1", "M2", ""),
            read("f, table 2", "M1", ""),
            read("f, table 3", "M0", ""));
    assertThat(conditions.kept()).hasSize(1);
    Measurement kept = conditions.kept().get(0);
    assertThat(kept.condition().illumination()).contains(taken);
    Finding left = conditions.findings(kept).get(0);
    assertThat(left.code()).isEqualTo("conditions-left-out");
    assertThat(left.text()).contains("f, table 1 (M2)").contains(taken + ", ");
    assertThat(left.text()).doesNotContain("(" + taken + ")");
  }

  @Test
  void kept_polarizedBesideAnother_theOther() {
    TableConditions conditions =
        conditions("x", read("f, 1", "M3", ""), read("f, 2", "M2", ""), read("f, 3", "", ""));
    assertThat(conditions.kept()).extracting(Measurement::source).containsExactly("f, 2", "f, 3");
  }

  @Test
  void kept_oneConditionOrSeveralFiles_all() {
    assertThat(conditions("x", read("f, 1", "M2", ""), read("f, 2", "M2", "")).kept()).hasSize(2);
    assertThat(conditions("x", read("f", "M1", ""), read("g", "M2", "")).kept()).hasSize(2);
  }

  @ParameterizedTest
  @CsvSource({
    "FOGRA39,black,true", "FOGRA39,white,false", "FOGRA39,self,false", "TR006,black,true",
    "TR002,white,true", "TR002,black,false", "other,black,false", "FOGRA39,,false"
  })
  void findings_otherBacking_warned(String condition, String backing, boolean warned) {
    Measurement one = read("f", "M0", backing == null ? "" : backing);
    List<Finding> findings = conditions(condition, one).findings(one);
    assertThat(findings).hasSize(warned ? 1 : 0);
    if (warned) {
      assertThat(findings.get(0).code()).isEqualTo("backing-differs-from-aims");
      assertThat(findings.get(0).text()).contains("over " + backing, "aims of " + condition);
    }
  }

  @ParameterizedTest
  @CsvSource({"FOGRA39,M1,true", "FOGRA39,M0,false", "FOGRA39,,false", "other,M1,false"})
  void findings_otherIllumination_noted(String condition, String illumination, boolean noted) {
    Measurement one = read("f", illumination == null ? "" : illumination, "");
    List<Finding> findings = conditions(condition, one).findings(one);
    assertThat(findings).hasSize(noted ? 1 : 0);
    if (noted) {
      assertThat(findings.get(0).code()).isEqualTo("illumination-differs-from-aims");
      assertThat(findings.get(0).text()).contains("measured as " + illumination);
    }
  }

  private static TableConditions conditions(String condition, Measurement... measurements) {
    StripsFile file =
        new StripsFile(
            new JobFile("flyer.pdf", "0".repeat(64), 1),
            "proof.pdf",
            condition,
            "built-in",
            List.of(StripFixture.strip("KM7T-90QA", 1)));
    return new TableConditions(file, List.of(measurements));
  }

  private static Measurement read(String source, String illumination, String backing) {
    return new Measurement(
        source,
        Map.of(),
        new MeasurementCondition(
            Optional.of(illumination).filter(word -> !word.isEmpty()),
            Optional.of(backing).filter(word -> !word.isEmpty()),
            Optional.empty(),
            Optional.empty()),
        Measurement.LabOrigin.LAB,
        false,
        List.of(new Reading("J01", "", Map.of(), new Lab(50, 0, 0), 1)),
        List.of());
  }
}
