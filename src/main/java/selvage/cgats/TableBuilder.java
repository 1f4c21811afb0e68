package selvage.cgats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import selvage.cgats.CgatsLine.Word;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** A table while its lines come in. */
final class TableBuilder {
  private final String fileName;
  private final List<CgatsTable.Keyword> keywords = new ArrayList<>();
  private final List<String> columns = new ArrayList<>();
  private final List<Word> pending = new ArrayList<>();
  private String identifier = "";
  private int columnsLine;
  private int dataLine;
  private String[] cells = new String[1024];
  private int[] lines = new int[1024];
  private int size;
  private int pendingLine;
  private int wrappedRows;

  TableBuilder(String fileName) {
    this.fileName = fileName;
  }

  /** Whether nothing of this table was met yet. */
  boolean isFresh() {
    return identifier.isEmpty() && keywords.isEmpty() && columns.isEmpty();
  }

  boolean hasColumns() {
    return !columns.isEmpty();
  }

  List<String> columns() {
    return columns;
  }

  void identifier(String word) {
    identifier = word;
  }

  void addKeyword(String name, String value, int line) {
    keywords.add(new CgatsTable.Keyword(name, value, line));
  }

  void beginColumns(int line) throws InputException {
    if (!columns.isEmpty()) {
      throw InputException.at(
          fileName, line, "BEGIN_DATA_FORMAT", "expected once a table, found again");
    }
    columnsLine = line;
  }

  void addColumn(String name, int line) {
    columnsLine = columns.isEmpty() ? line : columnsLine;
    columns.add(name);
  }

  /** Begins the data; a table without column names of its own has those of the one before. */
  void beginData(List<String> columnsBefore, int line, List<Finding> findings)
      throws InputException {
    if (columns.isEmpty()) {
      if (columnsBefore.isEmpty()) {
        throw InputException.at(
            fileName,
            line,
            "BEGIN_DATA",
            "expected column names (BEGIN_DATA_FORMAT) before the data, found none");
      }
      columns.addAll(columnsBefore);
      columnsLine = line;
      findings.add(
          Finding.warning(
              "columns-of-table-before",
              fileName
                  + ":"
                  + line
                  + ": the table names no columns; those of the table before were taken"));
    }
    dataLine = line;
  }

  /**
   * Adds the words of one line of data: a whole row, several whole rows, or a part of one.
   *
   * @throws InputException where a row would end within the line
   */
  void addLine(List<Word> words, int line) throws InputException {
    if (words.isEmpty()) {
      return;
    }
    int width = columns.size();
    if (pending.isEmpty() && words.size() % width == 0) {
      for (Word word : words) {
        addCell(word.text(), line);
      }
      return;
    }
    if (pending.isEmpty()) {
      pendingLine = line;
    }
    if (pending.size() + words.size() > width) {
      throw wrongRow(pending.isEmpty() ? words.size() : pending.size());
    }
    pending.addAll(words);
    if (pending.size() == width) {
      for (Word word : pending) {
        addCell(word.text(), pendingLine);
      }
      pending.clear();
      wrappedRows++;
    }
  }

  private void addCell(String text, int line) {
    if (size == cells.length) {
      cells = Arrays.copyOf(cells, 2 * size);
      lines = Arrays.copyOf(lines, 2 * size);
    }
    cells[size] = text;
    lines[size++] = line;
  }

  private InputException wrongRow(int found) {
    return InputException.at(
        fileName,
        pendingLine,
        "row " + (size / columns.size() + 1),
        "expected "
            + columns.size()
            + " values ("
            + CgatsTable.shortened(String.join(" ", columns))
            + "), found "
            + found
            + "; put the row right or remove it");
  }

  /**
   * The finished table.
   *
   * @param marked whether END_DATA was met
   */
  CgatsTable build(boolean marked, List<Finding> findings) throws InputException {
    if (!pending.isEmpty()) {
      throw wrongRow(pending.size());
    }
    int rows = size / columns.size();
    if (rows == 0) {
      throw InputException.at(fileName, dataLine, "BEGIN_DATA", "expected rows, found none");
    }
    checkEnd(marked, rows, findings);
    checkCount("NUMBER_OF_FIELDS", columns.size(), "columns", findings);
    checkCount("NUMBER_OF_SETS", rows, "rows", findings);
    if (identifier.isEmpty()) {
      findings.add(
          Finding.note(
              "no-identifier",
              fileName + ": a table does not begin with a word such as CGATS.17 or ISO28178"));
    }
    if (wrappedRows > 0 && wrappedRows < rows) {
      findings.add(
          Finding.warning(
              "some-rows-wrap",
              fileName
                  + ": "
                  + wrappedRows
                  + " of "
                  + rows
                  + " rows were put together from several lines; check that none lacks a value"));
    }
    checkDecimalMarks(findings);
    return new CgatsTable(
        fileName,
        identifier,
        keywords,
        columns,
        columnsLine,
        Arrays.copyOf(cells, size),
        Arrays.copyOf(lines, size));
  }

  private void checkEnd(boolean marked, int rows, List<Finding> findings) throws InputException {
    if (marked) {
      return;
    }
    CgatsTable.Keyword announced = keyword("NUMBER_OF_SETS");
    if (announced != null && CgatsNumber.parse(announced.value()) > rows) {
      throw InputException.of(
          fileName,
          "expected "
              + announced.value()
              + " rows and END_DATA, found "
              + rows
              + " rows and the end of the file; the file is cut off, fetch it again");
    }
    findings.add(
        Finding.warning(
            "no-end-of-data",
            fileName + ": END_DATA is missing; check that the last row is whole"));
  }

  private void checkCount(String name, int found, String what, List<Finding> findings) {
    CgatsTable.Keyword announced = keyword(name);
    if (announced != null && CgatsNumber.parse(announced.value()) != found) {
      findings.add(
          Finding.warning(
              "count-differs",
              String.format(
                  Locale.ROOT,
                  "%s:%d: %s says %s, the table has %d %s; the table counts",
                  fileName,
                  announced.line(),
                  name,
                  CgatsTable.shortened(announced.value()),
                  found,
                  what)));
    }
  }

  private CgatsTable.Keyword keyword(String name) {
    for (CgatsTable.Keyword keyword : keywords) {
      if (keyword.name().equals(name)) {
        return keyword;
      }
    }
    return null;
  }

  private void checkDecimalMarks(List<Finding> findings) {
    int commaLine = 0;
    boolean point = false;
    for (int i = 0; i < size; i++) {
      if (commaLine == 0 && CgatsNumber.hasDecimalComma(cells[i])) {
        commaLine = lines[i];
      }
    }
    if (commaLine == 0) {
      return;
    }
    for (int i = 0; i < size; i++) {
      point |= CgatsNumber.hasDecimalPoint(cells[i]);
    }
    String place = fileName + ":" + commaLine + ": ";
    findings.add(
        point
            ? Finding.warning(
                "decimal-comma-and-point",
                place + "some numbers have a decimal comma, others a point; check the values")
            : Finding.note("decimal-comma", place + "decimal commas were read as points"));
  }
}
