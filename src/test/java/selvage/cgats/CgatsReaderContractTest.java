package selvage.cgats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** The same two rows in every dialect that STANDARDS lists must read the same. */
class CgatsReaderContractTest {
  private static final String PLAIN =
      """
      CGATS.17
      ORIGINATOR "Harrow Lane, proofing"
      NUMBER_OF_FIELDS 5
      BEGIN_DATA_FORMAT
      SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B
      END_DATA_FORMAT
      NUMBER_OF_SETS 2
      BEGIN_DATA
      J01 "Dune Red" 46.10 -30.20 28.00
      J02 paper 95 0 -2e0
      END_DATA
      """;

  record Dialect(String name, String text, Charset charset, String finding) {
    static Dialect of(String name, String text) {
      return new Dialect(name, text, StandardCharsets.UTF_8, null);
    }

    static Dialect of(String name, String text, String finding) {
      return new Dialect(name, text, StandardCharsets.UTF_8, finding);
    }

    @Override
    public String toString() {
      return name;
    }
  }

  static List<Dialect> dialects() {
    List<Dialect> all = new ArrayList<>();
    all.add(Dialect.of("plain", PLAIN));
    for (String word : List.of("ISO28178", "CGATS.5", "IT8.7/3", "CTI3", "IT8.7/4 # chart")) {
      all.add(Dialect.of(word, PLAIN.replace("CGATS.17", word)));
    }
    all.add(Dialect.of("no first line", PLAIN.replace("CGATS.17\n", ""), "no-identifier"));
    all.add(Dialect.of("CR", PLAIN.replace('\n', '\r')));
    all.add(Dialect.of("CRLF", PLAIN.replace("\n", "\r\n")));
    all.add(Dialect.of("^Z", PLAIN + "\u001a"));
    all.add(Dialect.of("^Z then text", PLAIN + "\u001arubbish", "text-after-end-mark"));
    all.add(Dialect.of("BOM UTF-8", "\ufeff" + PLAIN));
    all.add(new Dialect("BOM UTF-16", "\ufeff" + PLAIN, StandardCharsets.UTF_16LE, null));
    all.add(Dialect.of("blank lines and comments", PLAIN.replace("\n", " # a \"note\n\n# b\n")));
    all.add(Dialect.of("keywords in small letters", lowerKeywords()));
    all.add(Dialect.of("tabs, some at the end", tabbed().replace("\n", "\t\t\n")));
    all.add(Dialect.of("tabs, name without quotes", tabbed().replace("\"Dune Red\"", "Dune Red")));
    all.add(Dialect.of("indented", PLAIN.replace("\n", "\n\t  ")));
    all.add(Dialect.of("rows wrap", PLAIN.replace("46.10 ", "46.10\n").replace("95", "\n95")));
    all.add(Dialect.of("one row wraps", PLAIN.replace("46.10 ", "46.10\n"), "some-rows-wrap"));
    all.add(Dialect.of("two rows in a line", PLAIN.replace("28.00\n", "28.00 ")));
    all.add(Dialect.of("columns wrap", PLAIN.replace("LAB_L LAB_A", "LAB_L\n LAB_A")));
    all.add(
        Dialect.of(
            "columns in one line with their marks",
            PLAIN
                .replace("BEGIN_DATA_FORMAT\n", "BEGIN_DATA_FORMAT ")
                .replace("\nEND_DATA_FORMAT", " END_DATA_FORMAT")));
    all.add(Dialect.of("wrong rows", PLAIN.replace("SETS 2", "SETS 3"), "count-differs"));
    all.add(Dialect.of("wrong fields", PLAIN.replace("FIELDS 5", "FIELDS 6"), "count-differs"));
    all.add(Dialect.of("no counts", PLAIN.replaceAll("NUMBER_OF.*\n", "")));
    all.add(Dialect.of("no end", PLAIN.replace("END_DATA\n", ""), "no-end-of-data"));
    all.add(Dialect.of("decimal comma", commas(PLAIN), "decimal-comma"));
    all.add(
        Dialect.of("comma and point", PLAIN.replace("46.10", "46,10"), "decimal-comma-and-point"));
    all.add(Dialect.of("lines in quotes", spreadsheet(""), "spreadsheet-quotes"));
    all.add(Dialect.of("lines in quotes, tabs after", spreadsheet("\t\t"), "spreadsheet-quotes"));
    all.add(Dialect.of("open quote", PLAIN.replace("ing\"", "ing"), "quote-not-closed"));
    all.add(Dialect.of("text after", PLAIN + "ORIGINATOR \"x\"\n", "text-without-data"));
    return all;
  }

