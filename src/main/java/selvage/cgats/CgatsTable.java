package selvage.cgats;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import selvage.finding.InputException;

/**
 * One table: keywords, column names and rows of text, each cell with the line that it stood in.
 * Immutable.
 */
public final class CgatsTable {
  /**
   * A line of the header.
   *
   * @param name in capitals
   * @param value without its quotes; empty where none was given
   * @param line counted from 1
   */
  public record Keyword(String name, String value, int line) {}

  private final String fileName;
  private final String identifier;
  private final List<Keyword> keywords;
  private final List<String> columns;
  private final int columnsLine;
  private final String[] cells; // row by row
  private final int[] lines; // of each cell

  CgatsTable(
      String fileName,
      String identifier,
      List<Keyword> keywords,
      List<String> columns,
      int columnsLine,
      String[] cells,
      int[] lines) {
    if (columns.isEmpty() || cells.length % columns.size() != 0 || lines.length != cells.length) {
      throw new IllegalArgumentException(
          fileName + ": " + cells.length + " cells in " + columns.size() + " columns");
    }
    this.fileName = fileName;
    this.identifier = identifier;
    this.keywords = List.copyOf(keywords);
    this.columns = List.copyOf(columns);
    this.columnsLine = columnsLine;
    this.cells = cells;
    this.lines = lines;
  }

  /** The file that the table stands in, for messages. */
  public String fileName() {
    return fileName;
  }

  /** The word of the first line, for example {@code CGATS.17}; empty where it is missing. */
  public String identifier() {
    return identifier;
  }

  /** The header's lines in their order. */
  public List<Keyword> keywords() {
    return keywords;
  }

  /** The value of the first of these keywords that the header has (capitals or not). */
  public Optional<String> keyword(String... names) {
    for (String name : names) {
      String wanted = name.toUpperCase(Locale.ROOT);
      for (Keyword keyword : keywords) {
        if (keyword.name().equals(wanted)) {
          return Optional.of(keyword.value());
        }
      }
    }
    return Optional.empty();
  }

  /** The column names as the file spells them. */
  public List<String> columns() {
    return columns;
  }

  /** The line that the column names begin in. */
  public int columnsLine() {
    return columnsLine;
  }

  /**
   * The index of the first of these columns that the table has (capitals or not).
   *
   * @throws InputException where the file has the column twice, with different cells
   */
  public OptionalInt column(String... names) throws InputException {
    for (String name : names) {
      int found = -1;
      for (int column = 0; column < columns.size(); column++) {
        if (!columns.get(column).equalsIgnoreCase(name)) {
          continue;
        }
        if (found < 0) {
          found = column;
        } else if (!sameCells(found, column)) {
          throw InputException.at(
              fileName,
              columnsLine,
              columns.get(column),
              "expected one column of this name, found two that differ; remove one");
        }
      }
      if (found >= 0) {
        return OptionalInt.of(found);
      }
    }
    return OptionalInt.empty();
  }

  private boolean sameCells(int one, int other) {
    for (int row = 0; row < rowCount(); row++) {
      if (!text(row, one).equals(text(row, other))) {
        return false;
      }
    }
    return true;
  }

  /** The number of rows. */
  public int rowCount() {
    return cells.length / columns.size();
  }

  /**
   * A cell as text, without its quotes; empty where a file parted by tabs leaves it out.
   *
   * @param row counted from 0
   * @param column counted from 0
   */
  public String text(int row, int column) {
    return cells[index(row, column)];
  }

  /** The line that a row begins in, counted from 1. */
  public int line(int row) {
    return lines[index(row, 0)];
  }

  /**
   * A cell as a number. A decimal comma is read as a point.
   *
   * @return a finite number
   * @throws InputException where the cell is empty or is no number
   */
  public double number(int row, int column) throws InputException {
    String text = text(row, column);
    double value = CgatsNumber.parse(text);
    if (Double.isNaN(value)) {
      throw InputException.at(
          fileName,
          lines[index(row, column)],
          columns.get(column),
          "expected a number, found "
              + (text.isEmpty() ? "nothing" : "\"" + shortened(text) + "\"")
              + "; put the value right or remove the row");
    }
    return value;
  }

  private int index(int row, int column) {
    if (column < 0 || column >= columns.size()) {
      throw new IndexOutOfBoundsException("column " + column + " of " + columns.size());
    }
    return row * columns.size() + column;
  }

  static String shortened(String text) {
    return text.length() <= 40 ? text : text.substring(0, 40) + "…";
  }
}
