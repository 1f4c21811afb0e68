package selvage.hotfolder;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.stream.Stream;

/** Writing and moving files such that a pulled plug leaves either the old state or the new. */
final class Durable {
  private Durable() {}

  /** Writes a small file whole, and has the disk keep it. */
  static void write(Path file, byte[] bytes) throws IOException {
    Path part = file.resolveSibling("." + file.getFileName() + ".part");
    Files.write(part, bytes);
    force(part);
    Files.move(part, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    forceFolder(file.toAbsolutePath().getParent());
  }

  /** Has the disk keep a file's bytes. */
  static void force(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  /** Has the disk keep a folder's names, where the system can. */
  static void forceFolder(Path folder) throws IOException {
    FileChannel channel;
    try {
      channel = FileChannel.open(folder, StandardOpenOption.READ);
    } catch (NoSuchFileException e) {
      throw e;
    } catch (IOException e) {
      return;
    }
    try (channel) {
      channel.force(true);
    } catch (IOException e) {
      // Some file systems keep names by themselves and refuse the wish.
    }
  }

  /**
   * Moves a file to a name that nobody has, or finds that it was moved before.
   *
   * @param aside a name in a hidden folder of the target's file system, for a copy under way
   * @throws FileAlreadyExistsException where another file has the name; nothing is changed then
   * @throws NoSuchFileException where the file is at neither place
   */
  static void move(Path from, Path to, Path aside) throws IOException {
    if (!Files.exists(from)) {
      if (Files.exists(to)) {
        return;
      }
      throw new NoSuchFileException(from.toString());
    }
    if (Files.exists(to) && Files.mismatch(from, to) < 0) {
      Files.delete(from);
      return;
    }
    if (!isLinked(from, to)) {
      moveOrCopy(from, to, aside);
    }
    Files.deleteIfExists(from);
    forceFolder(to.toAbsolutePath().getParent());
  }

  /**
   * A link can't replace a file; a rename can. So it is tried first. Some file systems have no
   * links (a missing operation), others refuse them or lie apart (a failure of the file system):
   * then the caller moves in another way, and that tells what is really amiss.
   */
  private static boolean isLinked(Path from, Path to) throws IOException {
    try {
      Files.createLink(to, from);
      return true;
    } catch (FileAlreadyExistsException | NoSuchFileException e) {
      throw e;
    } catch (UnsupportedOperationException | FileSystemException e) {
      return false;
    }
  }

  private static void moveOrCopy(Path from, Path to, Path aside) throws IOException {
    if (Files.exists(to)) {
      throw new FileAlreadyExistsException(to.toString());
    }
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.createDirectories(aside.toAbsolutePath().getParent());
      Files.copy(
          from, aside, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.COPY_ATTRIBUTES);
      force(aside);
      move(aside, to, aside.resolveSibling(aside.getFileName() + "-"));
    }
  }

  /** Removes a folder with all that is in it; what is gone already is no fault. */
  static void deleteTree(Path folder) throws IOException {
    if (!Files.exists(folder, java.nio.file.LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    try (Stream<Path> tree = Files.walk(folder)) {
      for (Path path : tree.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(path);
      }
    } catch (NoSuchFileException | java.io.UncheckedIOException e) {
      if (Files.exists(folder)) {
        throw new IOException("can't be emptied: " + folder, e);
      }
    }
  }
}
