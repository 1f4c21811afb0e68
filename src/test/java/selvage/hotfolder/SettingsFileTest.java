package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.finding.InputException;
import selvage.strip.StripLabel;

class SettingsFileTest {
  private static final String FOLDER =
      """
      [[folder]]
      name = "house"
      incoming = "in"
      outgoing = "out"
      refused = "refused"
      done = "done"
      """;

  @TempDir Path root;

  @Test
  void read_onlyWhatIsNeeded_hasTheDefaults() throws Exception {
    WatchSettings settings = read(FOLDER);
    FolderSettings folder = settings.folders().get(0);
    assertThat(folder.places().incoming()).isEqualTo(root.resolve("in"));
    assertThat(folder.places().measured()).isEmpty();
    assertThat(folder.stamping().patches()).isEqualTo(24);
    assertThat(folder.stamping().standard()).isEqualTo("full");
    assertThat(folder.stamping().condition()).isEmpty();
    assertThat(folder.tolerance()).isEqualTo("iso-12647-7-2016");
    assertThat(folder.timeLimit()).isEqualTo(Duration.ofMinutes(10));
    assertThat(folder.keepDone()).isEmpty();
    assertThat(settings.ledger()).isEqualTo(root.resolve("selvage.db").toString());
    assertThat(settings.port()).isEmpty();
    assertThat(settings.settle()).isEqualTo(Duration.ofSeconds(2));
  }

  @Test
  void read_everything_isTakenAsItIsSaid() throws Exception {
    WatchSettings settings =
        read(
            "ledger = \"jdbc:postgresql://localhost/proofs\"\n"
                + "workers = 3\nworker_memory_mb = 300\nport = 9464\n"
                + "poll_seconds = 0.5\nsettle_seconds = 1\n"
                + FOLDER
                + "measured = \"measured\"\ncondition = \"FOGRA39\"\nstandard = \"basic\"\n"
                + "patches = \"auto\"\nreader = \"xy-table\"\nedge = \"left\"\nper = \"job\"\n"
                + "dpi = 100\nsubstrate = \"semi-matt 250\"\ntime_limit_seconds = 30\n"
                + "keep_done_days = 1.5\n");
    FolderSettings folder = settings.folders().get(0);
    assertThat(settings.ledger()).isEqualTo("jdbc:postgresql://localhost/proofs");
    assertThat(settings.workers()).isEqualTo(3);
    assertThat(settings.workerMegabytes()).isEqualTo(300);
    assertThat(settings.port()).hasValue(9464);
    assertThat(settings.poll()).isEqualTo(Duration.ofMillis(500));
    assertThat(folder.stamping().patches()).isZero();
    assertThat(folder.stamping().perJob()).isTrue();
    assertThat(folder.stamping().edge()).isEqualTo("left");
    assertThat(folder.stamping().label())
        .contains(new StripLabel.Item("Substrate", "semi-matt 250"));
    assertThat(folder.keepDone()).contains(Duration.ofHours(36));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "patchs = 3|7|patchs: is no setting of a folder; expected one of condition,",
        "patches = 900|7|patches: expected a number from 1 to 200, found 900",
        "patches = 2.5|7|patches: expected a whole number, found 2.5",
        "patches = @many@|7|patches: expected one of auto, found \"many\"",
        "edge = @middle@|7|edge: expected one of auto, top, right, bottom, left, found \"middle\"",
        "substrate = 7|7|substrate: expected a text in quotation marks, found 7",
        "spots = @a.txt@|7|spots: expected a list of files such as [\"spots.txt\"]",
        "dpi = 1|7|dpi: expected a number from 18 to 1200, found 1",
        "name = @twice@|7|TOML"
      })
  void read_wrongSetting_isRefusedWithItsLine(String line, int at, String message) {
    assertThatThrownBy(() -> read(FOLDER + line.replace('@', '"') + "\n"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("hot.toml:" + at + ": " + message);
  }

  @Test
  void read_folderWithoutAPlace_isRefusedWithTheFoldersLine() {
    assertThatThrownBy(() -> read("workers = 2\n\n" + FOLDER.replace("done = \"done\"\n", "")))
        .hasMessageContaining("hot.toml:3: done: is needed");
  }

  @Test
  void read_noFolder_isRefused() {
    assertThatThrownBy(() -> read("workers = 2\n")).hasMessageContaining("[[folder]]");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"out\"|\"in/out\"|lies within",
        "\"in\"|\".\"|lies within",
        "\"done\"|\"out\"|is both outgoing and done"
      })
  void read_foldersThatWouldGoRound_areRefused(String from, String to, String message) {
    assertThatThrownBy(() -> read(FOLDER.replace(from, to)))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(message);
  }

  @Test
  void read_twoFoldersWithOneIncoming_areRefused() {
    assertThatThrownBy(() -> read(FOLDER + FOLDER.replace("house", "other")))
        .hasMessageContaining("is both incoming of house and incoming of other");
  }

  @Test
  void read_unknownCondition_isRefusedBeforeAnyJobIs() {
    assertThatThrownBy(() -> read(FOLDER + "condition = \"nowhere\"\n"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("nowhere");
  }

  private WatchSettings read(String text) throws InputException, IOException {
    return SettingsFile.read(Files.writeString(root.resolve("hot.toml"), text));
  }
}