  private static String lowerKeywords() {
    return PLAIN
        .replace("BEGIN_DATA", "begin_data")
        .replace("END_DATA", "end_data")
        .replace("_FORMAT", "_format")
        .replace("ORIGINATOR", "Originator")
        .replace("NUMBER_OF", "Number_Of");
  }

  private static String tabbed() {
    return PLAIN
        .replace("J01 \"Dune Red\" 46.10 -30.20 28.00", "J01\t\"Dune Red\"\t46.10\t-30.20\t28.00")
        .replace("J02 paper 95 0 -2e0", "J02\tpaper\t95\t0\t-2e0");
  }

  private static String commas(String text) {
    return text.replace("46.10 -30.20 28.00", "46,10 -30,20 28,00");
  }

  private static String spreadsheet(String trail) {
    StringBuilder text = new StringBuilder();
    PLAIN
        .lines()
        .forEach(
            line ->
                text.append('"').append(line.replace("\"", "\"\"")).append("\"" + trail + "\n"));
    return text.toString();
  }

  @ParameterizedTest
  @MethodSource("dialects")
  void parse_dialect_sameRows(Dialect dialect) throws InputException {
    CgatsFile file = CgatsReader.parse("m.txt", dialect.text().getBytes(dialect.charset()));
    CgatsTable table = file.first();

    assertThat(file.tables()).hasSize(1);
    assertThat(table.rowCount()).isEqualTo(2);
    int l = table.column("LAB_L").orElseThrow();
    assertThat(table.text(0, table.column("sample_id").orElseThrow())).isEqualTo("J01");
    assertThat(table.text(0, table.column("NO", "SAMPLE_NAME").orElseThrow()))
        .isEqualTo("Dune Red");
    assertThat(table.number(0, l)).isEqualTo(46.1);
    assertThat(table.number(0, l + 1)).isEqualTo(-30.2);
    assertThat(table.number(0, l + 2)).isEqualTo(28);
    assertThat(table.number(1, l)).isEqualTo(95);
    assertThat(table.number(1, l + 1)).isZero();
    assertThat(table.number(1, l + 2)).isEqualTo(-2);
    assertThat(table.keyword("originator")).hasValue("Harrow Lane, proofing");
    assertThat(file.findings())
        .extracting(Finding::code)
        .isEqualTo(dialect.finding() == null ? List.of() : List.of(dialect.finding()));
  }

  @Test
  void parse_latin1_readWithNote() throws InputException {
    byte[] bytes = PLAIN.replace("Dune", "D\u00fcne").getBytes(Charset.forName("ISO-8859-1"));
    CgatsFile file = CgatsReader.parse("m.txt", bytes);
    assertThat(file.first().text(0, 1)).isEqualTo("D\u00fcne Red");
    assertThat(file.findings()).extracting(Finding::code).containsExactly("read-as-latin-1");
  }

  @Test
  void parse_severalTables_eachWithItsHeader() throws InputException {
    CgatsFile file = parse(PLAIN + "\n" + PLAIN.replace("Harrow", "Second").replace("J0", "K0"));
    assertThat(file.tables()).hasSize(2);
    assertThat(file.tables().get(1).keyword("ORIGINATOR")).hasValue("Second Lane, proofing");
    assertThat(file.tables().get(1).identifier()).isEqualTo("CGATS.17");
    assertThat(file.tables().get(1).text(1, 0)).isEqualTo("K02");
    assertThat(file.tables().get(1).line(0)).isEqualTo(21);
  }

