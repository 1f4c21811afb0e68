package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.hotfolder.Settlement.Move;

class SettlementTest {
  @TempDir Path root;
  private FolderSettings.Places places;
  private Claim claim;
  private Path stage;
  private List<Move> moves;

  @BeforeEach
  void take() throws Exception {
    FolderSettings folder = HotFolderFixture.made(root);
    places = folder.places();
    Files.write(places.incoming().resolve("a.pdf"), HotFolderFixture.job(1));
    try (ClaimArea area = new ClaimArea(folder, Kind.JOB, Clock.systemUTC())) {
      area.prepare();
      Arrival arrival = new Arrivals(folder, Kind.JOB, Duration.ZERO).look(0).get(0);
      claim = area.take(arrival).orElseThrow();
    }
    stage = Files.createDirectories(claim.stage(places.outgoing()));
    Files.writeString(stage.resolve("a.proof.strips.json"), "strips");
    Files.writeString(stage.resolve("a.proof.pdf"), "proof");
    moves =
        List.of(
            new Move(
                stage.resolve("a.proof.strips.json"),
                places.outgoing().resolve("a.proof.strips.json")),
            new Move(stage.resolve("a.proof.pdf"), places.outgoing().resolve("a.proof.pdf")),
            new Move(claim.file(), places.done().resolve("a.pdf")));
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void moveAll_stoppedAfterAnyMove_comesToTheSame(int done) throws IOException {
    Settlement.decide(claim, "stamped", "", stage, moves);
    for (Move move : moves.subList(0, done)) {
      Files.move(move.from(), move.to());
    }
    Settlement again = Settlement.read(claim);
    again.moveAll();
    again.moveAll();
    again.close();
    assertSettled();
  }

  @Test
  void moveAll_proofFetchedBeforeTheRestart_doesNotMissIt() throws IOException {
    Settlement.decide(claim, "stamped", "", stage, moves).moveAll();
    Files.delete(places.outgoing().resolve("a.proof.pdf"));
    Settlement again = Settlement.read(claim);
    again.moveAll();
    again.close();
    assertThat(places.done().resolve("a.pdf")).exists();
    assertThat(claim.area()).doesNotExist();
  }

  @Test
  void moveAll_stoppedWhileClosing_isFinished() throws IOException {
    Settlement.decide(claim, "stamped", "", stage, moves).moveAll();
    Durable.deleteTree(stage);
    Settlement again = Settlement.read(claim);
    again.moveAll();
    again.close();
    assertSettled();
  }

  @Test
  void moveAll_folderAway_waitsAndMovesLater() throws IOException {
    Settlement settlement = Settlement.decide(claim, "stamped", "", stage, moves);
    Files.move(places.outgoing(), root.resolve("away"));
    assertThatThrownBy(settlement::moveAll).isInstanceOf(NoSuchFileException.class);
    assertThat(places.outgoing()).doesNotExist();
    Files.move(root.resolve("away"), places.outgoing());
    settlement.moveAll();
    settlement.close();
    assertSettled();
  }

  @Test
  void moveAll_nameTakenMeanwhile_replacesNothing() throws IOException {
    Settlement settlement = Settlement.decide(claim, "stamped", "", stage, moves);
    Files.writeString(places.outgoing().resolve("a.proof.pdf"), "somebody's");
    settlement.moveAll();
    assertThat(places.outgoing().resolve("a.proof.pdf")).hasContent("somebody's");
    assertThat(places.outgoing().resolve("a.proof~2.pdf")).hasContent("proof");
  }

  private void assertSettled() {
    assertThat(places.outgoing().resolve("a.proof.strips.json")).hasContent("strips");
    assertThat(places.outgoing().resolve("a.proof.pdf")).hasContent("proof");
    assertThat(places.done().resolve("a.pdf")).hasBinaryContent(HotFolderFixture.job(1));
    assertThat(places.incoming().resolve("a.pdf")).doesNotExist();
    assertThat(claim.area()).doesNotExist();
    assertThat(stage).doesNotExist();
  }
}
