package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RetentionTest {
  @TempDir Path done;

  @Test
  void sweep_afterTheTime_removesFilesAndNothingHidden() throws IOException {
    Files.createDirectories(done.resolve("sub"));
    Files.createDirectories(done.resolve(".selvage"));
    Path old = Files.writeString(done.resolve("sub/old.pdf"), "x");
    Path hidden = Files.writeString(done.resolve(".selvage/copy"), "x");
    Instant later = Instant.now().plus(Duration.ofDays(8));
    assertThat(Retention.sweep(done, Duration.ofDays(7), later)).isEqualTo(1);
    assertThat(old).doesNotExist();
    assertThat(hidden).exists();
  }

  @Test
  void sweep_oldFileThatCameToday_isKept() throws IOException {
    Path file = Files.writeString(done.resolve("a.pdf"), "x");
    Files.setLastModifiedTime(file, FileTime.from(Instant.now().minus(Duration.ofDays(100))));
    assertThat(Retention.sweep(done, Duration.ofDays(7), Instant.now())).isZero();
    assertThat(file).exists();
  }

  @Test
  void clear_oldRemains_removesOnlyFoldersNamedAsClaims() throws IOException {
    Path stage = Files.createDirectories(done.resolve(".selvage/" + "0123456789abcdef".repeat(2)));
    Path other = Files.createDirectories(done.resolve(".selvage/claims"));
    Files.writeString(stage.resolve("half.pdf"), "x");
    Retention.clear(done, time -> false);
    assertThat(stage).exists();
    Retention.clear(done, time -> true);
    assertThat(stage).doesNotExist();
    assertThat(other).exists();
  }
}
