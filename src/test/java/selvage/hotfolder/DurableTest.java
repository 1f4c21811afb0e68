package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class DurableTest {
  @TempDir Path folder;

  @Test
  void move_freeName_movesTheFile() throws IOException {
    Path from = Files.writeString(folder.resolve("a"), "x");
    move(from, folder.resolve("b"));
    assertThat(folder.resolve("b")).hasContent("x");
    assertThat(from).doesNotExist();
  }

  @Test
  void move_nameTakenByAnother_changesNothing() throws IOException {
    Path from = Files.writeString(folder.resolve("a"), "ours");
    Path to = Files.writeString(folder.resolve("b"), "theirs");
    assertThatThrownBy(() -> move(from, to)).isInstanceOf(FileAlreadyExistsException.class);
    assertThat(to).hasContent("theirs");
    assertThat(from).hasContent("ours");
  }

  @Test
  void move_interruptedBetweenLinkAndDelete_isFinished() throws IOException {
    Path from = Files.writeString(folder.resolve("a"), "x");
    Path to = folder.resolve("b");
    Files.createLink(to, from);
    move(from, to);
    assertThat(to).hasContent("x");
    assertThat(from).doesNotExist();
  }

  @Test
  void move_doneBefore_isNoFault() throws IOException {
    Path to = Files.writeString(folder.resolve("b"), "x");
    move(folder.resolve("a"), to);
    assertThat(to).hasContent("x");
  }

  @Test
  void move_fileNowhere_isAFault() {
    assertThatThrownBy(() -> move(folder.resolve("a"), folder.resolve("b")))
        .isInstanceOf(NoSuchFileException.class);
  }

  @Test
  void write_overAnOldFile_leavesOnlyTheNew() throws IOException {
    Path file = Files.writeString(folder.resolve("a"), "old");
    Durable.write(file, new byte[] {'n'});
    assertThat(file).hasContent("n");
    try (var files = Files.list(folder)) {
      assertThat(files).containsExactly(file);
    }
  }

  private void move(Path from, Path to) throws IOException {
    Durable.move(from, to, folder.resolve("aside"));
  }
}
