package selvage.ledger;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.HexFormat;
import java.util.Locale;

/** How texts and times stand in the columns of either database. */
final class StoredText {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private static final Instant FIRST = Instant.parse("0001-01-01T00:00:00Z");
  private static final Instant LAST = Instant.parse("9999-12-31T23:59:59.999Z");
  private static final int MOST_SHOWN = 300;

  private StoredText() {}

  /**
   * A text that both databases keep as it is: NUL, which PostgreSQL refuses, and halves of
   * surrogate pairs, which UTF-8 has no bytes for, become U+FFFD.
   */
  static String clean(String text) {
    StringBuilder cleaned = null;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean isPair =
          Character.isHighSurrogate(c)
              && i + 1 < text.length()
              && Character.isLowSurrogate(text.charAt(i + 1));
      if (isPair) {
        i++;
      } else if (c == 0 || Character.isSurrogate(c)) {
        if (cleaned == null) {
          cleaned = new StringBuilder(text);
        }
        cleaned.setCharAt(i, '\uFFFD');
      }
    }
    return cleaned == null ? text : cleaned.toString();
  }

  /** Checks a moment, and cuts it to the milliseconds that are kept. */
  static Instant moment(Instant time) {
    if (time.isBefore(FIRST) || time.isAfter(LAST)) {
      throw new IllegalArgumentException("a time outside the years 1 to 9999: " + time);
    }
    return time.truncatedTo(ChronoUnit.MILLIS);
  }

  /** UTC text of one width, so that texts sort as times do. */
  static String time(Instant time) {
    return TIME.format(moment(time));
  }

  /** The first 32 hexadecimal digits of the texts' SHA-256, each after its length. */
  static String id(String... parts) {
    MessageDigest digest = sha256();
    for (String part : parts) {
      byte[] bytes = part.getBytes(StandardCharsets.UTF_8);
      digest.update((bytes.length + ":").getBytes(StandardCharsets.US_ASCII));
      digest.update(bytes);
    }
    return HexFormat.of().formatHex(digest.digest()).substring(0, 32);
  }

  /** Of the text's UTF-8 bytes, in lower case. */
  static String sha256(String text) {
    return HexFormat.of().formatHex(sha256().digest(text.getBytes(StandardCharsets.UTF_8)));
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** What the innermost cause says, in one line of bearable length. */
  static String firstLine(Throwable failure) {
    Throwable cause = failure;
    for (int i = 0; i < 20 && cause.getCause() != null; i++) {
      cause = cause.getCause();
    }
    String text =
        cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    String line = text.strip().lines().findFirst().orElse("");
    return line.length() <= MOST_SHOWN ? line : line.substring(0, MOST_SHOWN) + "…";
  }
}
