package selvage.workflow;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import selvage.finding.InputException;
import selvage.ledger.HandStamped;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.ledger.ScoreRecord;
import selvage.report.ScoreJson;

/**
 * Files a score that was made by hand, and the strips that it belongs to, where the ledger has them
 * not yet. The same files judged in the same way are the same score, whenever that is done.
 *
 * @param ledger its address
 * @param time when the score is filed; of a score that is there already, its first time stays the
 *     one at which the measurement was received
 */
public record FileScore(String ledger, Instant time) {
  public FileScore {
    Objects.requireNonNull(ledger, "ledger");
    Objects.requireNonNull(time, "time");
  }

  /**
   * Files.
   *
   * @param how the scores were made
   * @return the record that belongs into the score's JSON
   * @throws InputException where a file or the ledger can't be used
   */
  public ScoreRecord run(Path strips, List<Path> measured, ScoreProof how, ScoreProof.Outcome score)
      throws InputException, IOException {
    String stripsJson = Files.readString(strips, StandardCharsets.UTF_8);
    String hash = sha256(measured);
    String id = HandStamped.scoreId(stripsJson, hash, settings(how));
    try (Ledger open = Ledger.open(ledger)) {
      Optional<JobRecord> known = open.jobOfStrips(stripsJson);
      JobRecord job =
          known.isPresent() ? known.get() : HandStamped.job(strips.toString(), stripsJson);
      if (known.isEmpty()) {
        open.fileJob(job, Optional.of(stripsJson));
      }
      ScoreRecord record =
          new ScoreRecord(
              id,
              HandStamped.FOLDER,
              measured.stream().map(FileScore::name).collect(Collectors.joining(", ")),
              hash,
              open.score(id).map(ScoreRecord::received).orElse(time),
              time,
              Optional.of(job.jobId()),
              job.proof());
      open.fileScore(record, json(score, record));
      return record;
    }
  }

  private static String name(Path file) {
    return String.valueOf(file.getFileName());
  }

  private static String settings(ScoreProof how) {
    return String.join(
        " ",
        how.tolerance(),
        Boolean.toString(how.judgePredicted()),
        how.repeatabilityDe76().toString(),
        how.choice().toString());
  }

  private static String json(ScoreProof.Outcome outcome, ScoreRecord record) throws IOException {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.useDefaultPrettyPrinter();
      ScoreJson.write(outcome.scores(), outcome.mending(), Optional.of(record), json);
    }
    return text.toString();
  }

  private static String sha256(List<Path> files) throws IOException {
    MessageDigest digest;
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
    byte[] buffer = new byte[1 << 16];
    for (Path file : files) {
      try (InputStream in = Files.newInputStream(file)) {
        for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
          digest.update(buffer, 0, read);
        }
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
