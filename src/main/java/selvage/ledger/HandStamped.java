package selvage.ledger;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.Locale;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * The records of what no hot folder did: a proof stamped by hand, made of its strips file alone, so
 * that the same file gives the same record on every day, and its score's id.
 */
public final class HandStamped {
  /** What stands for the hot folder's name. */
  public static final String FOLDER = "by hand";

  private static final DateTimeFormatter STAMPED =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'", Locale.ROOT);

  private HandStamped() {}

  /** The job's id, of the strips file's text. */
  public static String jobId(String stripsJson) {
    return StoredText.id("stamped by hand", stripsJson);
  }

  /**
   * The job's record. Its length is 0 and its moments are those on the label, or the beginning of
   * 1970, where the file does not tell them.
   *
   * @param name the strips file's, for messages
   * @throws InputException where the text is no strips file
   */
  public static JobRecord job(String name, String stripsJson) throws InputException {
    StripsFile file = StripsJson.read(name, stripsJson.getBytes(StandardCharsets.UTF_8));
    Instant stamped = stamped(file);
    try {
      return new JobRecord(
          jobId(stripsJson),
          FOLDER,
          file.job().file(),
          file.job().sha256(),
          0,
          stamped,
          stamped,
          JobRecord.State.STAMPED,
          Optional.of(file.proof()),
          Optional.empty(),
          Optional.empty());
    } catch (IllegalArgumentException e) {
      throw InputException.of(name, e.getMessage() + "; write the file anew", e);
    }
  }

  /**
   * The id of a score that was made by hand: of the strips file, the measurements and how they were
   * judged.
   *
   * @param measuredSha256 of all measurements together
   * @param settings how they were judged, in words
   */
  public static String scoreId(String stripsJson, String measuredSha256, String settings) {
    return StoredText.id("scored by hand", stripsJson, measuredSha256, settings);
  }

  private static Instant stamped(StripsFile file) {
    for (StripLabel.Item item : file.label()) {
      if (item.name().equals("Stamped")) {
        try {
          return LocalDateTime.parse(item.value(), STAMPED).toInstant(ZoneOffset.UTC);
        } catch (DateTimeParseException e) {
          break;
        }
      }
    }
    return Ledger.unknownTime();
  }
}
