package selvage.cgats;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.finding.InputException;

class CgatsWriterRoundTripTest {
  @ParameterizedTest
  @ValueSource(
      strings = {
        "plain",
        "Dune Red",
        "5\" proof",
        "",
        "#1",
        "END_DATA",
        "Gr\u00fcn \u2192",
        "\"",
        "\"\"",
        "a\"b",
        "1,5",
        "BEGIN_DATA",
        "\u00a0x"
      })
  void write_anyCell_readBack(String cell) throws InputException {
    String text =
        new CgatsWriter()
            .table()
            .keyword("ORIGINATOR", cell)
            .keyword("STRIP_ID", "A")
            .columns(List.of("SAMPLE_ID", "Dune Red", "LAB_L"))
            .row(List.of(cell, "x", CgatsWriter.number(1.005, 4)))
            .row(List.of("2", cell, CgatsWriter.number(-0.00001, 4)))
            .text();
    CgatsFile file = CgatsReader.parse("w.txt", text.getBytes(StandardCharsets.UTF_8));
    CgatsTable table = file.first();
    assertThat(file.findings()).allMatch(finding -> finding.code().startsWith("decimal-comma"));
    assertThat(table.keyword("ORIGINATOR")).hasValue(cell);
    assertThat(table.text(0, 0)).isEqualTo(cell);
    assertThat(table.text(1, 1)).isEqualTo(cell);
    assertThat(table.columns()).containsExactly("SAMPLE_ID", "Dune Red", "LAB_L");
    assertThat(table.number(0, 2)).isEqualTo(1.005);
    assertThat(table.text(1, 2)).isEqualTo("0.0000");
  }

  @Test
  void write_twoTables_plainText() {
    String text =
        new CgatsWriter()
            .table()
            .comment("first")
            .columns(List.of("SAMPLE_ID"))
            .row(List.of("1"))
            .table()
            .keyword("STRIP_ID", "B")
            .columns(List.of("SAMPLE_ID", "TINT"))
            .row(List.of("2", "50"))
            .text();
    assertThat(text)
        .isEqualTo(
            """
            CGATS.17
            # first
            NUMBER_OF_FIELDS\t1
            BEGIN_DATA_FORMAT
            SAMPLE_ID
            END_DATA_FORMAT
            NUMBER_OF_SETS\t1
            BEGIN_DATA
            1
            END_DATA

            CGATS.17
            KEYWORD "STRIP_ID"
            STRIP_ID\t"B"
            DATA_FORMAT_IDENTIFIER\t"TINT"
            NUMBER_OF_FIELDS\t2
            BEGIN_DATA_FORMAT
            SAMPLE_ID\tTINT
            END_DATA_FORMAT
            NUMBER_OF_SETS\t1
            BEGIN_DATA
            2\t50
            END_DATA
            """);
  }
}
