package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArrivalsTest {
  private static final long SECOND = 1_000_000_000L;

  @TempDir Path root;
  private Path in;
  private Arrivals arrivals;

  @BeforeEach
  void make() {
    FolderSettings folder = HotFolderFixture.made(root);
    in = folder.places().incoming();
    arrivals = new Arrivals(folder, Kind.JOB, Duration.ofSeconds(2));
  }

  @Test
  void look_fileSeenOnce_waits() throws IOException {
    Files.write(in.resolve("a.pdf"), HotFolderFixture.job(1));
    assertThat(names(0)).isEmpty();
    assertThat(arrivals.hasUnsettled()).isTrue();
    assertThat(names(SECOND)).isEmpty();
    assertThat(names(2 * SECOND)).containsExactly("a.pdf");
    assertThat(arrivals.hasUnsettled()).isFalse();
  }

  @Test
  void look_fileThatGrows_waitsAnew() throws IOException {
    byte[] job = HotFolderFixture.job(1);
    Files.write(in.resolve("a.pdf"), Arrays.copyOf(job, job.length / 2));
    assertThat(names(0)).isEmpty();
    Files.write(in.resolve("a.pdf"), job);
    assertThat(names(3 * SECOND)).isEmpty();
    assertThat(names(5 * SECOND)).containsExactly("a.pdf");
  }

  @Test
  void look_halfACopyThatStandsStill_isTakenOnlyAfterPatience() throws IOException {
    byte[] job = HotFolderFixture.job(1);
    Files.write(in.resolve("a.pdf"), Arrays.copyOf(job, job.length / 2));
    names(0);
    assertThat(names(20 * SECOND)).isEmpty();
    assertThat(names(33 * SECOND)).containsExactly("a.pdf");
  }

  @Test
  void look_clockSetBack_countsSteadyTimeAllTheSame() throws IOException {
    Files.write(in.resolve("a.pdf"), HotFolderFixture.job(1));
    Files.setLastModifiedTime(
        in.resolve("a.pdf"), java.nio.file.attribute.FileTime.fromMillis(4_102_444_800_000L));
    names(0);
    assertThat(names(2 * SECOND)).containsExactly("a.pdf");
  }

  @Test
  void look_copiesUnderWayHiddenFilesAndLinks_arePassedOver() throws IOException {
    byte[] job = HotFolderFixture.job(1);
    Files.createDirectories(in.resolve(".selvage/claims"));
    Files.write(in.resolve(".selvage/claims/x.pdf"), job);
    for (String name : List.of(".a.pdf", "a.pdf.part", "~a.pdf", "a.pdf.filepart", "a.tmp")) {
      Files.write(in.resolve(name), job);
    }
    Files.write(root.resolve("elsewhere.pdf"), job);
    Files.createSymbolicLink(in.resolve("link.pdf"), root.resolve("elsewhere.pdf"));
    names(0);
    assertThat(names(100 * SECOND)).isEmpty();
  }

  @Test
  void look_subFoldersAndOddNames_areFound() throws IOException {
    String odd = "Ö – größe (1) 印刷 '\"$; & .pdf";
    Files.createDirectories(in.resolve("a b/ü"));
    Files.write(in.resolve("a b/ü").resolve(odd), HotFolderFixture.job(1));
    Files.write(in.resolve("x".repeat(251) + ".pdf"), HotFolderFixture.job(2));
    names(0);
    assertThat(names(2 * SECOND))
        .containsExactlyInAnyOrder("a b/ü/" + odd, "x".repeat(251) + ".pdf");
  }

  @Test
  void look_folderAway_saysSoAndKeepsWhatWasSeen() throws IOException {
    Files.write(in.resolve("a.pdf"), HotFolderFixture.job(1));
    names(0);
    Files.move(in, root.resolve("away"));
    assertThatThrownBy(() -> names(SECOND)).isInstanceOf(NoSuchFileException.class);
    Files.move(root.resolve("away"), in);
    assertThat(names(2 * SECOND)).containsExactly("a.pdf");
  }

  private List<String> names(long now) throws IOException {
    return arrivals.look(now).stream().map(Arrival::relative).toList();
  }
}
