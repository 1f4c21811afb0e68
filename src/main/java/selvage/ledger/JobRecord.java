package selvage.ledger;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.strip.JsonFields;

/**
 * What became of one file that was dropped in: {@code NAME.job.json}, beside the proof or beside
 * the refused job. Times are kept to the millisecond.
 *
 * @param jobId 32 hexadecimal digits in lower case; one for each file that was taken
 * @param folder the hot folder's name in the settings
 * @param file the file's path below the incoming folder, with {@code /}
 * @param sha256 of the file's bytes, 64 hexadecimal digits in lower case
 * @param bytes the file's length; 0 where it is not known
 * @param received when the file was taken
 * @param finished when its proof, or the refusal, was in place
 * @param state what became of it
 * @param proof the stamped proof's path below the outgoing folder, with {@code /}
 * @param strips the same of the strips file
 * @param why it was refused
 */
public record JobRecord(
    String jobId,
    String folder,
    String file,
    String sha256,
    long bytes,
    Instant received,
    Instant finished,
    State state,
    Optional<String> proof,
    Optional<String> strips,
    Optional<String> why) {
  /** What became of a job. */
  public enum State {
    STAMPED,
    REFUSED,
    /** The file was no job but a measurement, and can't be scored. */
    MEASUREMENT_REFUSED;

    /** The word in JSON and in the ledger. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static State of(String word) {
      return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }
  }

  public JobRecord {
    RecordJson.requireId(jobId);
    RecordJson.requireSha256(sha256);
    folder = RecordJson.required("folder", folder);
    file = RecordJson.required("file", file);
    received = StoredText.moment(received);
    finished = StoredText.moment(finished);
    Objects.requireNonNull(state, "state");
    proof = proof.map(StoredText::clean);
    strips = strips.map(StoredText::clean);
    why = why.map(StoredText::clean);
    if (bytes < 0) {
      throw new IllegalArgumentException("a file of " + bytes + " bytes");
    }
  }

  /**
   * Reads a record's file.
   *
   * @throws InputException where it can't be read or is no such record
   */
  public static JobRecord read(Path file) throws InputException {
    return parse(file.toString(), RecordJson.text(file));
  }

  /**
   * Reads a record.
   *
   * @param name the file's name, for messages
   * @throws InputException where the text is no such record
   */
  public static JobRecord parse(String name, String json) throws InputException {
    JsonFields fields = RecordJson.object(name, "job record", json);
    try {
      return new JobRecord(
          fields.text("job_id"),
          fields.text("folder"),
          fields.text("file"),
          fields.text("sha256"),
          fields.longNumber("bytes"),
          RecordJson.time(fields, "received"),
          RecordJson.time(fields, "finished"),
          fields.word("state", State.values()),
          RecordJson.optionalText(fields, "proof"),
          RecordJson.optionalText(fields, "strips"),
          RecordJson.optionalText(fields, "why"));
    } catch (IllegalArgumentException e) {
      throw fields.complaint(e.getMessage());
    }
  }

  /** The record as it stands in its file: one object, with a line end at its end. */
  public String toJson() {
    return RecordJson.written(this::writeTo);
  }

  private void writeTo(JsonGenerator json) throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", RecordJson.VERSION);
    json.writeStringField("job_id", jobId);
    json.writeStringField("folder", folder);
    json.writeStringField("file", file);
    json.writeStringField("sha256", sha256);
    json.writeNumberField("bytes", bytes);
    json.writeStringField("received", StoredText.time(received));
    json.writeStringField("finished", StoredText.time(finished));
    json.writeStringField("state", state.word());
    RecordJson.writeOptional(json, "proof", proof);
    RecordJson.writeOptional(json, "strips", strips);
    RecordJson.writeOptional(json, "why", why);
    json.writeEndObject();
  }
}
