package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.cgats.CgatsReader;
import selvage.color.ReferenceConditions;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementReader;
import selvage.measurement.SimulatedText;
import selvage.measurement.StripChoice;
import selvage.measurement.StripFixture;
import selvage.measurement.VirtualDevice;
import selvage.strip.Strip;
import selvage.strip.StripsFile;

/** Strips, printed and read virtually, written, read back, matched and scored. */
class RehearsalRoundTripTest {
  private static final Strip FIRST = StripFixture.strip("KM7T-90QA", 1);
  private static final Strip SECOND = StripFixture.strip("XX00-Q1ZZ", 2);
  private static final StripsFile FILE = StripFixture.file(FIRST, SECOND);

  @Test
  void score_noDriftNoNoise_allDifferencesZero() throws InputException {
    List<ProofScore> scores = scores(Drift.NONE);
    assertThat(scores).extracting(ProofScore::stripId).containsExactly("KM7T-90QA", "XX00-Q1ZZ");
    for (ProofScore score : scores) {
      assertThat(score.verdict()).isEqualTo(Verdict.PASS);
      assertThat(score.alignment().how()).isEqualTo("by-id");
      assertThat(score.patches()).hasSize(11).allMatch(patch -> patch.de00() == 0);
      assertThat(score.findings())
          .extracting(Finding::code)
          .contains("simulated-measurement")
          .doesNotContain("readings-equal-aims");
    }
  }

  @Test
  void score_littleDrift_passAndMuchDrift_fail() throws InputException {
    Drift little =
        new Drift(
            Map.of("Cyan", 1.0),
            Map.of(),
            new LabShift(0, 0, 0.5),
            Map.of(),
            LabShift.NONE,
            0.2,
            5);
    Drift much =
        new Drift(
            Map.of(),
            Map.of(),
            LabShift.NONE,
            Map.of("Dune Red", new LabShift(0, -14, 0)),
            LabShift.NONE,
            0.2,
            5);
    assertThat(scores(little)).allMatch(score -> score.verdict() == Verdict.PASS);
    assertThat(scores(much)).allMatch(score -> score.verdict() == Verdict.FAIL);
  }

  @Test
  void text_sameSettings_sameBytesAndSimulatedInEveryHeader() throws InputException {
    Drift drift =
        new Drift(
            Map.of("Cyan", 1.0),
            Map.of("Black", -3.0),
            LabShift.NONE,
            Map.of(),
            LabShift.NONE,
            1,
            2);
    String text = text(drift);
    assertThat(text(drift)).isEqualTo(text);
    for (Measurement measurement : MeasurementReader.of(CgatsReader.parse("m.txt", bytes(text)))) {
      assertThat(measurement.simulated()).isTrue();
      assertThat(measurement.header())
          .containsEntry("DRIFT", "tone Cyan +1.0 %; density Black -3.0 %; noise 1.00; seed 2");
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static String text(Drift drift) {
    VirtualDevice device =
        VirtualDevice.of(ReferenceConditions.defaultCondition(), FILE.strips(), drift);
    SimulatedText text = new SimulatedText(FILE, drift);
    FILE.strips().forEach(strip -> text.add(strip, device.read(strip)));
    return text.text();
  }

  private static List<ProofScore> scores(Drift drift) throws InputException {
    List<Measurement> measurements =
        MeasurementReader.of(CgatsReader.parse("m.txt", bytes(text(drift))));
    Scoring scoring = new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false);
    List<ProofScore> scores = new java.util.ArrayList<>();
    for (MatchedStrip matched : StripChoice.ANY.match("s.json", FILE, measurements)) {
      scores.add(scoring.score(matched));
    }
    return scores;
  }
}
