package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.comparison.Comparison;
import selvage.finding.InputException;
import selvage.ledger.ScoreFilter;
import selvage.report.ComparisonJson;
import selvage.report.ComparisonText;
import selvage.workflow.CompareProofs;

/** {@code compare --ledger URL}. */
final class CompareCommand implements Callable<Integer> {
  private static final int LEAST_BASELINE = 5;
  private static final int MOST_BASELINE = 100;

  private final Declaration declaration =
      new Declaration(
          this,
          "Compares, over the history of scored proofs, what the job strip said with what the"
              + " standard strip said: escapes and false alarms, colour differences, the colours"
              + " that fail, and the trend of each proofing system.");

  final Value<String> ledger = LedgerCommand.ledger(declaration);

  final Value<String> from =
      declaration.option(
          String.class,
          "DAY|INSTANT",
          null,
          "Measured on that day (UTC) or later, for example 2026-09-01 or 2026-09-01T06:00:00Z."
              + " Default: from the first.",
          "--from");

  final Value<String> to =
      declaration.option(
          String.class,
          "DAY|INSTANT",
          null,
          "Measured on that day (UTC) or earlier, or before that instant. Default: to the last.",
          "--to");

  final Value<String> proofingSystem =
      declaration.option(
          String.class,
          "NAME",
          null,
          "Only proofs whose label names this proofing system. Default: all.",
          "--proofing-system");

  final Value<String> substrate =
      declaration.option(
          String.class,
          "NAME",
          null,
          "Only proofs whose label names this substrate. Default: all.",
          "--substrate");

  final Value<String> condition =
      declaration.option(
          String.class,
          "NAME",
          null,
          "Only proofs of this reference printing condition. Default: all.",
          "--condition");

  final Value<String> folder =
      declaration.option(
          String.class,
          "NAME",
          null,
          "Only measurements that came through this hot folder. Default: all.",
          "--folder");

  final Value<Integer> baseline =
      declaration.option(
          Integer.class,
          "N",
          "10",
          "Proofs from the beginning or a calibration that make the baseline of a trend, 5 to 100."
              + " Default: ${DEFAULT-VALUE}.",
          "--baseline");

  final Value<Path> csv =
      declaration.option(
          Path.class, "FILE.csv", null, "Write the compared strips, one a row.", "--csv");

  final Value<Path> report =
      declaration.option(Path.class, "FILE.pdf", null, "Write tables and plots.", "--report");

  private final TimeOption time = new TimeOption(declaration, "on the report", "");

  final OutputOptions output = new OutputOptions(declaration);

  CompareCommand() {
    declaration.footer(
        "",
        "Results support, and do not replace, agreed standards, the instrument maker's",
        "instructions and the judgement of those who sign the proof.");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException {
    if (baseline.get() < LEAST_BASELINE || baseline.get() > MOST_BASELINE) {
      throw declaration.misuse(
          "--baseline: expected "
              + LEAST_BASELINE
              + " to "
              + MOST_BASELINE
              + ", found "
              + baseline.get());
    }
    if (report.get() != null
        && !report.get().toString().toLowerCase(Locale.ROOT).endsWith(".pdf")) {
      throw declaration.misuse(
          "--report: expected a name that ends in .pdf, found \"" + report.get() + "\"");
    }
    ScoreFilter filter =
        new ScoreFilter(
            moment("--from", from.get(), 0),
            moment("--to", to.get(), 1),
            Optional.ofNullable(proofingSystem.get()),
            Optional.ofNullable(substrate.get()),
            Optional.ofNullable(condition.get()),
            Optional.ofNullable(folder.get()));
    output.checkJsonTarget();
    Comparison comparison = new CompareProofs(ledger.get(), filter, baseline.get()).run();
    CompareProofs.write(
        comparison, Optional.ofNullable(csv.get()), Optional.ofNullable(report.get()), time.get());
    PrintWriter out = declaration.out();
    output.writeJson(out, json -> ComparisonJson.write(comparison, json));
    if (!output.quiet.get() && !output.isJsonOnStandardOutput()) {
      out.print(ComparisonText.of(comparison));
      out.flush();
    }
    return ExitStatus.DONE;
  }

  /** The beginning of a day, so many days later, or an instant as it is. */
  private Optional<Instant> moment(String option, String given, int daysLater) {
    if (given == null) {
      return Optional.empty();
    }
    try {
      if (given.contains("T")) {
        return Optional.of(Instant.parse(given));
      }
      LocalDate day = LocalDate.parse(given).plusDays(daysLater);
      return Optional.of(day.atStartOfDay().toInstant(ZoneOffset.UTC));
    } catch (DateTimeParseException e) {
      throw declaration.misuse(
          option
              + ": expected a day such as 2026-09-01 or a time such as 2026-09-01T06:00:00Z, found"
              + " \""
              + given
              + "\"");
    }
  }
}
