package selvage.cgats;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Writes tables in the text format of CGATS.17: line feeds, tabs between the fields, decimal
 * points. Keywords and columns that the standard does not know are announced as it asks. Meant to
 * be encoded in UTF-8.
 */
public final class CgatsWriter {
  private static final Set<String> KNOWN_KEYWORDS =
      Set.of(
          "ORIGINATOR",
          "FILE_DESCRIPTOR",
          "DESCRIPTOR",
          "CREATED",
          "INSTRUMENTATION",
          "MEASUREMENT_SOURCE",
          "MEASUREMENT_GEOMETRY",
          "FILTER",
          "POLARIZATION",
          "SAMPLE_BACKING",
          "PRINT_CONDITIONS",
          "TARGET_TYPE",
          "MATERIAL",
          "SERIAL",
          "WEIGHTING_FUNCTION",
          "COMPUTATIONAL_PARAMETER");

  private static final Set<String> KNOWN_COLUMNS =
      Set.of(
          "SAMPLE_ID",
          "SAMPLE_NAME",
          "CMYK_C",
          "CMYK_M",
          "CMYK_Y",
          "CMYK_K",
          "XYZ_X",
          "XYZ_Y",
          "XYZ_Z",
          "LAB_L",
          "LAB_A",
          "LAB_B",
          "LAB_DE");

  private final StringBuilder text = new StringBuilder();
  private final Set<String> announced = new HashSet<>();
  private List<String> columns = List.of();
  private final List<String> rows = new ArrayList<>();

  /** Begins a table; the first is begun before anything else is written. */
  public CgatsWriter table() {
    finishTable();
    if (text.length() > 0) {
      text.append('\n');
    }
    text.append("CGATS.17\n");
    announced.clear();
    return this;
  }

  /** A comment line in the header. */
  public CgatsWriter comment(String comment) {
    text.append("# ").append(oneLine(comment)).append('\n');
    return this;
  }

  /** A header line with a text. */
  public CgatsWriter keyword(String name, String value) {
    if (!KNOWN_KEYWORDS.contains(name) && announced.add(name)) {
      text.append("KEYWORD ").append(quoted(name)).append('\n');
    }
    text.append(name).append('\t').append(quoted(value)).append('\n');
    return this;
  }

  /** The table's columns, after the header and before the first row. */
  public CgatsWriter columns(List<String> names) {
    columns = List.copyOf(names);
    for (String name : columns) {
      if (!KNOWN_COLUMNS.contains(name)) {
        text.append("DATA_FORMAT_IDENTIFIER\t").append(quoted(name)).append('\n');
      }
    }
    return this;
  }

  /**
   * A row.
   *
   * @param cells one a column; numbers by {@link #number}
   */
  public CgatsWriter row(List<String> cells) {
    if (cells.size() != columns.size()) {
      throw new IllegalArgumentException(cells.size() + " cells in " + columns.size() + " columns");
    }
    StringBuilder row = new StringBuilder();
    for (String cell : cells) {
      row.append(row.length() == 0 ? "" : "\t").append(needsQuotes(cell) ? quoted(cell) : cell);
    }
    rows.add(row.toString());
    return this;
  }

  /** A number with this many digits after the point; never a negative zero. */
  public static String number(double value, int digits) {
    String number = String.format(Locale.ROOT, "%." + digits + "f", value);
    boolean negativeZero = number.startsWith("-");
    for (int i = 1; i < number.length() && negativeZero; i++) {
      negativeZero = number.charAt(i) == '0' || number.charAt(i) == '.';
    }
    return negativeZero ? number.substring(1) : number;
  }

  /** All that was written. */
  public String text() {
    finishTable();
    return text.toString();
  }

  private void finishTable() {
    if (columns.isEmpty()) {
      return;
    }
    text.append("NUMBER_OF_FIELDS\t").append(columns.size()).append("\nBEGIN_DATA_FORMAT\n");
    for (int i = 0; i < columns.size(); i++) {
      String name = columns.get(i);
      text.append(i == 0 ? "" : "\t").append(needsQuotes(name) ? quoted(name) : name);
    }
    text.append("\nEND_DATA_FORMAT\nNUMBER_OF_SETS\t").append(rows.size()).append("\nBEGIN_DATA\n");
    rows.forEach(row -> text.append(row).append('\n'));
    text.append("END_DATA\n");
    rows.clear();
    columns = List.of();
  }

  private static boolean needsQuotes(String cell) {
    if (cell.isEmpty() || cell.equalsIgnoreCase("END_DATA")) {
      return true;
    }
    for (int i = 0; i < cell.length(); i++) {
      char c = cell.charAt(i);
      if (c <= ' ' || c == '"' || c == '#' || c == '\u00A0') {
        return true;
      }
    }
    return false;
  }

  private static String quoted(String value) {
    return '"' + oneLine(value).replace("\"", "\"\"") + '"';
  }

  /** Line ends, tabs and control characters have no place in a quoted text: they become blanks. */
  private static String oneLine(String value) {
    StringBuilder line = new StringBuilder(value.length());
    for (int i = 0; i < value.length(); i++) {
      line.append(value.charAt(i) < ' ' ? ' ' : value.charAt(i));
    }
    return line.toString();
  }
}
