package selvage.workflow;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.BufferedReader;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import selvage.color.ReferenceCondition;
import selvage.comparison.Comparison;
import selvage.comparison.ComparisonBuilder;
import selvage.comparison.Ewma;
import selvage.finding.InputException;
import selvage.ledger.Calibration;
import selvage.ledger.HandStamped;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.ledger.ScoreFilter;
import selvage.ledger.ScoreRecord;
import selvage.measurement.Drift;
import selvage.measurement.LabShift;
import selvage.measurement.MatchedStrip;
import selvage.measurement.Measurement;
import selvage.measurement.MeasurementCondition;
import selvage.measurement.StripChoice;
import selvage.measurement.VirtualDevice;
import selvage.report.ScoreJson;
import selvage.score.ProofScore;
import selvage.score.Scoring;
import selvage.score.ToleranceSet;
import selvage.score.ToleranceSets;
import selvage.strip.Strip;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Fills a ledger with an invented season ({@code season.csv}): each row a rehearsed proof of the
 * demo job's strips, scored. Nothing in it was measured, and every score says so.
 */
final class DemoSeason {
  private static final String TABLE = "/demo/season.csv";
  private static final List<String> INKS = List.of("Cyan", "Magenta", "Yellow", "Black");
  private static final String SPOT = "Dune Red";

  private final Path stripsPath;
  private final StripsFile strips;
  private final ReferenceCondition condition;
  private final ToleranceSet limits;

  /**
   * Prepares.
   *
   * @param strips the demo job's strips file, its proof beside it
   */
  DemoSeason(Path strips) throws InputException {
    this.stripsPath = strips;
    this.strips = StripsJson.read(strips);
    this.condition = ProofCondition.of(strips, this.strips, Optional.empty()).condition();
    this.limits = ToleranceSets.resolve(ToleranceSets.BUILT_IN.get(0));
  }

  /**
   * Makes the ledger anew and compares what is in it.
   *
   * @param target the ledger's file; one that is there is replaced
   */
  Comparison run(Path target) throws InputException, IOException {
    for (String ending : List.of("", "-wal", "-shm")) {
      Files.deleteIfExists(target.resolveSibling(target.getFileName() + ending));
    }
    List<Map<String, String>> rows = rows();
    try (Ledger ledger = Ledger.open(target.toString())) {
      ledger.together(
          () -> {
            for (Map<String, String> row : rows) {
              file(row, ledger);
            }
          });
      return ComparisonBuilder.of(
          ledger, ScoreFilter.ALL, Ewma.USUAL, ComparisonBuilder.BASELINE_PROOFS);
    }
  }

  private void file(Map<String, String> row, Ledger ledger) throws InputException {
    Instant time = Instant.parse(row.get("time"));
    if (row.get("event").equals("calibration")) {
      ledger.calibrate(new Calibration(row.get("proofing_system"), time, row.get("note")));
      return;
    }
    StripsFile proof = proof(row);
    String stripsJson = StripsJson.write(proof, List.of());
    JobRecord job = job(row.get("job"), time, stripsJson, proof);
    ledger.fileJob(job, Optional.of(stripsJson));
    Drift drift = drift(row);
    ScoreRecord record =
        new ScoreRecord(
            HandStamped.scoreId(stripsJson, job.sha256(), drift.describe()),
            job.folder(),
            row.get("job") + ".txt",
            job.sha256(),
            time.plusSeconds(1800),
            time.plusSeconds(1801),
            Optional.of(job.jobId()),
            job.proof());
    ledger.fileScore(record, json(score(proof, drift, record.file()), record));
  }

  /** The strip of one page, with the row's label. */
  private StripsFile proof(Map<String, String> row) {
    int page = Integer.parseInt(row.get("page"));
    Strip strip =
        strips.strips().stream()
            .filter(one -> one.page() == page)
            .findFirst()
            .orElse(strips.strips().get(0));
    return new StripsFile(
        strips.job(),
        row.get("job") + ".proof.pdf",
        strips.conditionName(),
        strips.conditionSource(),
        List.of(strip),
        List.of(
            new StripLabel.Item("Evaluated as", "INVENTED season, nothing was printed"),
            new StripLabel.Item("Proofing system", row.get("proofing_system")),
            new StripLabel.Item("Substrate", row.get("substrate"))));
  }

  private static JobRecord job(String name, Instant time, String stripsJson, StripsFile proof) {
    return new JobRecord(
        HandStamped.jobId(stripsJson),
        "invented season",
        name + ".pdf",
        proof.job().sha256(),
        0,
        time,
        time.plusSeconds(2),
        JobRecord.State.STAMPED,
        Optional.of(proof.proof()),
        Optional.of(name + ".proof.strips.json"),
        Optional.empty());
  }

  private ProofScore score(StripsFile proof, Drift drift, String source) throws InputException {
    Strip strip = proof.strips().get(0);
    Measurement measurement =
        new Measurement(
            source,
            Map.of(Measurement.STRIP_KEYWORD, strip.stripId()),
            MeasurementCondition.UNKNOWN,
            Measurement.LabOrigin.LAB,
            true,
            VirtualDevice.of(condition, strips.strips(), drift).read(strip),
            List.of());
    MatchedStrip matched =
        StripChoice.ANY.match(stripsPath.toString(), proof, List.of(measurement)).get(0);
    return new Scoring(limits, false).score(matched);
  }

  private static String json(ProofScore score, ScoreRecord record) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      ScoreJson.write(List.of(score), Optional.empty(), Optional.of(record), json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private static Drift drift(Map<String, String> row) {
    Map<String, Double> tone = new HashMap<>();
    Map<String, Double> density = new HashMap<>();
    for (int i = 0; i < INKS.size(); i++) {
      String letter = "cmyk".substring(i, i + 1);
      tone.put(INKS.get(i), number(row, "tone_" + letter));
      density.put(INKS.get(i), number(row, "density_" + letter));
    }
    return new Drift(
        tone,
        density,
        shift(row, "paper"),
        Map.of(SPOT, shift(row, "dune_red")),
        LabShift.NONE,
        number(row, "noise"),
        Long.parseLong(row.get("seed")));
  }

  private static LabShift shift(Map<String, String> row, String name) {
    return new LabShift(
        number(row, name + "_l"), number(row, name + "_a"), number(row, name + "_b"));
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(row.get(column));
  }

  private static List<Map<String, String>> rows() throws IOException {
    try (InputStream in = DemoSeason.class.getResourceAsStream(TABLE)) {
      if (in == null) {
        throw new FileNotFoundException("the program lacks its own " + TABLE);
      }
      BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      List<Map<String, String>> rows = new ArrayList<>();
      List<String> headings = null;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (line.startsWith("#")) {
          continue;
        }
        List<String> cells = List.of(line.split(",", -1));
        if (headings == null) {
          headings = cells;
          continue;
        }
        Map<String, String> row = new HashMap<>();
        for (int i = 0; i < headings.size(); i++) {
          row.put(headings.get(i), cells.get(i));
        }
        rows.add(row);
      }
      return rows;
    }
  }
}
