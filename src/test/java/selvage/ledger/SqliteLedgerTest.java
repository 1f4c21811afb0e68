package selvage.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import selvage.finding.InputException;

class SqliteLedgerTest extends LedgerContract {
  @Override
  String url(String name) {
    return folder.resolve(name + ".db").toString();
  }

  @Test
  void open_fileOfAnotherKind_isRefusedAndLeftAlone() throws Exception {
    Path file = folder.resolve("a.db");
    byte[] bytes =
        "no database at all, but long enough for one ".repeat(99).getBytes(StandardCharsets.UTF_8);
    Files.write(file, bytes);

    assertThatThrownBy(() -> Ledger.open(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("a.db")
        .hasMessageContaining("ledger rebuild");
    assertThat(file).hasBinaryContent(bytes);
  }

  @Test
  void open_databaseOfSomethingElse_isRefused() throws Exception {
    sql(folder.resolve("a.db"), "CREATE TABLE recipes (id TEXT)");

    assertThatThrownBy(() -> Ledger.open(url("a")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("a database of the ledger's own");
  }

  @Test
  void open_writtenByANewerProgram_isRefused() throws Exception {
    Ledger.open(url("a")).close();
    sql(
        folder.resolve("a.db"),
        "INSERT INTO ledger_schema (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success)"
            + " VALUES (99, '99', 'later', 'SQL', 'V99__later.sql', '', 1, 1)");

    assertThatThrownBy(() -> Ledger.open(url("a")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("found version 99");
  }

  @Test
  void open_folderOrPlaceThatIsNotThere_isRefused() {
    assertThatThrownBy(() -> Ledger.open(folder.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("found a folder");
    assertThatThrownBy(() -> Ledger.open(folder.resolve("no/where.db").toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("does not exist");
    assertThatThrownBy(() -> Ledger.openExisting(folder.resolve("none.db").toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("no such ledger");
    assertThatThrownBy(() -> Ledger.open("jdbc:other://host/db?password=secret"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("jdbc:sqlite:")
        .hasMessageNotContaining("secret");
  }

  @Test
  void open_byUrlAndByPath_areTheSame() throws Exception {
    try (Ledger ledger = Ledger.open("jdbc:sqlite:" + url("a"))) {
      ledger.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
    }
    try (Ledger ledger = Ledger.open(url("a"))) {
      assertThat(ledger.count().jobs()).isEqualTo(1);
    }
  }

  @Test
  void connections_ofALedger_writeAheadAndSyncFully() throws Exception {
    Ledger.open(url("a")).close();
    try (Connection connection = LedgerDatabase.of(url("a")).source().getConnection();
        Statement statement = connection.createStatement()) {
      assertThat(answer(statement, "PRAGMA journal_mode")).isEqualTo("wal");
      assertThat(answer(statement, "PRAGMA synchronous")).isEqualTo("2");
      assertThat(answer(statement, "PRAGMA foreign_keys")).isEqualTo("1");
    }
  }

  @Test
  void backup_whileAWriterWrites_isAWholeLedger() throws Exception {
    ExecutorService threads = Executors.newSingleThreadExecutor();
    AtomicBoolean done = new AtomicBoolean();
    try (Ledger ledger = Ledger.open(url("a"))) {
      Future<Integer> writer =
          threads.submit(
              () -> {
                int n = 0;
                while (!done.get()) {
                  n++;
                  ledger.fileJob(
                      LedgerFixture.stamped(n, n + ".pdf"),
                      Optional.of(LedgerFixture.strips("Proofer 1", "AAAA-0001", "AAAA-0002")));
                }
                return n;
              });
      while (ledger.count().jobs() < 20) {
        Thread.sleep(5);
      }
      long before = ledger.count().jobs();
      ledger.backup(folder.resolve("copy.db"));
      long after = ledger.count().jobs();
      done.set(true);
      assertThat(writer.get()).isGreaterThan((int) before);

      try (Ledger copy = Ledger.openExisting(folder.resolve("copy.db").toString())) {
        Ledger.Count count = copy.count();
        assertThat(count.jobs()).isBetween(before, after + 1);
        assertThat(count.strips()).isEqualTo(2 * count.jobs());
      }
      assertThatThrownBy(() -> ledger.backup(folder.resolve("copy.db")))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("is there already");
    } finally {
      done.set(true);
      threads.shutdownNow();
    }
    assertThat(folder).isDirectoryNotContaining("glob:**.part*");
  }

  @Test
  void fileJob_afterTheDatabaseFailed_worksAgain() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      ledger.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
      sql(folder.resolve("a.db"), "ALTER TABLE job RENAME TO hidden");
      assertThatThrownBy(
              () -> ledger.fileJob(LedgerFixture.refused(2, "b.pdf", "no"), Optional.empty()))
          .isInstanceOf(LedgerException.class)
          .hasMessageContaining("a.db");
      sql(folder.resolve("a.db"), "ALTER TABLE hidden RENAME TO job");

      ledger.fileJob(LedgerFixture.refused(2, "b.pdf", "no"), Optional.empty());
      assertThat(ledger.count().jobs()).isEqualTo(2);
    }
  }

  private static String answer(Statement statement, String question) throws Exception {
    try (var rows = statement.executeQuery(question)) {
      assertThat(rows.next()).isTrue();
      return rows.getString(1);
    }
  }

  private static void sql(Path file, String text) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute(text);
    }
  }
}
