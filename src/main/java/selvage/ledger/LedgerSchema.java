package selvage.ledger;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.OptionalInt;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import selvage.finding.InputException;

/** Brings a database to the schema of this program, by Flyway. */
final class LedgerSchema {
  /** The last migration under {@code selvage/ledger/migration}. */
  static final int VERSION = 1;

  private static final int TRIES = 5;
  private static final long PAUSE_MILLIS = 300;

  private final LedgerDatabase database;

  LedgerSchema(LedgerDatabase database) {
    this.database = database;
  }

  /**
   * Migrates where it must.
   *
   * @param mustExist whether a database without a ledger is an error
   * @throws InputException where the database can't be reached or read, belongs to something else,
   *     or was written by a newer program
   */
  void prepare(boolean mustExist) throws InputException {
    FlywayException failure = null;
    for (int i = 0; i < TRIES; i++) {
      OptionalInt version = version();
      if (version.isPresent() && version.getAsInt() > VERSION) {
        throw InputException.of(
            database.name(),
            "expected a ledger of version "
                + VERSION
                + " at most, found version "
                + version.getAsInt()
                + "; use the newer program that wrote it");
      }
      if (version.isPresent() && version.getAsInt() == VERSION) {
        return;
      }
      if (version.isEmpty() && mustExist) {
        throw InputException.of(
            database.name(), "holds no ledger; check the name, or file something in it first");
      }
      try {
        migrate();
        return;
      } catch (FlywayException e) {
        // Another process may be migrating at this moment; then its work is found done.
        failure = e;
        pause();
      }
    }
    throw InputException.of(
        database.name(),
        "can't be made a ledger ("
            + StoredText.firstLine(failure)
            + "); give a database of the ledger's own",
        failure);
  }

  private void migrate() {
    Flyway.configure(LedgerSchema.class.getClassLoader())
        .loggers("slf4j")
        .dataSource(database.source())
        .locations("classpath:selvage/ledger/migration")
        .table("ledger_schema")
        .load()
        .migrate();
  }

  private static void pause() {
    try {
      Thread.sleep(PAUSE_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** The schema's version; empty where there is none yet. */
  private OptionalInt version() throws InputException {
    try (Connection connection = database.source().getConnection();
        Statement statement = connection.createStatement()) {
      if (!hasHistory(connection)) {
        return OptionalInt.empty();
      }
      try (ResultSet rows =
          statement.executeQuery(
              "SELECT MAX(CAST(\"version\" AS INTEGER)) FROM ledger_schema WHERE \"success\"")) {
        int version = rows.next() ? rows.getInt(1) : 0;
        return version == 0 ? OptionalInt.empty() : OptionalInt.of(version);
      }
    } catch (SQLException e) {
      throw InputException.of(database.name(), advice(e), e);
    }
  }

  private static boolean hasHistory(Connection connection) throws SQLException {
    try (ResultSet tables =
        connection
            .getMetaData()
            .getTables(null, connection.getSchema(), "ledger_schema", new String[] {"TABLE"})) {
      return tables.next();
    }
  }

  private String advice(SQLException failure) {
    String found = StoredText.firstLine(failure);
    String word = failure.getMessage() == null ? "" : failure.getMessage();
    if (word.contains("SQLITE_NOTADB") || word.contains("SQLITE_CORRUPT")) {
      return "expected a ledger (SQLite), found a file that is damaged or of another kind ("
          + found
          + "); move it away, and make the ledger anew with ledger rebuild";
    }
    if (word.contains("SQLITE_BUSY") || word.contains("SQLITE_LOCKED")) {
      return "another program keeps it locked (" + found + "); try again when it is done";
    }
    if (database.file().isPresent()) {
      return "can't be used as a ledger ("
          + found
          + "); check the file, its folder and their rights";
    }
    return "can't be reached ("
        + found
        + "); check the server, the database, the user and password";
  }
}
