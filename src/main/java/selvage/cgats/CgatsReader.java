package selvage.cgats;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import selvage.cgats.CgatsLine.Word;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * Reads the text format of CGATS.17 and ISO 28178 [iso28178], and what files of the trade make of
 * it; {@code docs/file-formats.md} lists the deviations. Rows may wrap, but a row begins where a
 * line begins: a row with a value too few or too many is refused, never shifted.
 */
public final class CgatsReader {
  /** The largest file that is read, in bytes. */
  public static final int MAX_BYTES = 32 << 20;

  private static final Set<String> HEADER_WORDS =
      Set.of(
          "ORIGINATOR",
          "FILE_DESCRIPTOR",
          "DESCRIPTOR",
          "CREATED",
          "KEYWORD",
          "DATA_FORMAT_IDENTIFIER",
          "NUMBER_OF_FIELDS",
          "NUMBER_OF_SETS",
          "BEGIN_DATA_FORMAT",
          "END_DATA_FORMAT",
          "BEGIN_DATA",
          "END_DATA");

  private enum Part {
    HEADER,
    COLUMNS,
    DATA
  }

  private final String fileName;
  private final List<Finding> findings = new ArrayList<>();
  private final List<CgatsTable> tables = new ArrayList<>();
  private final Set<String> saidOnce = new HashSet<>();

  private Part part = Part.HEADER;
  private TableBuilder table;

  private CgatsReader(String fileName) {
    this.fileName = fileName;
    this.table = new TableBuilder(fileName);
  }

  /**
   * Reads a file.
   *
   * @throws InputException where it can't be read, is larger than {@link #MAX_BYTES}, is not text,
   *     or is no CGATS file
   */
  public static CgatsFile read(Path file) throws InputException {
    return parse(file.toString(), bytes(file));
  }

