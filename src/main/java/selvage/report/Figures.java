package selvage.report;

import java.util.Locale;
import java.util.OptionalDouble;
import selvage.score.Check;

/** Numbers for people: fixed decimals, a decimal point, a true minus sign, no negative zero. */
final class Figures {
  private static final char MINUS = '\u2212';

  private Figures() {}

  /** A number with so many decimals. */
  static String fixed(double value, int digits) {
    String text = String.format(Locale.ROOT, "%." + digits + "f", Math.abs(value));
    boolean zero = text.chars().allMatch(letter -> letter == '0' || letter == '.');
    return value < 0 && !zero ? MINUS + text : text;
  }

  /** The same with a plus sign where it is above zero. */
  static String signed(double value, int digits) {
    String text = fixed(value, digits);
    return value > 0 && !fixed(value, digits).equals(fixed(0, digits)) ? "+" + text : text;
  }

  /** The number, or a dash where there is none. */
  static String fixed(OptionalDouble value, int digits) {
    return value.isPresent() ? fixed(value.getAsDouble(), digits) : "–";
  }

  /** A check's value: two digits, or as many as show that it lies beyond its limit. */
  static String value(Check check) {
    return fixed(check.value(), ScoreWords.digits(check.value(), check.limit().limit()));
  }

  /** A check's limit. */
  static String limit(Check check) {
    return fixed(check.limit().limit(), 2);
  }

  /** A check's guard band, with its sign; empty where it has none. */
  static String guardBand(Check check) {
    return check.guardBand() > 0 ? "± " + fixed(check.guardBand(), 2) : "";
  }
}
