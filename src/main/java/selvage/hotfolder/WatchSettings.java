package selvage.hotfolder;

import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.OptionalInt;

/**
 * What is watched, and with what means.
 *
 * @param folders at least one
 * @param ledger the ledger's URL, or a file's name for SQLite
 * @param workers processes that work on files, 1 to 64
 * @param workerMegabytes the most memory of each, 64 to 65536
 * @param poll between two looks at the folders; file events make a look come sooner
 * @param settle how long a file must stay unchanged before it is taken
 * @param port of the health and metrics page on the loopback address; empty for none
 */
public record WatchSettings(
    List<FolderSettings> folders,
    String ledger,
    int workers,
    int workerMegabytes,
    Duration poll,
    Duration settle,
    OptionalInt port) {
  /** Between two looks where nothing is said. */
  public static final Duration USUAL_POLL = Duration.ofSeconds(2);

  /** How long a file stays unchanged where nothing is said. */
  public static final Duration USUAL_SETTLE = Duration.ofSeconds(2);

  /** How long a file that does not look complete may stay unchanged before it is taken anyway. */
  static final Duration PATIENCE = Duration.ofSeconds(30);

  public WatchSettings {
    folders = List.copyOf(folders);
    Objects.requireNonNull(ledger, "ledger");
    Objects.requireNonNull(poll, "poll");
    Objects.requireNonNull(settle, "settle");
    Objects.requireNonNull(port, "port");
    if (folders.isEmpty() || workers < 1 || workers > 64 || workerMegabytes < 64) {
      throw new IllegalArgumentException(
          folders.size() + " folders, " + workers + " workers of " + workerMegabytes + " MB");
    }
  }
}
