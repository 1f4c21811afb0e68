package selvage.report;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.measurement.Alignment;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.Reading;
import selvage.measurement.StripFixture;
import selvage.score.Scoring;
import selvage.score.ToleranceSets;
import selvage.strip.Patch;
import selvage.strip.Strip;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;
import selvage.survey.JobFile;

/** Reports of invented measurements. */
final class ReportFixture {
  static final Instant TIME = Instant.parse("2026-11-25T10:03:00Z");
  static final String STRIP_ID = "KM7T-90QA";

  private ReportFixture() {}

  /** A strip of ten patches with every reading off by that. */
  static ProofReport report(String job, LabShift shift) throws InputException {
    return report(job, StripFixture.strip(STRIP_ID, 1), shift);
  }

  /** A job of this name with a spot ink of this name. */
  static ProofReport spot(String name, LabShift shift) throws InputException {
    StripFixture strip = StripFixture.empty();
    strip.job("spot-solid", Map.of(name, 100.0), new Lab(46, 60, 40), "library", 100);
    strip.standard("substrate", Map.of(), new Lab(95, 0, -2));
    return report(name + ".pdf", strip.build(STRIP_ID, 1), shift);
  }

  /** A strip with so many job patches, and that many standard ones. */
  static ProofReport large(String job, int patches, LabShift shift) throws InputException {
    StripFixture strip = StripFixture.empty();
    for (int i = 0; i < patches; i++) {
      double tint = 5 + 90.0 * i / patches;
      Lab aim = new Lab(95 - tint / 2, tint / 2, -tint / 4);
      String spot = "Very Long Name of an Ink That Nobody Would Print in Full, Number " + i;
      strip.job("flat", Map.of(spot, tint, "Black", tint), aim, "condition", 100.0 / patches);
    }
    for (int i = 0; i < patches; i++) {
      strip.standard(
          "solid", Map.of("Cyan", 100.0, "Black", (double) i % 90), new Lab(55, -37, -50));
    }
    return report(job, strip.build(STRIP_ID, 1), shift);
  }

  private static ProofReport report(String job, Strip strip, LabShift shift) throws InputException {
    List<Reading> readings = new ArrayList<>();
    List<MatchedStrip.PatchReading> matched = new ArrayList<>();
    for (Patch patch : strip.patches()) {
      Lab lab = shift.applied(patch.aim().lab(), 1);
      readings.add(new Reading(patch.id(), "", Map.of(), lab, readings.size() + 1));
      matched.add(new MatchedStrip.PatchReading(patch, readings.get(readings.size() - 1)));
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
    StripsFile file =
        new StripsFile(
            new JobFile(job, "0".repeat(64), 1),
            "proof.pdf",
            "FOGRA39",
            "built-in",
            List.of(strip),
            List.of(new StripLabel.Item("Evaluated as", "contract proof")));
    return ProofReport.of(
        file,
        new Scoring(ToleranceSets.resolve("iso-12647-7-2016"), false)
            .score(
                new MatchedStrip(
                    strip, measurement, new Alignment("by-id", 1), matched, List.of())),
        TIME);
  }
}
