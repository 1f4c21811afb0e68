package selvage.cgats;

import java.util.ArrayList;
import java.util.List;

/** One line taken apart: words parted by blanks or tabs, quoted strings, a comment's start. */
final class CgatsLine {
  /**
   * A word of a line.
   *
   * @param text without quotes
   * @param quoted whether it stood in quotes, so that it is no keyword
   */
  record Word(String text, boolean quoted) {
    boolean is(String keyword) {
      return !quoted && text.equalsIgnoreCase(keyword);
    }
  }

  private final String line;
  private final List<Word> words = new ArrayList<>();
  private boolean unclosed;
  private int at;

  private CgatsLine(String line) {
    this.line = line;
  }

  static CgatsLine of(String line) {
    CgatsLine result = new CgatsLine(line);
    result.takeApart();
    return result;
  }

  /** The words, comments left out. */
  List<Word> words() {
    return words;
  }

  /** Whether a quoted string ran to the line's end without its closing quote. */
  boolean unclosed() {
    return unclosed;
  }

  private void takeApart() {
    while (true) {
      while (at < line.length() && isBlank(line.charAt(at))) {
        at++;
      }
      if (at >= line.length() || line.charAt(at) == '#') {
        return;
      }
      words.add(line.charAt(at) == '"' ? quoted() : plain());
    }
  }

  private Word plain() {
    int start = at;
    while (at < line.length() && !isBlank(line.charAt(at))) {
      at++;
    }
    return new Word(line.substring(start, at), false);
  }

  private Word quoted() {
    StringBuilder text = new StringBuilder();
    at++;
    while (at < line.length()) {
      char c = line.charAt(at++);
      if (c != '"') {
        text.append(c);
      } else if (at < line.length() && line.charAt(at) == '"') {
        text.append('"');
        at++;
      } else {
        return new Word(text.toString(), true);
      }
    }
    unclosed = true;
    return new Word(text.toString().stripTrailing(), true);
  }

  /**
   * The fields of a line parted by tabs alone: a field may be empty or hold blanks. Empty fields at
   * the end beyond {@code expected} are left out.
   *
   * @return null where the line has no tab or not the expected number of fields
   */
  static List<Word> tabFields(String line, int expected) {
    if (line.indexOf('\t') < 0 || line.indexOf('#') >= 0) {
      return null;
    }
    List<Word> fields = new ArrayList<>(expected);
    int start = 0;
    while (start <= line.length()) {
      int tab = line.indexOf('\t', start);
      int end = tab < 0 ? line.length() : tab;
      String field = stripBlanks(line.substring(start, end));
      start = end + 1;
      if (fields.size() == expected) {
        if (!field.isEmpty()) {
          return null;
        }
      } else if (field.length() > 1 && field.startsWith("\"")) {
        CgatsLine inner = of(field);
        if (inner.words.size() != 1) {
          return null;
        }
        fields.add(inner.words.get(0));
      } else {
        fields.add(new Word(field, false));
      }
    }
    return fields.size() == expected ? fields : null;
  }

  /**
   * The content of a line that a spreadsheet wrote as one quoted field, its inner quotes doubled.
   *
   * @return null where the line is no such field
   */
  static String insideSpreadsheetQuotes(String line) {
    String text = stripBlanks(line);
    int end = text.length();
    while (end > 0 && (text.charAt(end - 1) == ',' || text.charAt(end - 1) == ';')) {
      end--;
    }
    if (end < 3 || text.charAt(0) != '"' || text.charAt(end - 1) != '"') {
      return null;
    }
    CgatsLine whole = of(text.substring(0, end));
    return whole.words.size() == 1 && !whole.unclosed ? whole.words.get(0).text() : null;
  }

  private static String stripBlanks(String text) {
    int start = 0;
    int end = text.length();
    while (start < end && isBlank(text.charAt(start))) {
      start++;
    }
    while (end > start && isBlank(text.charAt(end - 1))) {
      end--;
    }
    return text.substring(start, end);
  }

  private static boolean isBlank(char c) {
    return c <= ' ' || c == '\u00A0';
  }
}