  /**
   * The bytes of a file, at most one more than {@link #MAX_BYTES}.
   *
   * @throws InputException where it can't be read
   */
  public static byte[] bytes(Path file) throws InputException {
    String name = file.toString();
    if (Files.isDirectory(file)) {
      throw InputException.of(name, "expected a file, found a folder");
    }
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(MAX_BYTES + 1);
    } catch (NoSuchFileException e) {
      throw InputException.of(name, "no such file; check the name", e);
    } catch (IOException e) {
      throw InputException.of(name, "can't be read: " + e.getMessage(), e);
    }
  }

  /**
   * Reads the bytes of a file.
   *
   * @param fileName for messages
   * @throws InputException as {@link #read(Path)}
   */
  public static CgatsFile parse(String fileName, byte[] bytes) throws InputException {
    if (bytes.length > MAX_BYTES) {
      throw InputException.of(
          fileName,
          "expected at most " + (MAX_BYTES >> 20) + " MiB of CGATS text, found more; split it");
    }
    return new CgatsReader(fileName).parse(bytes);
  }

  private CgatsFile parse(byte[] bytes) throws InputException {
    List<String> lines = CgatsText.lines(fileName, bytes, findings);
    for (int i = 0; i < lines.size(); i++) {
      takeLine(lines.get(i), i + 1);
    }
    finish(lines);
    return new CgatsFile(fileName, tables, findings);
  }

  private void takeLine(String raw, int number) throws InputException {
    String line = withoutSpreadsheetQuotes(raw, number);
    CgatsLine parted = CgatsLine.of(line);
    List<Word> words = parted.words();
    if (words.isEmpty()) {
      return;
    }
    if (parted.unclosed()) {
      note(
          "quote-not-closed",
          number,
          "a quoted text has no closing quote; it was taken to the line's end");
    }
    if (part == Part.DATA && !isStructural(words)) {
      List<Word> fields = CgatsLine.tabFields(line, table.columns().size());
      table.addLine(fields == null ? words : fields, number);
      return;
    }
    int at = 0;
    while (at < words.size()) {
      at = takeWords(words, at, number);
    }
  }

  private int takeWords(List<Word> words, int at, int number) throws InputException {
    Word word = words.get(at);
    if (part == Part.DATA) {
      int end = at;
      while (end < words.size() && !words.get(end).is("END_DATA")) {
        end++;
      }
      table.addLine(words.subList(at, end), number);
      if (end < words.size()) {
        closeTable(true);
        end++;
      }
      return end;
    }
    if (word.is("BEGIN_DATA")) {
      table.beginData(lastColumns(), number, findings);
      part = Part.DATA;
    } else if (word.is("BEGIN_DATA_FORMAT")) {
      table.beginColumns(number);
      part = Part.COLUMNS;
    } else if (word.is("END_DATA_FORMAT")) {
      part = Part.HEADER;
    } else if (part == Part.COLUMNS) {
      table.addColumn(word.text(), number);
    } else if (!word.is("END_DATA")) {
      return takeHeaderLine(words, at, number);
    }
    return at + 1;
  }

  private int takeHeaderLine(List<Word> words, int at, int number) {
    int end = at + 1;
    while (end < words.size() && !isMark(words.get(end))) {
      end++;
    }
    if (table.isFresh() && isIdentifier(words, at, end)) {
      table.identifier(joined(words.subList(at, end)));
    } else {
      table.addKeyword(
          words.get(at).text().toUpperCase(Locale.ROOT),
          joined(words.subList(at + 1, end)),
          number);
    }
    return end;
  }

  /** A table's first line: a word of a standard, or one word that no header line begins with. */
  private static boolean isIdentifier(List<Word> words, int at, int end) {
    String first = words.get(at).text().toUpperCase(Locale.ROOT);
    if (HEADER_WORDS.contains(first)) {
      return false;
    }
    return end - at == 1
        || first.startsWith("CGATS")
        || first.startsWith("ISO")
        || first.startsWith("IT8")
        || first.startsWith("CTI");
  }

  private static boolean isMark(Word word) {
    return word.is("BEGIN_DATA_FORMAT")
        || word.is("END_DATA_FORMAT")
        || word.is("BEGIN_DATA")
        || word.is("END_DATA");
  }

  private static boolean isStructural(List<Word> words) {
    for (Word word : words) {
      if (word.is("END_DATA")) {
        return true;
      }
    }
    return false;
  }

  private static String joined(List<Word> words) {
    if (words.size() == 1) {
      return words.get(0).text();
    }
    StringBuilder text = new StringBuilder();
    for (Word word : words) {
      text.append(text.length() == 0 ? "" : " ").append(word.text());
    }
    return text.toString();
  }

  private List<String> lastColumns() {
    return tables.isEmpty() ? List.of() : tables.get(tables.size() - 1).columns();
  }

  private String withoutSpreadsheetQuotes(String line, int number) {
    String inside = CgatsLine.insideSpreadsheetQuotes(line);
    if (inside == null) {
      return line;
    }
    if (part == Part.DATA) {
      int columns = table.columns().size();
      boolean row =
          columns > 1
              && (CgatsLine.of(inside).words().size() == columns
                  || CgatsLine.tabFields(inside, columns) != null);
      if (!row && !inside.strip().equalsIgnoreCase("END_DATA")) {
        return line;
      }
    } else if (part == Part.COLUMNS && CgatsLine.of(inside).words().size() == 1) {
      return inside;
    }
    note(
        "spreadsheet-quotes",
        number,
        "whole lines stand in quotes, as spreadsheets write them; the quotes were taken off");
    return inside;
  }

  private void closeTable(boolean marked) throws InputException {
    tables.add(table.build(marked, findings));
    table = new TableBuilder(fileName);
    part = Part.HEADER;
  }

  private void finish(List<String> lines) throws InputException {
    if (part == Part.DATA) {
      if (!lines.get(lines.size() - 1).isBlank()) {
        throw InputException.at(
            fileName,
            lines.size(),
            "END_DATA",
            "expected at the end of the data, found the end of the file within a line; the file is"
                + " cut off, fetch it again");
      }
      closeTable(false);
    } else if (tables.isEmpty()) {
      throw InputException.of(
          fileName,
          "expected CGATS text with BEGIN_DATA_FORMAT and BEGIN_DATA, found "
              + (part == Part.COLUMNS || table.hasColumns() ? "no BEGIN_DATA" : "neither")
              + "; export the data as CGATS text");
    } else if (!table.isFresh()) {
      findings.add(
          Finding.warning(
              "text-without-data",
              fileName + ": the text after the last table has no data; it was left out"));
    }
  }

  private void note(String code, int line, String text) {
    if (saidOnce.add(code)) {
      findings.add(Finding.note(code, fileName + ":" + line + ": " + text));
    }
  }
}
