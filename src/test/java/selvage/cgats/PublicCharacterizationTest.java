package selvage.cgats;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.finding.InputException;

/** Public characterization data, read whole; the last row's figures as the files print them. */
class PublicCharacterizationTest {
  @ParameterizedTest
  @CsvSource({
    "FOGRA39L.ti3, 1617, 0, CMYK_C, 0, LAB_L, 95.00",
    "FOGRA40L.ti3, 1617, 0, CMYK_C, 0, CMYK_K, 0",
    "TR006.ti3, 1617, 0, CMYK_C, 0, CMYK_K, 0",
    "TR002.ti3, 928, 5, CMYK_M, 100, LAB_B, 22.38"
  })
  void read_publicData_wholeTable(
      String name, int rows, int row, String column, double value, String other, double otherValue)
      throws InputException {
    Path file = Path.of("..", "shared", "datasets", name);
    Assumptions.assumeTrue(Files.exists(file), "no public data at ../shared/datasets");
    CgatsTable table = CgatsReader.read(file).first();
    assertThat(table.identifier()).isEqualTo("CTI3");
    assertThat(table.rowCount()).isEqualTo(rows);
    assertThat(table.number(row, table.column(column).orElseThrow())).isEqualTo(value);
    assertThat(table.number(row, table.column(other).orElseThrow())).isEqualTo(otherValue);
    for (int r = 0; r < rows; r++) {
      for (int c = 1; c < table.columns().size(); c++) {
        table.number(r, c);
      }
    }
  }
}
