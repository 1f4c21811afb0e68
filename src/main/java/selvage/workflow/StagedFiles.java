package selvage.workflow;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import selvage.finding.InputException;

/**
 * Output files that appear all together or not at all: each is written to a temporary file beside
 * its target, and all are moved in place at the end. Closed before that, it leaves nothing behind.
 */
final class StagedFiles implements AutoCloseable {
  private record Staged(Path temporary, Path target) {}

  /** Writes the bytes of one file. */
  interface Content {
    void writeTo(OutputStream out) throws IOException;
  }

  private final List<Staged> staged = new ArrayList<>();

  /**
   * Writes a file aside.
   *
   * @throws InputException where the target's folder can't take it
   */
  void add(Path target, Content content) throws InputException, IOException {
    Path folder = target.toAbsolutePath().getParent();
    if (folder == null || !Files.isDirectory(folder)) {
      throw InputException.of(
          target.toString(), "the folder " + folder + " does not exist; make it first");
    }
    if (Files.isDirectory(target)) {
      throw InputException.of(target.toString(), "expected a file's name, found a folder");
    }
    Path temporary;
    try {
      temporary = Files.createTempFile(folder, "." + target.getFileName(), ".part");
    } catch (IOException e) {
      throw InputException.of(
          target.toString(), "can't be written: " + e.getMessage() + "; check the folder", e);
    }
    staged.add(new Staged(temporary, target));
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(temporary), 1 << 16)) {
      content.writeTo(out);
    }
  }

  /** Writes a text aside, in UTF-8. */
  void add(Path target, String text) throws InputException, IOException {
    add(target, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
  }

  /** Moves all files in place, in the order in which they were added. */
  void publish() throws IOException {
    for (Staged file : staged) {
      allowOthers(file.temporary());
    }
    while (!staged.isEmpty()) {
      Staged file = staged.get(0);
      try {
        Files.move(
            file.temporary(),
            file.target(),
            StandardCopyOption.ATOMIC_MOVE,
            StandardCopyOption.REPLACE_EXISTING);
      } catch (AtomicMoveNotSupportedException e) {
        Files.move(file.temporary(), file.target(), StandardCopyOption.REPLACE_EXISTING);
      }
      staged.remove(0);
    }
  }

  /** Temporary files are the writer's alone; results are for everyone whom the folder admits. */
  private static void allowOthers(Path file) throws IOException {
    if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
      Files.setPosixFilePermissions(
          file, java.nio.file.attribute.PosixFilePermissions.fromString("rw-r--r--"));
    }
  }

  @Override
  public void close() throws IOException {
    for (Staged file : staged) {
      Files.deleteIfExists(file.temporary());
    }
    staged.clear();
  }
}
