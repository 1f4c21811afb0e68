package selvage.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import selvage.finding.InputException;

/** On a real server, whose address the environment gives; each ledger is a schema of its own. */
class PostgresLedgerTest extends LedgerContract {
  private static final String VARIABLE = "SELVAGE_TEST_POSTGRESQL";

  private final String server = System.getenv(VARIABLE);
  private final String prefix = "t" + ProcessHandle.current().pid() + "_" + System.nanoTime();
  private final TreeSet<String> made = new TreeSet<>();

  @BeforeEach
  void requireServer() {
    assumeTrue(server != null, "no PostgreSQL server: " + VARIABLE + " gives no JDBC URL");
  }

  @AfterEach
  void removeSchemas() throws SQLException {
    for (String schema : made) {
      sql("DROP SCHEMA " + schema + " CASCADE");
    }
  }

  @Override
  String url(String name) throws SQLException {
    String schema = prefix + "_" + name;
    if (made.add(schema)) {
      sql("CREATE SCHEMA " + schema);
    }
    return server
        + (server.contains("?") ? "&" : "?")
        + "currentSchema="
        + schema
        + "&ApplicationName="
        + schema;
  }

  @Test
  void open_wrongPassword_isRefusedWithoutTellingIt() {
    String wrong = server.replaceAll("password=[^&]*", "password=not-this-one");
    assumeTrue(!wrong.equals(server), "the server asks for no password");

    assertThatThrownBy(() -> Ledger.open(wrong))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("check the server")
        .hasMessageNotContaining("not-this-one");
  }

  @Test
  void open_noServer_isRefused() {
    assertThatThrownBy(() -> Ledger.open("jdbc:postgresql://127.0.0.1:1/none?user=nobody"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("can't be reached");
  }

  @Test
  void dump_ofTheSameFiles_isThatOfSqlite() throws Exception {
    fileSeason();
    try (Ledger here = Ledger.open(url("a"));
        Ledger there = Ledger.open(folder.resolve("a.db").toString())) {
      new LedgerRebuild(there, List.of(folder.resolve("shop"))).run();
      here.calibrations().forEach(there::calibrate);
      assertThat(dump(there)).isEqualTo(dump(here)).contains("AAAA-0001", "after new inks");
    }
  }

  @Test
  void backup_ofAServer_namesItsTool() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      assertThatThrownBy(() -> ledger.backup(folder.resolve("copy")))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("pg_dump");
    }
  }

  @Test
  void fileJob_afterTheConnectionWasCut_worksAgain() throws Exception {
    try (Ledger ledger = Ledger.open(url("a"))) {
      ledger.fileJob(LedgerFixture.refused(1, "a.pdf", "no"), Optional.empty());
      sql(
          "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
              + " WHERE application_name = '"
              + made.first()
              + "'");
      assertThatThrownBy(
              () -> ledger.fileJob(LedgerFixture.refused(2, "b.pdf", "no"), Optional.empty()))
          .isInstanceOf(LedgerException.class);

      ledger.fileJob(LedgerFixture.refused(2, "b.pdf", "no"), Optional.empty());
      assertThat(ledger.count().jobs()).isEqualTo(2);
    }
  }

  private void sql(String text) throws SQLException {
    try (Connection connection = DriverManager.getConnection(server);
        Statement statement = connection.createStatement()) {
      statement.execute(text);
    }
  }
}
