package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;

class ClaimAreaTest {
  @TempDir Path root;
  private FolderSettings folder;
  private Path in;

  @BeforeEach
  void make() {
    folder = HotFolderFixture.made(root);
    in = folder.places().incoming();
  }

  @Test
  void take_file_liesInTheClaimAndNoLongerInTheFolder() throws Exception {
    try (ClaimArea area = area()) {
      Claim claim = area.take(arrival("sub/a.pdf")).orElseThrow();
      assertThat(in.resolve("sub/a.pdf")).doesNotExist();
      assertThat(claim.file()).hasBinaryContent(HotFolderFixture.job(1));
      assertThat(claim.relative()).isEqualTo("sub/a.pdf");
    }
  }

  @Test
  void take_fileGone_takesNothingAndLeavesNothing() throws Exception {
    try (ClaimArea area = area()) {
      Arrival arrival = arrival("a.pdf");
      Files.delete(arrival.file());
      assertThat(area.take(arrival)).isEmpty();
      assertThat(area.left()).isEmpty();
      assertThat(in.resolve(".selvage/claims")).isEmptyDirectory();
    }
  }

  @Test
  void take_fileChangedSinceSeen_goesBack() throws Exception {
    try (ClaimArea area = area()) {
      Arrival arrival = arrival("a.pdf");
      Files.writeString(arrival.file(), "longer than before, and still growing".repeat(100));
      assertThat(area.take(arrival)).isEmpty();
      assertThat(arrival.file()).exists();
    }
  }

  @Test
  void take_fileOpenForWriting_isLeft() throws Exception {
    Assumptions.assumeTrue(
        Files.isDirectory(Path.of("/proc/self/fd")), "this system does not tell of open files");
    try (ClaimArea area = area()) {
      Arrival arrival = arrival("a.pdf");
      try (OutputStream out =
          Files.newOutputStream(arrival.file(), java.nio.file.StandardOpenOption.APPEND)) {
        out.write(new byte[0]);
        assertThat(area.take(arrival)).isEmpty();
      }
      assertThat(area.take(arrival)).isPresent();
    }
  }

  @Test
  void prepare_folderWatchedByAnother_isRefused() throws Exception {
    try (ClaimArea area = area();
        ClaimArea other = new ClaimArea(folder, Kind.JOB, Clock.systemUTC())) {
      assertThat(area).isNotNull();
      assertThatThrownBy(other::prepare)
          .isInstanceOf(InputException.class)
          .hasMessageContaining("watched by another program");
    }
  }

  @Test
  void left_afterAStop_findsWhatWasTakenOnce() throws Exception {
    try (ClaimArea area = area()) {
      assertThat(area.take(arrival("a.pdf"))).isPresent();
      assertThat(area.left()).isEmpty();
    }
    try (ClaimArea area = area()) {
      assertThat(area.left()).extracting(Claim::relative).containsExactly("a.pdf");
      assertThat(area.left()).isEmpty();
    }
  }

  @Test
  void left_stoppedBetweenNoteAndRename_removesTheEmptyClaim() throws Exception {
    try (ClaimArea area = area()) {
      Claim claim = area.take(arrival("a.pdf")).orElseThrow();
      Files.move(claim.file(), in.resolve("a.pdf"));
    }
    try (ClaimArea area = area()) {
      assertThat(area.left()).isEmpty();
      assertThat(in.resolve(".selvage/claims")).isEmptyDirectory();
      assertThat(in.resolve("a.pdf")).exists();
    }
  }

  @Test
  void left_noteDamaged_givesTheFileBack() throws Exception {
    try (ClaimArea area = area()) {
      Claim claim = area.take(arrival("a.pdf")).orElseThrow();
      Files.writeString(claim.area().resolve("claim.json"), "{");
    }
    try (ClaimArea area = area()) {
      assertThat(area.left()).isEmpty();
      assertThat(in.resolve("a.pdf")).hasBinaryContent(HotFolderFixture.job(1));
    }
  }

  @Test
  void giveBack_placeTaken_keepsBoth() throws Exception {
    try (ClaimArea area = area()) {
      Claim claim = area.take(arrival("a.pdf")).orElseThrow();
      Files.writeString(in.resolve("a.pdf"), "another");
      assertThat(area.giveBack(claim)).isFalse();
      assertThat(in.resolve("a.pdf")).hasContent("another");
      assertThat(area.left()).extracting(Claim::relative).isEqualTo(List.of("a.pdf"));
    }
  }

  private ClaimArea area() throws Exception {
    ClaimArea area = new ClaimArea(folder, Kind.JOB, Clock.systemUTC());
    area.prepare();
    return area;
  }

  private Arrival arrival(String name) throws IOException {
    Files.createDirectories(in.resolve(name).getParent());
    Files.write(in.resolve(name), HotFolderFixture.job(1));
    Arrivals arrivals = new Arrivals(folder, Kind.JOB, Duration.ZERO);
    return arrivals.look(0).get(0);
  }
}
