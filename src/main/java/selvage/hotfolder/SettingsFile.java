package selvage.hotfolder;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;
import selvage.finding.InputException;
import selvage.score.ToleranceSets;
import selvage.strip.JobSet;
import selvage.strip.StripLabel;
import selvage.workflow.StampOptions;

/**
 * The settings file of the hot folder: TOML 1.0, one table a folder. Names in it are relative to
 * the file. Faults are told with their line.
 */
public final class SettingsFile {
  private static final long MOST_BYTES = 1 << 20;
  private static final Set<String> TOP_KEYS =
      Set.of(
          "ledger",
          "workers",
          "worker_memory_mb",
          "port",
          "poll_seconds",
          "settle_seconds",
          "folder");
  private static final Set<String> FOLDER_KEYS =
      Set.of(
          "name",
          "incoming",
          "outgoing",
          "refused",
          "measured",
          "done",
          "condition",
          "standard",
          "patches",
          "reader",
          "edge",
          "per",
          "dpi",
          "spots",
          "tolerance",
          "evaluated_as",
          "proofing_system",
          "ink_set",
          "substrate",
          "profile",
          "time_limit_seconds",
          "keep_done_days");

  private final Path file;

  private SettingsFile(Path file) {
    this.file = file;
  }

  /**
   * Reads settings.
   *
   * @throws InputException where the file can't be read, or says something that it must not
   */
  public static WatchSettings read(Path file) throws InputException {
    String text;
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw InputException.of(
            file.toString(),
            "expected settings of at most 1 MB, found more; is it the right file?");
      }
      text = Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw InputException.of(file.toString(), "can't be read: " + e.getMessage(), e);
    }
    return new SettingsFile(file).parse(text);
  }

  private WatchSettings parse(String text) throws InputException {
    TomlParseResult toml = Toml.parse(text);
    if (toml.hasErrors()) {
      throw InputException.at(
          file.toString(),
          toml.errors().get(0).position().line(),
          "TOML",
          String.valueOf(toml.errors().get(0).getMessage()));
    }
    Table top = new Table(toml, "");
    top.refuseOthers(TOP_KEYS);
    TomlArray tables = toml.isArray("folder") ? toml.getArray("folder") : null;
    if (tables == null || !isTables(tables)) {
      throw InputException.of(
          file.toString(), "expected at least one [[folder]], found none; see docs/hot-folder.md");
    }
    List<FolderSettings> folders = new ArrayList<>();
    for (int i = 0; i < tables.size(); i++) {
      folders.add(folder(new Table(tables.getTable(i), "folder"), tables.inputPositionOf(i)));
    }
    int port = top.whole("port", 0, 0, 65535);
    return SettingsCheck.checked(
        file.toString(),
        new WatchSettings(
            folders,
            ledger(top.text("ledger").orElse("selvage.db")),
            top.whole("workers", SettingsCheck.defaultWorkers(), 1, 64),
            top.whole("worker_memory_mb", SettingsCheck.defaultMegabytes(), 64, 65536),
            top.seconds("poll_seconds", WatchSettings.USUAL_POLL, 0.05, 3600),
            top.seconds("settle_seconds", WatchSettings.USUAL_SETTLE, 0, 3600),
            port == 0 ? OptionalInt.empty() : OptionalInt.of(port)));
  }

  private static boolean isTables(TomlArray array) {
    boolean all = !array.isEmpty();
    for (int i = 0; i < array.size(); i++) {
      all &= array.get(i) instanceof TomlTable;
    }
    return all;
  }

  private String ledger(String url) throws InputException {
    return url.startsWith("jdbc:") ? url : path(url, "ledger", null).toString();
  }

  private FolderSettings folder(Table table, TomlPosition at) throws InputException {
    table.refuseOthers(FOLDER_KEYS);
    String name = table.needed("name", at);
    FolderSettings.Places places =
        new FolderSettings.Places(
            table.neededPath("incoming", at),
            table.neededPath("outgoing", at),
            table.neededPath("refused", at),
            table.path("measured"),
            table.neededPath("done", at));
    List<StripLabel.Item> label =
        List.of(
            new StripLabel.Item("Evaluated as", table.text("evaluated_as").orElse("")),
            new StripLabel.Item("Proofing system", table.text("proofing_system").orElse("")),
            new StripLabel.Item("Ink set", table.text("ink_set").orElse("")),
            new StripLabel.Item("Substrate", table.text("substrate").orElse("")),
            new StripLabel.Item("Simulation profile", table.text("profile").orElse("")));
    FolderSettings.Stamping stamping =
        new FolderSettings.Stamping(
            table.nameOrFile("condition"),
            table.nameOrFile("standard").orElse("full"),
            patches(table),
            table.nameOrFile("reader").orElse("handheld-spot"),
            table.oneOf("edge", "auto", "top", "right", "bottom", "left"),
            table.oneOf("per", "page", "job").equals("job"),
            table.number("dpi", 18, 1200).orElse(150),
            table.paths("spots"),
            label);
    OptionalDouble days = table.number("keep_done_days", 0.01, 36500);
    return new FolderSettings(
        name,
        places,
        stamping,
        table.nameOrFile("tolerance").orElse(ToleranceSets.BUILT_IN.get(0)),
        table.seconds("time_limit_seconds", FolderSettings.USUAL_TIME_LIMIT, 1, 86400),
        days.isPresent()
            ? Optional.of(Duration.ofSeconds(Math.round(days.getAsDouble() * 86400)))
            : Optional.empty());
  }

  private static int patches(Table table) throws InputException {
    return table.toml.isString("patches") && table.oneOf("patches", "auto").equals("auto")
        ? JobSet.AUTO
        : table.whole("patches", StampOptions.DEFAULT_PATCHES, 1, JobSet.MOST_PATCHES);
  }

  private Path path(String text, String key, TomlPosition at) throws InputException {
    try {
      Path folder = file.toAbsolutePath().getParent();
      return folder.resolve(text).normalize();
    } catch (InvalidPathException e) {
      throw InputException.at(
          file.toString(),
          at == null ? 1 : at.line(),
          key,
          "expected a file's or folder's name, found \"" + text + "\"");
    }
  }

  /** A table whose values are asked for one by one. */
  private final class Table {
    private final TomlTable toml;
    private final String name;

    Table(TomlTable toml, String name) {
      this.toml = toml;
      this.name = name;
    }

    void refuseOthers(Set<String> known) throws InputException {
      for (String key : toml.keySet()) {
        if (!known.contains(key)) {
          throw wrong(
              key,
              "is no setting"
                  + (name.isEmpty() ? "" : " of a folder")
                  + "; expected one of "
                  + String.join(", ", new TreeSet<>(known)));
        }
      }
    }

    String place(String key) {
      TomlPosition at = toml.inputPositionOf(List.of(key));
      return file + ":" + (at == null ? 1 : at.line()) + ": " + key;
    }

    private InputException wrong(String key, String problem) {
      return InputException.of(place(key), problem);
    }

    Optional<String> text(String key) throws InputException {
      if (!toml.contains(List.of(key))) {
        return Optional.empty();
      }
      if (!(toml.get(List.of(key)) instanceof String text)) {
        throw wrong(key, "expected a text in quotation marks, found " + toml.get(List.of(key)));
      }
      return Optional.of(text);
    }

    String needed(String key, TomlPosition at) throws InputException {
      Optional<String> text = text(key);
      if (text.isEmpty() || text.get().isBlank()) {
        throw InputException.at(
            file.toString(), at.line(), key, "is needed in every [[folder]] and missing here");
      }
      return text.get();
    }

    Optional<Path> path(String key) throws InputException {
      Optional<String> text = text(key);
      if (text.isEmpty()) {
        return Optional.empty();
      }
      return Optional.of(
          SettingsFile.this.path(text.get(), key, toml.inputPositionOf(List.of(key))));
    }

    Path neededPath(String key, TomlPosition at) throws InputException {
      needed(key, at);
      return path(key).orElseThrow();
    }

    /** What may be a built-in name or a file is a file where there is one. */
    Optional<String> nameOrFile(String key) throws InputException {
      Optional<String> text = text(key);
      Optional<Path> path = text.isEmpty() ? Optional.empty() : path(key);
      return path.isPresent() && Files.isRegularFile(path.get())
          ? Optional.of(path.get().toString())
          : text;
    }

    List<Path> paths(String key) throws InputException {
      List<Path> paths = new ArrayList<>();
      if (!toml.contains(List.of(key))) {
        return paths;
      }
      if (!(toml.get(List.of(key)) instanceof TomlArray array)) {
        throw wrong(key, "expected a list of files such as [\"spots.txt\"]");
      }
      for (int i = 0; i < array.size(); i++) {
        if (!(array.get(i) instanceof String text)) {
          throw wrong(key, "expected files' names in quotation marks, found " + array.get(i));
        }
        paths.add(SettingsFile.this.path(text, key, array.inputPositionOf(i)));
      }
      return paths;
    }

    OptionalDouble number(String key, double least, double most) throws InputException {
      if (!toml.contains(List.of(key))) {
        return OptionalDouble.empty();
      }
      Object value = toml.get(List.of(key));
      if (!(value instanceof Number number)
          || !(number.doubleValue() >= least && number.doubleValue() <= most)) {
        throw wrong(
            key,
            "expected a number from " + plain(least) + " to " + plain(most) + ", found " + value);
      }
      return OptionalDouble.of(number.doubleValue());
    }

    int whole(String key, int standard, int least, int most) throws InputException {
      OptionalDouble number = number(key, least, most);
      if (number.isPresent() && number.getAsDouble() != Math.rint(number.getAsDouble())) {
        throw wrong(key, "expected a whole number, found " + number.getAsDouble());
      }
      return number.isPresent() ? (int) number.getAsDouble() : standard;
    }

    Duration seconds(String key, Duration standard, double least, double most)
        throws InputException {
      OptionalDouble number = number(key, least, most);
      return number.isPresent()
          ? Duration.ofMillis(Math.round(number.getAsDouble() * 1000))
          : standard;
    }

    /** The first word is the default. */
    String oneOf(String key, String... words) throws InputException {
      String text = text(key).orElse(words[0]);
      if (!List.of(words).contains(text)) {
        throw wrong(
            key, "expected one of " + String.join(", ", words) + ", found \"" + text + "\"");
      }
      return text;
    }
  }

  private static String plain(double number) {
    return number == Math.rint(number) ? String.valueOf((long) number) : String.valueOf(number);
  }
}
