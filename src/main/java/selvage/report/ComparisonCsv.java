package selvage.report;

import java.util.List;
import selvage.comparison.Comparison;
import selvage.comparison.ScoredPair;

/**
 * The pairs of a comparison as comma-separated values (RFC 4180), one strip on a proof a row, with
 * a line of headings. A text that a spreadsheet would take for a formula gets an apostrophe before
 * it.
 */
public final class ComparisonCsv {
  private static final String HEADINGS =
      "received,proof,page,strip_id,proofing_system,substrate,condition,simulated,job,standard,"
          + "job_mean_de00,standard_mean_de00,standard_mean_dl,standard_mean_da,standard_mean_db";

  private ComparisonCsv() {}

  /** The whole text. */
  public static String of(Comparison comparison) {
    StringBuilder text = new StringBuilder(HEADINGS).append("\r\n");
    for (ScoredPair pair : comparison.pairs()) {
      text.append(
          String.join(
              ",",
              List.of(
                  pair.received().toString(),
                  cell(pair.proof()),
                  Integer.toString(pair.page()),
                  cell(pair.stripId()),
                  cell(pair.source().proofingSystem().orElse("")),
                  cell(pair.source().substrate().orElse("")),
                  cell(pair.source().condition().orElse("")),
                  Boolean.toString(pair.simulated()),
                  pair.job().word(),
                  pair.standard().word(),
                  number(pair.jobDe00()),
                  number(pair.standardDe00()),
                  number(pair.drift().dl()),
                  number(pair.drift().da()),
                  number(pair.drift().db()))));
      text.append("\r\n");
    }
    return text.toString();
  }

  private static String number(double value) {
    return Double.toString(Math.round(value * 1e6) / 1e6 + 0.0);
  }

  private static String cell(String value) {
    boolean isFormula = !value.isEmpty() && "=+-@\t\r".indexOf(value.charAt(0)) >= 0;
    String shown = isFormula ? "'" + value : value;
    boolean isPlain = shown.chars().noneMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
    return isPlain ? shown : '"' + shown.replace("\"", "\"\"") + '"';
  }
}
