package selvage.ledger;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.strip.JsonFields;

/**
 * Where a score comes from: an object of its own ({@link #FIELD}) in a score's JSON file, which is
 * otherwise what {@code score --json} writes. Times are kept to the millisecond.
 *
 * @param scoreId 32 hexadecimal digits in lower case; one for each scoring
 * @param folder the hot folder's name in the settings
 * @param file the measurement's path below the folder of measurements, with {@code /}
 * @param sha256 of the measurement's bytes, 64 hexadecimal digits in lower case
 * @param received when the measurement was taken
 * @param scored when its score was in place
 * @param jobId the job whose strips were measured, where it is known
 * @param proof the stamped proof that was measured, where it is known
 */
public record ScoreRecord(
    String scoreId,
    String folder,
    String file,
    String sha256,
    Instant received,
    Instant scored,
    Optional<String> jobId,
    Optional<String> proof) {
  /** The field of a score's JSON that holds the record. */
  public static final String FIELD = "filed";

  public ScoreRecord {
    RecordJson.requireId(scoreId);
    RecordJson.requireSha256(sha256);
    jobId.ifPresent(RecordJson::requireId);
    folder = RecordJson.required("folder", folder);
    file = RecordJson.required("file", file);
    received = StoredText.moment(received);
    scored = StoredText.moment(scored);
    proof = proof.map(StoredText::clean);
  }

  /**
   * Reads the record in a score's JSON file.
   *
   * @return empty where the score was never filed
   * @throws InputException where the file can't be read, is no score's JSON or its record is
   *     damaged
   */
  public static Optional<ScoreRecord> read(Path file) throws InputException {
    return parse(file.toString(), RecordJson.text(file));
  }

  /** As {@link #read}, of a text; the name is for messages. */
  public static Optional<ScoreRecord> parse(String name, String scoreJson) throws InputException {
    JsonFields score = RecordJson.object(name, "score", scoreJson);
    if (!score.node().has(FIELD)) {
      return Optional.empty();
    }
    JsonFields fields = score.object(FIELD);
    try {
      return Optional.of(
          new ScoreRecord(
              fields.text("score_id"),
              fields.text("folder"),
              fields.text("file"),
              fields.text("sha256"),
              RecordJson.time(fields, "received"),
              RecordJson.time(fields, "scored"),
              RecordJson.optionalText(fields, "job_id"),
              RecordJson.optionalText(fields, "proof")));
    } catch (IllegalArgumentException e) {
      throw fields.complaint(e.getMessage());
    }
  }

  /**
   * Puts the record into a score's JSON, as its last field.
   *
   * @param scoreJson one object without such a field, as the score was written
   */
  public String appendedTo(String scoreJson) {
    int end = scoreJson.lastIndexOf('}');
    if (end < 0) {
      throw new IllegalArgumentException("expected a JSON object, found " + scoreJson);
    }
    String record = RecordJson.written(this::writeTo).strip().replace("\n", "\n  ");
    return scoreJson.substring(0, end).stripTrailing()
        + ",\n  \""
        + FIELD
        + "\" : "
        + record
        + "\n}\n";
  }

  /** Writes the object that stands in the field. */
  public void writeTo(JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeStringField("score_id", scoreId);
    json.writeStringField("folder", folder);
    json.writeStringField("file", file);
    json.writeStringField("sha256", sha256);
    json.writeStringField("received", StoredText.time(received));
    json.writeStringField("scored", StoredText.time(scored));
    RecordJson.writeOptional(json, "job_id", jobId);
    RecordJson.writeOptional(json, "proof", proof);
    json.writeEndObject();
  }
}
