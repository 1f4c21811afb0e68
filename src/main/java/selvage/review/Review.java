package selvage.review;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import selvage.finding.InputException;

/**
 * A job under review. Its folder holds the job's file and {@code changes.jsonl}, a line a change,
 * which is only ever written on to: what stands in it is the review. Safe for use by many threads.
 */
public final class Review {
  static final String CHANGES = "changes.jsonl";
  private static final String FILE = "file";

  private final String id;
  private final String folder;
  private final Path area;
  private final Path job;
  private final List<Change> changes = new ArrayList<>();
  private final Deque<Map<Integer, PageChoice>> past = new ArrayDeque<>();
  private final Deque<Map<Integer, PageChoice>> undone = new ArrayDeque<>();
  private Map<Integer, PageChoice> choices = Map.of();

  private Review(String id, String folder, Path area, Path job) {
    this.id = id;
    this.folder = folder;
    this.area = area;
    this.job = job;
  }

  /**
   * Begins a review of a file, which is moved into the review's folder.
   *
   * @param name the job's file name, without folders
   * @param folder the hot folder whose ways it is to be stamped in
   */
  static Review begin(Path area, String name, String folder, Path file, String who, Instant time)
      throws IOException {
    String id = String.valueOf(area.getFileName());
    Path job = area.resolve(FILE).resolve(name);
    Files.createDirectories(area.resolve(FILE));
    Files.writeString(area.resolve("folder"), folder);
    Files.move(file, job);
    Review review = new Review(id, folder, area, job);
    review.append(new Change(time, who, Change.Kind.RECEIVED, 0, "took in " + name, Map.of()));
    return review;
  }

  /**
   * Reads a review.
   *
   * @throws InputException where the folder holds none
   */
  static Review read(Path area) throws InputException, IOException {
    String id = String.valueOf(area.getFileName());
    Path file = area.resolve(CHANGES);
    try (var inside = Files.newDirectoryStream(area.resolve(FILE))) {
      var files = inside.iterator();
      if (!files.hasNext()) {
        throw InputException.of(area.toString(), "expected a job's file, found none");
      }
      Review review = new Review(id, Files.readString(area.resolve("folder")), area, files.next());
      int number = 0;
      for (String line : whole(file)) {
        number++;
        if (!line.isBlank()) {
          review.take(ReviewJson.read(file + ":" + number, line));
        }
      }
      return review;
    }
  }

  /** The whole lines of a file; a last one that was cut off is removed, since it never counted. */
  private static List<String> whole(Path file) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    int end = bytes.length;
    while (end > 0 && bytes[end - 1] != '\n') {
      end--;
    }
    if (end < bytes.length) {
      try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
        channel.truncate(end);
      }
    }
    return new String(bytes, 0, end, StandardCharsets.UTF_8).lines().toList();
  }

  public String id() {
    return id;
  }

  /** The hot folder whose ways it is stamped in. */
  public String folder() {
    return folder;
  }

  /** The job's file. */
  Path job() {
    return job;
  }

  Path area() {
    return area;
  }

  /** The job's file name. */
  public String name() {
    return String.valueOf(job.getFileName());
  }

  /** All changes, the first first. */
  public synchronized List<Change> changes() {
    return List.copyOf(changes);
  }

  /** How many changes there are; a change is made on what was seen. */
  public synchronized int version() {
    return changes.size();
  }

  /** When it came. */
  public synchronized Instant received() {
    return changes.isEmpty() ? Instant.EPOCH : changes.get(0).time();
  }

  /** The change by which it was approved; empty while it is open. */
  public synchronized Optional<Change> approval() {
    Change last = changes.isEmpty() ? null : changes.get(changes.size() - 1);
    return last != null && last.kind() == Change.Kind.APPROVED
        ? Optional.of(last)
        : Optional.empty();
  }

  /** The sets that were changed, by the page that bears the strip. */
  public synchronized Map<Integer, PageChoice> choices() {
    return choices;
  }

  public synchronized boolean canUndo() {
    return !past.isEmpty() && approval().isEmpty();
  }

  public synchronized boolean canRedo() {
    return !undone.isEmpty() && approval().isEmpty();
  }

  /**
   * Changes the set of one strip.
   *
   * @param seen the version that the change was made on
   * @throws StaleException where somebody else changed the review meanwhile
   */
  synchronized void change(
      int seen, String who, Instant time, Change.Kind kind, int page, String text, PageChoice made)
      throws StaleException, IOException {
    checkOpen(seen);
    Map<Integer, PageChoice> next = new TreeMap<>(choices);
    if (made == null) {
      next.remove(page);
    } else {
      next.put(page, made);
    }
    append(new Change(time, who, kind, page, text, next));
  }

  synchronized void undo(int seen, String who, Instant time) throws StaleException, IOException {
    checkOpen(seen);
    if (!past.isEmpty()) {
      append(
          new Change(time, who, Change.Kind.UNDONE, 0, "took the last change back", past.peek()));
    }
  }

  synchronized void redo(int seen, String who, Instant time) throws StaleException, IOException {
    checkOpen(seen);
    if (!undone.isEmpty()) {
      append(new Change(time, who, Change.Kind.REDONE, 0, "made the change again", undone.peek()));
    }
  }

  synchronized void approve(String who, Instant time, String text) throws IOException {
    append(new Change(time, who, Change.Kind.APPROVED, 0, text, choices));
  }

  synchronized void checkOpen(int seen) throws StaleException {
    if (seen != changes.size() || approval().isPresent()) {
      throw new StaleException();
    }
  }

  /** The line is on the disk before the change counts. */
  private void append(Change change) throws IOException {
    byte[] line = (ReviewJson.line(change) + "\n").getBytes(StandardCharsets.UTF_8);
    try (FileChannel file =
        FileChannel.open(
            area.resolve(CHANGES),
            StandardOpenOption.CREATE,
            StandardOpenOption.WRITE,
            StandardOpenOption.APPEND)) {
      ByteBuffer bytes = ByteBuffer.wrap(line);
      while (bytes.hasRemaining()) {
        file.write(bytes);
      }
      file.force(false);
    }
    take(change);
  }

  private void take(Change change) {
    changes.add(change);
    if (change.kind().isOfSet()) {
      past.push(choices);
      undone.clear();
    } else if (change.kind() == Change.Kind.UNDONE && !past.isEmpty()) {
      past.pop();
      undone.push(choices);
    } else if (change.kind() == Change.Kind.REDONE && !undone.isEmpty()) {
      undone.pop();
      past.push(choices);
    }
    choices = change.choices();
  }

  /** Thrown where a review is no longer what a change was made on. */
  public static final class StaleException extends Exception {
    private static final long serialVersionUID = 1L;

    StaleException() {
      super("Somebody has changed or approved this job meanwhile. Load the page again.");
    }
  }
}
