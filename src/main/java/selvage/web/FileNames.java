package selvage.web;

/** Names of files that come from requests or go to browsers. */
final class FileNames {
  private static final int MOST_LETTERS = 120;

  private FileNames() {}

  /**
   * A name that is no path and hides from nobody: letters and digits of any script, spaces, {@code
   * .}, {@code _} and {@code -} stay, everything else becomes {@code _}; no dot or space at either
   * end, and of a long one the end with the ending.
   *
   * @return {@code file} where nothing is left
   */
  static String safe(String given) {
    String name = given == null ? "" : given;
    name = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    StringBuilder safe = new StringBuilder();
    name.codePoints()
        .forEach(
            letter ->
                safe.appendCodePoint(
                    Character.isLetterOrDigit(letter) || " ._-".indexOf(letter) >= 0
                        ? letter
                        : '_'));
    String trimmed = trimmed(safe.toString());
    int letters = trimmed.codePointCount(0, trimmed.length());
    if (letters > MOST_LETTERS) {
      trimmed = trimmed(trimmed.substring(trimmed.offsetByCodePoints(0, letters - MOST_LETTERS)));
    }
    return trimmed.isEmpty() ? "file" : trimmed;
  }

  /** Names that begin with a dot are copies under way to the hot folder. */
  private static String trimmed(String name) {
    int from = 0;
    int to = name.length();
    while (from < to && ". ".indexOf(name.charAt(from)) >= 0) {
      from++;
    }
    while (to > from && ". ".indexOf(name.charAt(to - 1)) >= 0) {
      to--;
    }
    return name.substring(from, to);
  }
}
