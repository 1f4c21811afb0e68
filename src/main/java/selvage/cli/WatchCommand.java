package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.hotfolder.EventLog;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.SettingsCheck;
import selvage.hotfolder.SettingsFile;
import selvage.hotfolder.Watch;
import selvage.hotfolder.WatchSettings;
import selvage.score.ToleranceSets;
import selvage.sheet.Edge;

/** {@code watch --settings FILE}, or {@code watch --in DIR --out DIR ...}. */
final class WatchCommand implements Callable<Integer> {
  private static final Duration GRACE = Duration.ofSeconds(20);

  private final Declaration declaration =
      new Declaration(
          this,
          "Watches hot folders: jobs dropped in come back stamped, measurements as scores, and what"
              + " can't be used is refused with the reason. Runs until it is stopped.");

  private final Value<Path> settings =
      declaration.option(
          Path.class,
          "FILE",
          null,
          "Settings of one hot folder or several (TOML, see docs/hot-folder.md); instead of the"
              + " folders below.",
          "--settings");

  private final Value<Path> incoming =
      folder("--in", "Where jobs are dropped. Sub-folders are watched, too.");
  private final Value<Path> outgoing =
      folder("--out", "Where proofs and scores go. Default: out beside the incoming folder.");
  private final Value<Path> refused =
      folder("--refused", "Where what can't be used goes, with the reason. Default: refused.");
  private final Value<Path> measured =
      folder("--measured", "Where measurements are dropped. Default: measured.");
  private final Value<Path> done =
      folder("--done", "Where what has been worked on goes. Default: done.");

  private final ReadingOptions reading = new ReadingOptions(declaration);
  private final StampingOptions stamping = new StampingOptions(declaration);

  private final Value<String> tolerance =
      declaration.option(
          String.class,
          "NAME|FILE",
          null,
          "Tolerance set of measurements. Default: iso-12647-7-2016.",
          "--tolerance");

  private final Value<String> ledger =
      declaration.option(
          String.class,
          "URL",
          null,
          "Ledger: an SQLite file, or jdbc:postgresql://... Default: what the settings say, else"
              + " selvage.db beside the incoming folder.",
          "--ledger");

  private final Value<Integer> workers =
      declaration.option(
          Integer.class,
          "N",
          null,
          "Processes that work on files, 1 to 64. Default: one a processor, at least two.",
          "--workers");

  private final Value<Integer> workerMemory =
      declaration.option(
          Integer.class,
          "MB",
          null,
          "The most memory of each. Default: this program's own (java -Xmx), at most 1024.",
          "--worker-memory");

  private final Value<Double> settle =
      declaration.option(
          Double.class,
          "SECONDS",
          null,
          "How long a file must stay unchanged before it is taken. Default: 2.",
          "--settle");

  private final Value<Integer> port =
      declaration.option(
          Integer.class,
          "N",
          null,
          "Show health and metrics on this port of the loopback address. Default: nowhere.",
          "--port");

  private final Value<Boolean> drain =
      declaration.flag("End once nothing is left to do, instead of watching on.", "--drain");

  private final Value<EventLog.Form> log =
      declaration.option(
          EventLog.Form.class,
          "FORM",
          "text",
          "Form of the log on standard error: text, or json (an object a line). Default:"
              + " ${DEFAULT-VALUE}.",
          "--log");

  WatchCommand() {
    declaration.help("-h", "--help");
    declaration.footer(
        "",
        "A job NAME.pdf becomes NAME.proof.pdf and NAME.proof.strips.json in the outgoing folder,",
        "or lies in the refused folder beside NAME.why.txt. Stop with SIGTERM or Ctrl-C: work in",
        "hand is finished or returned.",
        "",
        "Results support, and do not replace, agreed standards, the instrument maker's",
        "instructions and the judgement of those who sign the proof.");
  }

