package selvage.report;

/** Text within HTML. */
final class HtmlText {
  private HtmlText() {}

  /** A text as content or as a quoted attribute: markup is shown, control characters are not. */
  static String escaped(String text) {
    StringBuilder escaped = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            letter -> {
              switch (letter) {
                case '&' -> escaped.append("&amp;");
                case '<' -> escaped.append("&lt;");
                case '>' -> escaped.append("&gt;");
                case '"' -> escaped.append("&quot;");
                case '\'' -> escaped.append("&#39;");
                default -> escaped.appendCodePoint(Character.isISOControl(letter) ? ' ' : letter);
              }
            });
    return escaped.toString();
  }
}
