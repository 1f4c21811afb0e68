package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Watches one folder and its sub-folders for files that are complete: unchanged in size and time
 * between two looks that lie apart as long as is asked, and with the end that files of their kind
 * have. Time is taken from a clock that nobody sets back.
 */
final class Arrivals {
  /** Sub-folders deeper than this are left alone. */
  private static final int DEEPEST = 32;

  /** What was seen of a file, and since when. */
  private record Seen(long bytes, FileTime modified, long sinceNanos, long order, boolean isWhole) {
    Seen whole() {
      return new Seen(bytes, modified, sinceNanos, order, true);
    }

    boolean isOf(BasicFileAttributes now) {
      return bytes == now.size() && modified.equals(now.lastModifiedTime());
    }
  }

  private final FolderSettings folder;
  private final Kind kind;
  private final Duration settle;
  private Map<Path, Seen> seen = new HashMap<>();
  private long nextOrder;
  private boolean unsettled;

  Arrivals(FolderSettings folder, Kind kind, Duration settle) {
    this.folder = folder;
    this.kind = kind;
    this.settle = settle;
  }

  /**
   * Looks once.
   *
   * @param nowNanos of a monotonic clock
   * @return the files that are complete, in the order in which they were first seen
   * @throws IOException where the folder itself can't be read; what was seen is kept
   */
  List<Arrival> look(long nowNanos) throws IOException {
    Path root = folder.drop(kind);
    Map<Path, Seen> now = new HashMap<>();
    List<Arrival> complete = new ArrayList<>();
    Files.walkFileTree(
        root,
        EnumSet.noneOf(java.nio.file.FileVisitOption.class),
        DEEPEST,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path dir, BasicFileAttributes attributes) {
            return !dir.equals(root) && WholeFile.isPassedOver(dir)
                ? FileVisitResult.SKIP_SUBTREE
                : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            if (attributes.isRegularFile() && !WholeFile.isPassedOver(file)) {
              Seen known = lookedInto(file, known(file, attributes, nowNanos), nowNanos);
              now.put(file, known);
              if (isComplete(known, nowNanos)) {
                complete.add(arrival(root, file, known));
              }
            }
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFileFailed(Path file, IOException e) throws IOException {
            if (file.equals(root)) {
              throw e;
            }
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path dir, IOException e) throws IOException {
            if (e != null && dir.equals(root)) {
              throw e;
            }
            return FileVisitResult.CONTINUE;
          }
        });
    seen = now;
    unsettled = now.size() > complete.size();
    complete.sort(java.util.Comparator.comparingLong(Arrival::order));
    return complete;
  }

  /** Whether the last look saw files that may be under way. */
  boolean hasUnsettled() {
    return unsettled;
  }

  private Seen known(Path file, BasicFileAttributes attributes, long nowNanos) {
    Seen before = seen.get(file);
    return before != null && before.isOf(attributes)
        ? before
        : new Seen(
            attributes.size(),
            attributes.lastModifiedTime(),
            nowNanos,
            before == null ? nextOrder++ : before.order(),
            false);
  }

  private static Duration steady(Seen known, long nowNanos) {
    return Duration.ofNanos(nowNanos - known.sinceNanos());
  }

  /** A file's end is read once, when it has been steady for long enough. */
  private Seen lookedInto(Path file, Seen known, long nowNanos) {
    if (known.isWhole() || steady(known, nowNanos).compareTo(settle) < 0) {
      return known;
    }
    try {
      return WholeFile.of(file) == WholeFile.Look.WHOLE ? known.whole() : known;
    } catch (IOException e) {
      return known;
    }
  }

  private boolean isComplete(Seen known, long nowNanos) {
    Duration steady = steady(known, nowNanos);
    return steady.compareTo(settle) >= 0
        && (known.isWhole() || steady.compareTo(settle.plus(WatchSettings.PATIENCE)) >= 0);
  }

  private Arrival arrival(Path root, Path file, Seen known) {
    StringBuilder relative = new StringBuilder();
    for (Path part : root.relativize(file)) {
      relative.append(relative.length() == 0 ? "" : "/").append(part);
    }
    return new Arrival(
        folder, kind, file, relative.toString(), known.bytes(), known.modified(), known.order());
  }
}
