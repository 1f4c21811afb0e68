package selvage.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.hotfolder.FolderSettings;
import selvage.hotfolder.SettingsCheck;
import selvage.hotfolder.SettingsFile;
import selvage.hotfolder.WatchSettings;
import selvage.score.ToleranceSets;
import selvage.sheet.Edge;

/** Which hot folders there are, and how their files are worked on. */
final class WatchOptions {
  private final Declaration declaration;
  private final Path incomingDefault;
  private final Value<Path> settings;
  private final Value<Path> incoming;
  private final Value<Path> outgoing;
  private final Value<Path> refused;
  private final Value<Path> measured;
  private final Value<Path> done;
  private final ReadingOptions reading;
  private final StampingOptions stamping;
  private final Value<String> tolerance;
  private final Value<String> ledger;
  private final Value<Integer> workers;
  private final Value<Integer> workerMemory;
  private final Value<Double> settle;

  /**
   * Declares the options.
   *
   * @param incomingDefault where jobs are dropped where nothing is said; null where it must be said
   */
  WatchOptions(Declaration declaration, String incomingDefault) {
    this.declaration = declaration;
    this.incomingDefault = incomingDefault == null ? null : Path.of(incomingDefault);
    settings =
        declaration.option(
            Path.class,
            "FILE",
            null,
            "Settings of one hot folder or several (TOML, see docs/hot-folder.md); instead of the"
                + " folders below.",
            "--settings");
    incoming =
        folder(
            "--in",
            "Where jobs are dropped. Sub-folders are watched, too."
                + (incomingDefault == null ? "" : " Default: " + incomingDefault + "."));
    outgoing =
        folder("--out", "Where proofs and scores go. Default: out beside the incoming folder.");
    refused =
        folder("--refused", "Where what can't be used goes, with the reason. Default: refused.");
    measured = folder("--measured", "Where measurements are dropped. Default: measured.");
    done = folder("--done", "Where what has been worked on goes. Default: done.");
    reading = new ReadingOptions(declaration);
    stamping = new StampingOptions(declaration);
    tolerance =
        declaration.option(
            String.class,
            "NAME|FILE",
            null,
            "Tolerance set of measurements. Default: iso-12647-7-2016.",
            "--tolerance");
    ledger =
        declaration.option(
            String.class,
            "URL",
            null,
            "Ledger: an SQLite file, or jdbc:postgresql://... Default: what the settings say, else"
                + " selvage.db beside the incoming folder.",
            "--ledger");
    workers =
        declaration.option(
            Integer.class,
            "N",
            null,
            "Processes that work on files, 1 to 64. Default: one a processor, at least two.",
            "--workers");
    workerMemory =
        declaration.option(
            Integer.class,
            "MB",
            null,
            "The most memory of each. Default: this program's own (java -Xmx), at most 1024.",
            "--worker-memory");
    settle =
        declaration.option(
            Double.class,
            "SECONDS",
            null,
            "How long a file must stay unchanged before it is taken. Default: 2.",
            "--settle");
  }

  private Value<Path> folder(String name, String description) {
    return declaration.option(Path.class, "DIR", null, description, name);
  }

  /** This very program, as a worker. */
  static List<String> workerCommand(int megabytes) {
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

  /**
   * What is asked for.
   *
   * @param port of the health page, where it is given on the command line
   * @throws InputException where settings or folders can't be used
   */
  WatchSettings wanted(OptionalInt port) throws InputException {
    if (settings.get() != null) {
      return merged(SettingsFile.read(settings.get()), port);
    }
    Path dropped = incoming.get() == null ? incomingDefault : incoming.get();
    if (dropped == null) {
      throw declaration.misuse("expected --settings FILE, or --in DIR and the other folders");
    }
    Path in = dropped.toAbsolutePath().normalize();
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
                OptionalInt.empty()),
            port));
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
  private WatchSettings merged(WatchSettings from, OptionalInt port) {
    return new WatchSettings(
        from.folders(),
        Optional.ofNullable(ledger.get()).orElse(from.ledger()),
        within("--workers", workers.get(), from.workers(), 1, 64),
        within("--worker-memory", workerMemory.get(), from.workerMegabytes(), 64, 65536),
        from.poll(),
        settle.get() == null ? from.settle() : seconds(settle.get()),
        port.isPresent() ? port : from.port());
  }

  private Duration seconds(double given) {
    if (!(given >= 0 && given <= 3600)) {
      throw declaration.misuse("--settle: expected 0 to 3600, found " + given);
    }
    return Duration.ofMillis(Math.round(given * 1000));
  }

  int within(String option, Integer given, int standard, int least, int most) {
    if (given == null) {
      return standard;
    }
    if (given < least || given > most) {
      throw declaration.misuse(option + ": expected " + least + " to " + most + ", found " + given);
    }
    return given;
  }
}
