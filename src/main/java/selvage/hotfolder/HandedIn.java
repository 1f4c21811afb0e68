package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.UUID;

/** Jobs that are not dropped by people but handed in by programs. */
public final class HandedIn {
  private static final int MOST_TRIES = 1000;

  private HandedIn() {}

  /** Whether a watcher takes files of this name; others are to it copies under way. */
  public static boolean isSeen(String name) {
    return !WholeFile.isPassedOver(Path.of(name));
  }

  /**
   * Puts a copy of a file into a hot folder's incoming folder, whole from the first moment on.
   * Nothing is replaced: where the name is taken the copy gets {@code -2}, {@code -3} and so on.
   *
   * @param name the file's own, no path, not beginning with a dot
   * @return the name that it has there
   * @throws IOException where the folder is away or can't be written
   */
  public static String put(FolderSettings folder, String name, Path file) throws IOException {
    if (name.isBlank() || name.startsWith(".") || name.contains("/") || name.contains("\\")) {
      throw new IllegalArgumentException("no name for a file in a hot folder: " + name);
    }
    Path incoming = folder.places().incoming();
    // A copy under way is hidden from the watcher by its first letter.
    Path aside = incoming.resolve("." + UUID.randomUUID() + ".part");
    String stem = Names.shortened(Names.stem(name));
    try {
      Files.copy(file, aside, StandardCopyOption.REPLACE_EXISTING);
      for (int n = 1; n <= MOST_TRIES; n++) {
        String free = (n == 1 ? stem : stem + "-" + n) + Names.ending(name);
        try {
          Durable.move(aside, incoming.resolve(free), incoming.resolve("." + UUID.randomUUID()));
          return free;
        } catch (FileAlreadyExistsException e) {
          // The next number, then.
        }
      }
    } finally {
      Files.deleteIfExists(aside);
    }
    throw new FileAlreadyExistsException(incoming.resolve(name).toString());
  }
}
