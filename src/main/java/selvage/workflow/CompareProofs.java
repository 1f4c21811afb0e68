package selvage.workflow;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Objects;
import java.util.Optional;
import selvage.comparison.Comparison;
import selvage.comparison.ComparisonBuilder;
import selvage.comparison.Ewma;
import selvage.finding.InputException;
import selvage.ledger.Ledger;
import selvage.ledger.ScoreFilter;
import selvage.report.ComparisonCsv;
import selvage.report.ComparisonPdf;

/**
 * Compares, over a ledger's history, what the job strip said with what the standard strip said.
 *
 * @param ledger its address
 * @param filter which scores
 * @param baselineProofs how many proofs make a baseline of a trend, 2 or more
 */
public record CompareProofs(String ledger, ScoreFilter filter, int baselineProofs) {
  public CompareProofs {
    Objects.requireNonNull(ledger, "ledger");
    Objects.requireNonNull(filter, "filter");
  }

  /**
   * Compares.
   *
   * @throws InputException where there is no such ledger or it can't be used
   */
  public Comparison run() throws InputException {
    try (Ledger open = Ledger.openExisting(ledger)) {
      return ComparisonBuilder.of(open, filter, Ewma.USUAL, baselineProofs);
    }
  }

  /**
   * Writes a comparison's rows and plots, both or neither.
   *
   * @param csv where the rows go
   * @param report where the PDF goes
   * @param time stands on the PDF
   * @throws InputException where a file can't be written
   */
  public static void write(
      Comparison comparison, Optional<Path> csv, Optional<Path> report, Instant time)
      throws InputException, IOException {
    try (StagedFiles files = new StagedFiles()) {
      if (csv.isPresent()) {
        files.add(csv.get(), ComparisonCsv.of(comparison));
      }
      if (report.isPresent()) {
        files.add(report.get(), out -> ComparisonPdf.write(comparison, time, out));
      }
      files.publish();
    }
  }
}
