package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.function.Predicate;

/**
 * Removes files from the done folder that have lain there longer than the settings say. A file's
 * age counts from its last change or from its coming there, whichever is later.
 */
final class Retention {
  private Retention() {}

  /**
   * Removes what is old.
   *
   * @return how many
   * @throws IOException where the folder can't be read or a file can't be removed
   */
  static int sweep(Path done, Duration keep, Instant now) throws IOException {
    int[] removed = {0};
    FileTime limit = FileTime.from(now.minus(keep));
    Files.walkFileTree(
        done,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path dir, BasicFileAttributes attributes) {
            return dir.endsWith(ClaimArea.HIDDEN)
                ? FileVisitResult.SKIP_SUBTREE
                : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
              throws IOException {
            if (attributes.isRegularFile() && came(file, attributes).compareTo(limit) < 0) {
              Files.delete(file);
              removed[0]++;
            }
            return FileVisitResult.CONTINUE;
          }
        });
    return removed[0];
  }

  /**
   * Removes what claims that are no more left in a hidden folder: nothing else puts folders of such
   * names there.
   *
   * @param place the outgoing or the refused folder
   * @param isOld whether a folder's time of change is long past
   */
  static void clear(Path place, Predicate<FileTime> isOld) throws IOException {
    Path hidden = place.resolve(ClaimArea.HIDDEN);
    if (!Files.isDirectory(hidden)) {
      return;
    }
    try (DirectoryStream<Path> stages = Files.newDirectoryStream(hidden)) {
      for (Path stage : stages) {
        if (String.valueOf(stage.getFileName()).matches("[0-9a-f]{32}")
            && isOld.test(Files.getLastModifiedTime(stage))) {
          Durable.deleteTree(stage);
        }
      }
    }
  }

  /** On systems that tell of it, the time at which the name was given. */
  private static FileTime came(Path file, BasicFileAttributes attributes) throws IOException {
    FileTime changed = attributes.lastModifiedTime();
    if (file.getFileSystem().supportedFileAttributeViews().contains("unix")) {
      FileTime renamed = (FileTime) Files.getAttribute(file, "unix:ctime");
      return renamed.compareTo(changed) > 0 ? renamed : changed;
    }
    return changed;
  }
}
