package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Published numbers from {@code src/test/resources/reference}. */
public final class ReferenceTable {
  private ReferenceTable() {}

  /**
   * Reads a table of numbers; lines with {@code #} name its source.
   *
   * @param columns the columns that must be there, in order
   */
  public static List<double[]> read(String name, String... columns) {
    List<double[]> rows = new ArrayList<>();
    try (InputStream in = ReferenceTable.class.getResourceAsStream("/reference/" + name);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      String line = lines.readLine();
      assertThat(line).as("first line of %s", name).startsWith("# Source: ");
      while (line.startsWith("#")) {
        line = lines.readLine();
      }
      assertThat(line.split(",", -1)).as("columns of %s", name).containsExactly(columns);
      while ((line = lines.readLine()) != null) {
        String[] cells = line.split(",", -1);
        assertThat(cells).as("row of %s: %s", name, line).hasSize(columns.length);
        double[] row = new double[cells.length];
        for (int i = 0; i < cells.length; i++) {
          row[i] = Double.parseDouble(cells[i]);
        }
        rows.add(row);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    assertThat(rows).as("rows of %s", name).isNotEmpty();
    return rows;
  }
}
