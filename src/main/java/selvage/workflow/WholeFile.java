package selvage.workflow;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import selvage.finding.InputException;

/** Files that appear whole or not at all. */
public final class WholeFile {
  private WholeFile() {}

  /**
   * Writes a file beside its place and moves it there; a file of that name is replaced.
   *
   * @throws InputException where the folder does not exist or can't be written
   */
  public static void write(Path target, byte[] bytes) throws InputException {
    Path place = target.toAbsolutePath();
    if (Files.isDirectory(place)) {
      throw InputException.of(target.toString(), "expected a file's name, found a folder");
    }
    Path part = place.resolveSibling("." + place.getFileName() + "." + UUID.randomUUID() + ".part");
    try {
      Files.write(part, bytes, StandardOpenOption.CREATE_NEW);
      move(part, place);
    } catch (NoSuchFileException e) {
      throw InputException.of(target.toString(), "its folder does not exist; make it first", e);
    } catch (IOException e) {
      throw InputException.of(target.toString(), "can't be written: " + e.getMessage(), e);
    } finally {
      deleteQuietly(part);
    }
  }

  private static void move(Path part, Path place) throws IOException {
    try {
      Files.move(part, place, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(part, place, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static void deleteQuietly(Path part) {
    try {
      Files.deleteIfExists(part);
    } catch (IOException e) {
      // The result stands, or the failure that led here is the one to tell.
    }
  }
}
