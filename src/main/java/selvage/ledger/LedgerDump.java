package selvage.ledger;

import com.fasterxml.jackson.core.io.JsonStringEncoder;
import java.io.IOException;
import java.io.Writer;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jdbi.v3.core.Handle;

/** All tables as text in an order that depends on nothing but their content. */
final class LedgerDump {
  private static final List<String> TABLES =
      List.of(
          "job",
          "label_item",
          "job_finding",
          "strip",
          "patch",
          "score",
          "strip_score",
          "set_score",
          "score_check",
          "patch_score",
          "score_finding",
          "calibration");

  private LedgerDump() {}

  static void write(Handle handle, Writer out) throws IOException {
    for (String table : TABLES) {
      List<String> lines =
          new ArrayList<>(
              handle
                  .createQuery("SELECT * FROM " + table)
                  .map((rows, context) -> line(rows))
                  .list());
      Collections.sort(lines);
      out.write("# " + table + "\n");
      for (String line : lines) {
        out.write(line);
        out.write('\n');
      }
    }
  }

  private static String line(ResultSet rows) throws SQLException {
    StringBuilder line = new StringBuilder();
    int columns = rows.getMetaData().getColumnCount();
    for (int i = 1; i <= columns; i++) {
      line.append(i == 1 ? "" : "\t").append(value(rows.getObject(i)));
    }
    return line.toString();
  }

  /** SQLite keeps truth as 1 and 0. */
  private static String value(Object value) {
    if (value == null) {
      return "-";
    }
    if (value instanceof Boolean truth) {
      return truth ? "1" : "0";
    }
    if (value instanceof String text) {
      return '"' + new String(JsonStringEncoder.getInstance().quoteAsString(text)) + '"';
    }
    return value.toString();
  }
}