  private Value<Path> folder(String name, String description) {
    return declaration.option(Path.class, "DIR", null, description, name);
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException, InterruptedException {
    WatchSettings wanted = wanted();
    PrintWriter err = declaration.err();
    Watch watch =
        new Watch(
            wanted,
            workerCommand(wanted.workerMegabytes()),
            new EventLog(err, log.get(), Clock.systemUTC()),
            Clock.systemUTC());
    Thread stopper =
        new Thread(
            () -> {
              try {
                watch.stop(GRACE);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              err.flush();
              Runtime.getRuntime().halt(ExitStatus.DONE);
            },
            "stop");
    Runtime.getRuntime().addShutdownHook(stopper);
    watch.run(drain.get());
    try {
      Runtime.getRuntime().removeShutdownHook(stopper);
    } catch (IllegalStateException e) {
      // It is stopping already, and the hook ends the program.
      stopper.join();
    }
    return ExitStatus.DONE;
  }

  /** This very program, as a worker. */
  private static List<String> workerCommand(int megabytes) {
    String java =
        ProcessHandle.current()
            .info()
            .command()
            .orElse(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    return List.of(
        java,
        "-Xmx" + megabytes + "m",
        "-XX:+UseSerialGC",
        "-cp",
        System.getProperty("java.class.path"),
        Main.class.getName(),
        WatchWorkerCommand.NAME);
  }

  private WatchSettings wanted() throws InputException {
    if (settings.get() != null) {
      return merged(SettingsFile.read(settings.get()));
    }
    if (incoming.get() == null) {
      throw declaration.misuse("expected --settings FILE, or --in DIR and the other folders");
    }
    Path in = incoming.get().toAbsolutePath().normalize();
    Path beside = Objects.requireNonNullElse(in.getParent(), in);
    FolderSettings folder =
        new FolderSettings(
            String.valueOf(in.getFileName()),
            new FolderSettings.Places(
                in,
                place(outgoing, beside, "out"),
                place(refused, beside, "refused"),
                Optional.of(place(measured, beside, "measured")),
                place(done, beside, "done")),
            stamping(),
            Optional.ofNullable(tolerance.get()).orElse(ToleranceSets.BUILT_IN.get(0)),
            FolderSettings.USUAL_TIME_LIMIT,
            Optional.empty());
    return SettingsCheck.checked(
        "the folders given",
        merged(
            new WatchSettings(
                List.of(folder),
                beside.resolve("selvage.db").toString(),
                SettingsCheck.defaultWorkers(),
                SettingsCheck.defaultMegabytes(),
                WatchSettings.USUAL_POLL,
                WatchSettings.USUAL_SETTLE,
                OptionalInt.empty())));
  }

  private FolderSettings.Stamping stamping() {
    return new FolderSettings.Stamping(
        Optional.ofNullable(reading.condition.get()),
        stamping.standard.get(),
        stamping.checkedPatches(),
        stamping.reader.get(),
        stamping.checkedEdge().map(Edge::word).orElse("auto"),
        stamping.isPerJob(),
        reading.dpi.get(),
        reading.spots.get().stream().map(Path::toAbsolutePath).toList(),
        stamping.labelItems());
  }

  private static Path place(Value<Path> given, Path beside, String name) {
    return given.get() == null ? beside.resolve(name) : given.get().toAbsolutePath().normalize();
  }

  /** Options come before what the settings say. */
  private WatchSettings merged(WatchSettings from) {
    return new WatchSettings(
        from.folders(),
        Optional.ofNullable(ledger.get()).orElse(from.ledger()),
        within("--workers", workers.get(), from.workers(), 1, 64),
        within("--worker-memory", workerMemory.get(), from.workerMegabytes(), 64, 65536),
        from.poll(),
        settle.get() == null ? from.settle() : seconds(settle.get()),
        port.get() == null
            ? from.port()
            : OptionalInt.of(within("--port", port.get(), 0, 1, 65535)));
  }

  private Duration seconds(double given) {
    if (!(given >= 0 && given <= 3600)) {
      throw declaration.misuse("--settle: expected 0 to 3600, found " + given);
    }
    return Duration.ofMillis(Math.round(given * 1000));
  }

  private int within(String option, Integer given, int standard, int least, int most) {
    if (given == null) {
      return standard;
    }
    if (given < least || given > most) {
      throw declaration.misuse(option + ": expected " + least + " to " + most + ", found " + given);
    }
    return given;
  }
}
