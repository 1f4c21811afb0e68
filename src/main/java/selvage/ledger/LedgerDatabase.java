package selvage.ledger;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import javax.sql.DataSource;
import org.postgresql.ds.PGSimpleDataSource;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;
import selvage.finding.InputException;

/**
 * Which database holds a ledger.
 *
 * @param name for messages, without a password
 * @param file the SQLite file; empty for PostgreSQL
 * @param source of connections, each set up alike
 */
record LedgerDatabase(String name, Optional<Path> file, DataSource source) {
  private static final String SQLITE = "jdbc:sqlite:";
  private static final String POSTGRESQL = "jdbc:postgresql:";
  private static final int BUSY_MILLIS = 10_000;
  private static final int CONNECT_SECONDS = 10;

  /** To which the write-ahead log shrinks again after a large transaction. */
  private static final int LOG_BYTES = 16 << 20;

  /**
   * Tells a ledger from its address.
   *
   * @param url a path or {@code jdbc:sqlite:PATH}, or {@code jdbc:postgresql:...}
   * @throws InputException where it is neither
   */
  static LedgerDatabase of(String url) throws InputException {
    String lower = url.strip().toLowerCase(Locale.ROOT);
    if (lower.startsWith(POSTGRESQL)) {
      return postgresql(url.strip());
    }
    if (lower.startsWith(SQLITE)) {
      return sqlite(url.strip().substring(SQLITE.length()), url);
    }
    if (lower.startsWith("jdbc:")) {
      throw wrong(url);
    }
    return sqlite(url, url);
  }

  private static InputException wrong(String url) {
    return InputException.of(
        withoutSecrets(url),
        "expected a ledger: a file's path, jdbc:sqlite:PATH or"
            + " jdbc:postgresql://HOST/DATABASE?user=NAME; give one of these");
  }

  private static LedgerDatabase sqlite(String path, String url) throws InputException {
    if (path.isBlank() || path.startsWith(":") || path.startsWith("file:") || path.contains("?")) {
      throw wrong(url);
    }
    Path file;
    try {
      file = Path.of(path);
    } catch (InvalidPathException e) {
      throw wrong(url);
    }
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    config.setBusyTimeout(BUSY_MILLIS);
    config.setJournalSizeLimit(LOG_BYTES);
    config.enforceForeignKeys(true);
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl(SQLITE + file.toAbsolutePath());
    return new LedgerDatabase(file.toString(), Optional.of(file), source);
  }

  private static LedgerDatabase postgresql(String url) throws InputException {
    PGSimpleDataSource source = new PGSimpleDataSource();
    try {
      source.setUrl(url);
      if (source.getLoginTimeout() == 0) {
        source.setLoginTimeout(CONNECT_SECONDS);
      }
    } catch (IllegalArgumentException e) {
      throw wrong(url);
    }
    return new LedgerDatabase(withoutSecrets(url), Optional.empty(), source);
  }

  /** Passwords stand behind the question mark, or before an at sign. */
  private static String withoutSecrets(String url) {
    int question = url.indexOf('?');
    String place = question < 0 ? url : url.substring(0, question);
    int at = place.lastIndexOf('@');
    int slashes = place.indexOf("//");
    return at > 0 && slashes > 0 && slashes < at
        ? place.substring(0, slashes + 2) + place.substring(at + 1)
        : place;
  }

  /**
   * Checks what can be checked without a connection.
   *
   * @param mustExist whether a file that is not there yet is an error
   */
  void checkPlace(boolean mustExist) throws InputException {
    if (file.isEmpty()) {
      return;
    }
    Path place = file.get().toAbsolutePath();
    if (Files.isDirectory(place)) {
      throw InputException.of(name, "expected a ledger's file, found a folder; name a file in it");
    }
    if (mustExist && !Files.exists(place)) {
      throw InputException.of(name, "no such ledger; check the name");
    }
    if (place.getParent() == null || !Files.isDirectory(place.getParent())) {
      throw InputException.of(
          name, "the folder " + place.getParent() + " does not exist; make it first");
    }
  }
}