  @Test
  void parse_secondTableWithoutColumns_takesThoseBefore() throws InputException {
    CgatsFile file = parse(PLAIN + "BEGIN_DATA\n1 a 1 2 3\nEND_DATA\n");
    assertThat(file.tables().get(1).columns()).hasSize(5);
    assertThat(file.findings()).extracting(Finding::code).contains("columns-of-table-before");
  }

  @ParameterizedTest
  @ValueSource(strings = {"n/a", "NaN", "Infinity", "1f", "0x10", "1.2.3", "-", "1e999", "1,2,3"})
  void number_noNumber_refusedWithPlace(String word) throws InputException {
    CgatsTable table = parse(PLAIN.replace("46.10", word)).first();
    assertThatThrownBy(() -> table.number(0, 2))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("m.txt:9: LAB_L: ")
        .hasMessageContaining("\"" + word + "\"");
  }

  @Test
  void number_emptyTabField_refused() throws InputException {
    CgatsTable table = parse(tabbed().replace("46.10", "")).first();
    assertThatThrownBy(() -> table.number(0, 2))
        .hasMessage(
            "m.txt:9: LAB_L: expected a number, found nothing; put the value right or remove the"
                + " row");
  }

  @Test
  void parse_valueMissing_refusedAtItsLineNotShifted() {
    assertThatThrownBy(() -> parse(PLAIN.replace("46.10 ", "")))
        .hasMessageStartingWith("m.txt:9: row 1: expected 5 values")
        .hasMessageContaining("found 4");
  }

  @Test
  void parse_valueTooMany_refused() {
    assertThatThrownBy(() -> parse(PLAIN.replace("95 0", "95 0 0")))
        .hasMessageStartingWith("m.txt:10: row 2:")
        .hasMessageContaining("found 6");
  }

  @Test
  void parse_lastRowShort_refused() {
    assertThatThrownBy(() -> parse(PLAIN.replace(" -2e0", "")))
        .hasMessageStartingWith("m.txt:10: row 2:");
  }

  @Test
  void parse_cutOffBetweenRows_refused() {
    String cut = PLAIN.substring(0, PLAIN.indexOf("J02"));
    assertThatThrownBy(() -> parse(cut)).hasMessageContaining("cut off");
  }

  @Test
  void column_twiceWithOtherCells_refused() throws InputException {
    CgatsTable table = parse(PLAIN.replace("LAB_A", "LAB_L")).first();
    assertThatThrownBy(() -> table.column("LAB_L"))
        .hasMessageStartingWith("m.txt:5: LAB_L:")
        .hasMessageContaining("two that differ");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " \n\n",
        "hello",
        "%PDF-1.7\n%\u00e2\u00e3\n1 0 obj",
        "<?xml version=\"1.0\"?><CxF/>",
        "CGATS.17\nBEGIN_DATA_FORMAT\nA B\nEND_DATA_FORMAT\n",
        "CGATS.17\nBEGIN_DATA_FORMAT\nA B\nEND_DATA_FORMAT\nBEGIN_DATA\nEND_DATA\n",
        "CGATS.17\nBEGIN_DATA\n1 2\nEND_DATA\n",
        "a\u0000b",
        "\u0001\u0002"
      })
  void parse_noCgats_refusedInOneLine(String text) {
    assertThatThrownBy(() -> parse(text))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("m.txt:")
        .hasMessageNotContaining("\n");
  }

  @Test
  void parse_huge_refused() {
    assertThatThrownBy(() -> CgatsReader.parse("m.txt", new byte[CgatsReader.MAX_BYTES + 1]))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("32 MiB");
  }

  @Test
  void read_missingFileOrFolder_refused(@TempDir Path folder) {
    assertThatThrownBy(() -> CgatsReader.read(folder)).isInstanceOf(InputException.class);
    assertThatThrownBy(() -> CgatsReader.read(folder.resolve("no.txt")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("no such file");
  }

  private static CgatsFile parse(String text) throws InputException {
    return CgatsReader.parse("m.txt", text.getBytes(StandardCharsets.UTF_8));
  }
}
