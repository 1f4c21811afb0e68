package selvage.ledger;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Alignment;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.measurement.StripFixture;
import selvage.report.ScoreJson;
import selvage.score.ProofScore;
import selvage.score.Scoring;
import selvage.score.ToleranceSets;
import selvage.strip.Patch;
import selvage.strip.Strip;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.survey.JobFile;

/** Jobs and scores of an invented shop. */
public final class LedgerFixture {
  public static final Instant MORNING = Instant.parse("2026-11-25T08:00:00.250Z");

  private LedgerFixture() {}

  public static String id(int number) {
    return String.format("%032x", number);
  }

  public static String hash(int number) {
    return String.format("%064x", number);
  }

  public static JobRecord stamped(int number, String file) {
    return new JobRecord(
        id(number),
        "flyers",
        file,
        hash(number),
        1000 + number,
        MORNING.plusSeconds(number),
        MORNING.plusSeconds(number + 5),
        JobRecord.State.STAMPED,
        Optional.of(file + ".proof.pdf"),
        Optional.of(file + ".proof.strips.json"),
        Optional.empty());
  }

  public static JobRecord refused(int number, String file, String why) {
    return new JobRecord(
        id(number),
        "flyers",
        file,
        hash(number),
        1000 + number,
        MORNING.plusSeconds(number),
        MORNING.plusSeconds(number + 5),
        JobRecord.State.REFUSED,
        Optional.empty(),
        Optional.empty(),
        Optional.of(why));
  }

  public static String strips(String proofingSystem, String... stripIds) {
    List<Strip> strips = new ArrayList<>();
    for (String id : stripIds) {
      strips.add(StripFixture.strip(id, strips.size() + 1));
    }
    return StripsJson.write(
        new StripsFile(
            new JobFile("flyer.pdf", hash(7), strips.size()),
            "flyer-proof.pdf",
            "FOGRA39",
            "built-in",
            strips,
            List.of(
                new StripLabel.Item("Proofing system", proofingSystem),
                new StripLabel.Item("Substrate", "semi-matt 230"),
                new StripLabel.Item("Stamped", "2026-11-25 07:58 UTC"))),
        List.of(Finding.note("spot-tints-thinned", "page 1: some tints are left out")));
  }

  public static ScoreRecord score(int number, int job) {
    return new ScoreRecord(
        id(1000 + number),
        "flyers",
        "reading " + number + ".txt",
        hash(1000 + number),
        MORNING.plusSeconds(3600 + number),
        MORNING.plusSeconds(3601 + number),
        job == 0 ? Optional.empty() : Optional.of(id(job)),
        Optional.of("flyer-proof.pdf"));
  }

  /** The score of a strip whose readings are all off by that much. */
  public static String scoreJson(LabShift shift, String... stripIds)
      throws InputException, IOException {
    List<ProofScore> scores = new ArrayList<>();
    for (String id : stripIds) {
      scores.add(scored(StripFixture.strip(id, scores.size() + 1), shift));
    }
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      ScoreJson.write(scores, json);
    }
    return text.toString();
  }

  private static ProofScore scored(Strip strip, LabShift shift) throws InputException {
    List<Reading> readings = new ArrayList<>();
    List<MatchedStrip.PatchReading> matched = new ArrayList<>();
    for (Patch patch : strip.patches()) {
      Lab lab = shift.applied(patch.aim().lab(), 1);
      Reading reading = new Reading(patch.id(), "", Map.of(), lab, readings.size() + 1);
      readings.add(reading);
      matched.add(new MatchedStrip.PatchReading(patch, reading));
    }
    Measurement measurement =
        new Measurement(
            "measured.txt",
            Map.of(),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            true,
            readings,
            List.of());
    return new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false)
        .score(new MatchedStrip(strip, measurement, new Alignment("by-id", 1), matched, List.of()));
  }
}
