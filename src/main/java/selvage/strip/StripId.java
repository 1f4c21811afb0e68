package selvage.strip;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.List;

/**
 * Short names of strips, to be read from a sheet and typed: eight letters and digits in two groups,
 * without I, L, O and U. They depend on the job's bytes, the page and what is printed, nothing
 * else.
 */
final class StripId {
  private static final String LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  private static final int LENGTH = 8;

  private StripId() {}

  /**
   * The name of a strip.
   *
   * @param jobSha256 of the customer's file
   * @param page counted from 1
   * @param printed all patches in their order on the sheet, as text
   */
  static String of(String jobSha256, int page, List<String> printed) {
    String text = jobSha256 + "\n" + page + "\n" + String.join("\n", printed);
    byte[] hash;
    try {
      hash = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
    long bits = 0;
    for (int i = 0; i < 5; i++) {
      bits = bits << 8 | (hash[i] & 0xFF);
    }
    StringBuilder id = new StringBuilder();
    for (int i = LENGTH - 1; i >= 0; i--) {
      id.append(LETTERS.charAt((int) (bits >>> (5 * i) & 31)));
      if (i == LENGTH / 2) {
        id.append('-');
      }
    }
    return id.toString();
  }
}
