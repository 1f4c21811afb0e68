package selvage.finding;

import java.util.Objects;

/**
 * A doubt carried with a result: what was skipped, assumed, substituted or predicted.
 *
 * @param code a stable word for programs, lower case with hyphens, for example {@code
 *     image-not-decoded}
 * @param severity how much it matters
 * @param text a sentence for people, naming the place and what to do
 */
public record Finding(String code, Severity severity, String text) {
  public Finding {
    Objects.requireNonNull(severity, "severity");
    if (!code.matches("[a-z0-9]+(-[a-z0-9]+)*")) {
      throw new IllegalArgumentException("not a finding code: " + code);
    }
    if (text.isBlank()) {
      throw new IllegalArgumentException("a finding needs a text: " + code);
    }
  }

  /** A {@link Severity#NOTE}. */
  public static Finding note(String code, String text) {
    return new Finding(code, Severity.NOTE, text);
  }

  /** A {@link Severity#WARNING}. */
  public static Finding warning(String code, String text) {
    return new Finding(code, Severity.WARNING, text);
  }

  /** A {@link Severity#ERROR}. */
  public static Finding error(String code, String text) {
    return new Finding(code, Severity.ERROR, text);
  }
}
