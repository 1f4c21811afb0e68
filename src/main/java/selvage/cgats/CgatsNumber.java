package selvage.cgats;

/** Numbers as measurement files write them. */
final class CgatsNumber {
  private CgatsNumber() {}

  /**
   * The value of digits with an optional sign, one point or comma, and exponent; NaN for anything
   * else, words that Java would take ({@code NaN}, {@code 1f}, {@code 0x1p3}) and numbers beyond
   * the range of a double among them.
   */
  static double parse(String text) {
    boolean digits = false;
    int marks = 0;
    int comma = -1;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c >= '0' && c <= '9') {
        digits = true;
      } else if (c == '.' || c == ',') {
        marks++;
        comma = c == ',' ? i : comma;
      } else if (c != '+' && c != '-' && c != 'e' && c != 'E') {
        return Double.NaN;
      }
    }
    if (!digits || marks > 1) {
      return Double.NaN;
    }
    try {
      double value = Double.parseDouble(comma < 0 ? text : text.replace(',', '.'));
      return Double.isFinite(value) ? value : Double.NaN;
    } catch (NumberFormatException e) {
      return Double.NaN;
    }
  }

  /** Whether a text is a number with a decimal comma. */
  static boolean hasDecimalComma(String text) {
    return text.indexOf(',') >= 0 && !Double.isNaN(parse(text));
  }

  /** Whether a text is a number with a decimal point. */
  static boolean hasDecimalPoint(String text) {
    return text.indexOf('.') >= 0 && !Double.isNaN(parse(text));
  }
}
