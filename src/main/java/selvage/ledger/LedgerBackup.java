package selvage.ledger;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import selvage.finding.InputException;

/**
 * A copy of an SQLite ledger in use. {@code VACUUM INTO} reads one moment's state; writers go on
 * meanwhile. The copy is checked before it gets its name.
 */
final class LedgerBackup {
  private LedgerBackup() {}

  static void run(LedgerDatabase database, Path target) throws InputException {
    if (database.file().isEmpty()) {
      throw InputException.of(
          database.name(),
          "is a PostgreSQL database; back it up with pg_dump, which copies it while it is in use");
    }
    if (Files.exists(target)) {
      throw InputException.of(target.toString(), "is there already; give the copy another name");
    }
    Path folder = target.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw InputException.of(
          target.toString(), "the folder " + folder + " does not exist; make it first");
    }
    Path part = folder.resolve("." + target.getFileName() + ".part");
    try {
      Files.deleteIfExists(part);
      copy(database, part);
      check(part);
      try {
        Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(part, target);
      }
    } catch (SQLException | IOException e) {
      throw InputException.of(
          target.toString(),
          "can't be written (" + StoredText.firstLine(e) + "); check the folder and its space",
          e);
    } finally {
      deleteQuietly(part);
    }
  }

  private static void copy(LedgerDatabase database, Path part) throws SQLException {
    try (Connection connection = database.source().getConnection();
        PreparedStatement statement = connection.prepareStatement("VACUUM INTO ?")) {
      statement.setString(1, part.toString());
      statement.execute();
    }
  }

  private static void check(Path part) throws SQLException, InputException {
    LedgerDatabase copy = LedgerDatabase.of(part.toString());
    try (Connection connection = copy.source().getConnection();
        Statement statement = connection.createStatement()) {
      try (ResultSet rows = statement.executeQuery("PRAGMA integrity_check")) {
        if (!rows.next() || !rows.getString(1).equals("ok")) {
          throw new SQLException("the copy is damaged: " + rows.getString(1));
        }
      }
      // The copy stays one file: no write-ahead log beside it.
      statement.execute("PRAGMA journal_mode = DELETE");
    }
  }

  private static void deleteQuietly(Path part) {
    try {
      for (String more : new String[] {"", "-wal", "-shm", "-journal"}) {
        Files.deleteIfExists(part.resolveSibling(part.getFileName() + more));
      }
    } catch (IOException e) {
      // A leftover beside the target harms nothing and is replaced by the next copy.
    }
  }
}
