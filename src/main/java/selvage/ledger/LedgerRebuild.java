package selvage.ledger;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.JdbiException;
import selvage.finding.InputException;

/**
 * Makes a ledger anew from the files in folders: every {@code NAME.job.json} with the strips file
 * that it names, and every score's JSON with its record in it, below them. All is one transaction;
 * calibrations, which stand nowhere else, are kept.
 */
public final class LedgerRebuild {
  /** How the names of job records end. */
  public static final String JOB_ENDING = ".job.json";

  private static final String STRIPS_ENDING = ".strips.json";
  private static final String JSON_ENDING = ".json";
  private static final String SCORE = ".score";
  private static final String SAVEPOINT = "one_file";

  /**
   * A file that was not filed.
   *
   * @param file as it was found
   * @param why in words
   */
  public record Passed(Path file, String why) {}

  /**
   * What came of it.
   *
   * @param jobs filed
   * @param scores filed
   * @param passed files that look like records and were not filed, in order
   */
  public record Outcome(int jobs, int scores, List<Passed> passed) {
    public Outcome {
      passed = List.copyOf(passed);
    }
  }

  private final Ledger ledger;
  private final List<Path> folders;
  private final List<Path> jobFiles = new ArrayList<>();
  private final List<Path> scoreFiles = new ArrayList<>();
  private final List<Path> stripsFiles = new ArrayList<>();
  private final List<Passed> passed = new ArrayList<>();
  private final Map<String, Path> jobs = new HashMap<>();
  private final Map<String, Path> scores = new HashMap<>();
  private final Set<String> wantedJobs = new HashSet<>();

  /**
   * Prepares.
   *
   * @param folders looked through with all that is below them
   */
  public LedgerRebuild(Ledger ledger, List<Path> folders) {
    this.ledger = ledger;
    this.folders = List.copyOf(folders);
  }

  /**
   * Empties the ledger and fills it.
   *
   * @throws InputException where a folder can't be read; the ledger is as it was then
   */
  public Outcome run() throws InputException {
    for (Path folder : folders) {
      if (!Files.isDirectory(folder)) {
        throw InputException.of(folder.toString(), "expected a folder; check the name");
      }
    }
    return ledger.writeAlone(
        handle -> {
          look();
          handle.execute("DELETE FROM score");
          handle.execute("DELETE FROM job");
          for (Path file : jobFiles) {
            attempt(handle, file, this::fileJob);
          }
          for (Path file : scoreFiles) {
            attempt(handle, file, this::fileScore);
          }
          for (Path file : stripsFiles) {
            attempt(handle, file, this::fileStrips);
          }
          return new Outcome(jobs.size(), scores.size(), passed);
        });
  }

  private void look() throws InputException {
    for (Path folder : folders) {
      try {
        Files.walkFileTree(folder, new Finder());
      } catch (IOException e) {
        throw InputException.of(
            folder.toString(), "can't be read: " + StoredText.firstLine(e) + "; try again", e);
      }
    }
    jobFiles.sort(null);
    scoreFiles.sort(null);
    stripsFiles.sort(null);
  }

  private final class Finder extends SimpleFileVisitor<Path> {
    @Override
    public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
      sort(file);
      return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFileFailed(Path file, IOException failure) {
      passed.add(new Passed(file, "can't be read: " + StoredText.firstLine(failure)));
      return FileVisitResult.CONTINUE;
    }
  }

  private void sort(Path file) {
    String name = file.getFileName().toString();
    if (name.endsWith(JOB_ENDING)) {
      jobFiles.add(file);
    } else if (name.endsWith(STRIPS_ENDING)) {
      stripsFiles.add(file);
    } else if (name.endsWith(JSON_ENDING) && name.contains(SCORE)) {
      scoreFiles.add(file);
    }
  }

  private interface Filing {
    void file(Handle handle, Path file) throws InputException;
  }

  /** One file that can't be used does not spoil the others. */
  private void attempt(Handle handle, Path file, Filing filing) {
    handle.savepoint(SAVEPOINT);
    try {
      filing.file(handle, file);
      handle.releaseSavepoint(SAVEPOINT);
    } catch (InputException e) {
      handle.rollbackToSavepoint(SAVEPOINT);
      passed.add(new Passed(file, e.getMessage()));
    } catch (JdbiException e) {
      handle.rollbackToSavepoint(SAVEPOINT);
      passed.add(new Passed(file, "the ledger refused it: " + StoredText.firstLine(e)));
    }
  }

  private void fileJob(Handle handle, Path file) throws InputException {
    JobRecord job = JobRecord.read(file);
    if (jobs.containsKey(job.jobId())) {
      passed.add(new Passed(file, "the same job as " + jobs.get(job.jobId())));
      return;
    }
    Optional<String> strips = Optional.empty();
    if (job.strips().isPresent()) {
      strips = Optional.of(RecordJson.text(beside(file, job.strips().get())));
    }
    JobRows.of(job, strips).write(handle);
    jobs.put(job.jobId(), file);
  }

  /** The strips file lies beside its job's record, whatever the folders are called by now. */
  private static Path beside(Path record, String path) {
    return record.resolveSibling(path.substring(path.lastIndexOf('/') + 1));
  }

  private void fileScore(Handle handle, Path file) throws InputException {
    String text = RecordJson.text(file);
    Optional<ScoreRecord> record = ScoreRecord.parse(file.toString(), text);
    if (record.isEmpty()) {
      passed.add(new Passed(file, "a score that was never filed"));
      return;
    }
    String id = record.get().scoreId();
    if (scores.containsKey(id)) {
      passed.add(new Passed(file, "the same score as " + scores.get(id)));
      return;
    }
    ScoreRows.of(record.get(), text).write(handle);
    scores.put(id, file);
    record.get().jobId().ifPresent(wantedJobs::add);
  }

  /** Strips stamped by hand have no job's record; those that a score names are filed. */
  private void fileStrips(Handle handle, Path file) throws InputException {
    String text = RecordJson.text(file);
    String id = HandStamped.jobId(text);
    if (!wantedJobs.contains(id) || jobs.containsKey(id)) {
      return;
    }
    JobRows.of(HandStamped.job(file.toString(), text), Optional.of(text)).write(handle);
    jobs.put(id, file);
  }
}
