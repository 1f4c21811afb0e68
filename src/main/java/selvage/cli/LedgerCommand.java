package selvage.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.ledger.Calibration;
import selvage.ledger.Ledger;
import selvage.ledger.LedgerRebuild;

/** {@code ledger rebuild|backup|calibrate --ledger URL}: the keeping of the ledger. */
final class LedgerCommand implements Callable<Integer> {
  private final Declaration declaration =
      new Declaration(
          this, "Keeps the ledger: rebuilds it from the files, copies it, records calibrations.");

  LedgerCommand() {
    declaration.help("-h", "--help");
  }

  CommandSpec spec() {
    CommandSpec spec = declaration.spec();
    spec.addSubcommand("rebuild", new CommandLine(new Rebuild().declaration.spec()));
    spec.addSubcommand("backup", new CommandLine(new Backup().declaration.spec()));
    spec.addSubcommand("calibrate", new CommandLine(new Calibrate().declaration.spec()));
    return spec;
  }

  /** The option that names a ledger. */
  static Value<String> ledger(Declaration declaration) {
    return declaration.required(
        String.class,
        "FILE|URL",
        "The ledger: a file (SQLite) or jdbc:postgresql://HOST/DATABASE?user=NAME.",
        "--ledger");
  }

  @Override
  public Integer call() {
    throw declaration.misuse("expected rebuild, backup or calibrate");
  }

  /** {@code ledger rebuild --ledger URL DIR...}. */
  private static final class Rebuild implements Callable<Integer> {
    private final Declaration declaration =
        new Declaration(
            this,
            "Makes the ledger anew from the job records (NAME.job.json) and scores (NAME.score.json"
                + " and the like) that lie in folders and below them. Calibrations are kept. All or"
                + " nothing: where a folder can't be read the ledger stays as it was.");

    private final Value<String> ledger = LedgerCommand.ledger(declaration);

    private final Value<List<Path>> folders =
        declaration.parameters(
            0, Path.class, "DIR", "Folders: outgoing, refused, measured, and where they went.");

    private final Value<Boolean> quiet = declaration.flag("Print errors only.", "--quiet");

    Rebuild() {
      declaration.help("-h", "--help");
    }

    @Override
    public Integer call() throws InputException {
      try (Ledger open = Ledger.open(ledger.get())) {
        LedgerRebuild.Outcome outcome = new LedgerRebuild(open, folders.get()).run();
        if (!quiet.get()) {
          PrintWriter out = declaration.out();
          out.println(
              open.name() + ": " + outcome.jobs() + " jobs, " + outcome.scores() + " scores");
          for (LedgerRebuild.Passed passed : outcome.passed()) {
            out.println("passed over " + passed.file() + ": " + passed.why());
          }
          out.flush();
        }
      }
      return ExitStatus.DONE;
    }
  }

  /** {@code ledger backup --ledger URL FILE}. */
  private static final class Backup implements Callable<Integer> {
    private final Declaration declaration =
        new Declaration(
            this,
            "Copies an SQLite ledger into a new file while it is in use, and checks the copy. Of"
                + " PostgreSQL, pg_dump does it.");

    private final Value<String> ledger = LedgerCommand.ledger(declaration);

    private final Value<Path> target =
        declaration.parameter(0, Path.class, "FILE", null, "The copy; must not be there yet.");

    Backup() {
      declaration.help("-h", "--help");
    }

    @Override
    public Integer call() throws InputException {
      try (Ledger open = Ledger.openExisting(ledger.get())) {
        open.backup(target.get());
      }
      return ExitStatus.DONE;
    }
  }

  /** {@code ledger calibrate --ledger URL --proofing-system NAME}. */
  private static final class Calibrate implements Callable<Integer> {
    private final Declaration declaration =
        new Declaration(
            this,
            "Records that a proofing system was calibrated, or got other paper or inks: its trend"
                + " begins anew there.");

    private final Value<String> ledger = LedgerCommand.ledger(declaration);

    private final Value<String> proofingSystem =
        declaration.required(
            String.class, "NAME", "As the labels of its proofs name it.", "--proofing-system");

    private final Value<String> note =
        declaration.option(String.class, "TEXT", "", "What was done. Default: nothing.", "--note");

    private final TimeOption time = new TimeOption(declaration, "of the calibration", "");

    Calibrate() {
      declaration.help("-h", "--help");
    }

    @Override
    public Integer call() throws InputException {
      if (proofingSystem.get().isBlank()) {
        throw declaration.misuse("--proofing-system: expected a name, found none");
      }
      try (Ledger open = Ledger.open(ledger.get())) {
        open.calibrate(new Calibration(proofingSystem.get(), time.get(), note.get()));
      }
      return ExitStatus.DONE;
    }
  }
}
