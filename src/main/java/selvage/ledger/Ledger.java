package selvage.ledger;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import java.util.function.Function;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import selvage.finding.InputException;

/**
 * The ledger of jobs, strips and scores. One object may be used by several threads at once: they
 * write one after another and read beside each other. Every method fails with {@link
 * LedgerException} where the database does; nothing of that call is kept then, and it may be made
 * again. Filing the same id again replaces what was filed.
 */
public final class Ledger implements AutoCloseable {
  private final LedgerDatabase database;
  private final Jdbi jdbi;
  private final ReentrantLock writing = new ReentrantLock();
  private Handle writer;

  private Ledger(LedgerDatabase database) {
    this.database = database;
    this.jdbi = Jdbi.create(database.source());
  }

  /**
   * Opens a ledger; makes it, or brings its tables up to date, where it must.
   *
   * @param url a file's path or {@code jdbc:sqlite:PATH}, or {@code jdbc:postgresql:...}
   * @throws InputException where it can't be used: it can't be reached, is locked, damaged, no
   *     ledger, or written by a newer program
   */
  public static Ledger open(String url) throws InputException {
    return open(url, false);
  }

  /** As {@link #open}, of a ledger that is there: one that is missing is not made. */
  public static Ledger openExisting(String url) throws InputException {
    return open(url, true);
  }

  private static Ledger open(String url, boolean mustExist) throws InputException {
    LedgerDatabase database = LedgerDatabase.of(url);
    database.checkPlace(mustExist);
    new LedgerSchema(database).prepare(mustExist);
    return new Ledger(database);
  }

  /** The ledger's address as messages give it: without a password. */
  public String name() {
    return database.name();
  }

  /** Work on the database. */
  interface Work<T> {
    T on(Handle handle) throws InputException;
  }

  /**
   * Files what became of a job: the record, its strips and their patches, its findings.
   *
   * @param stripsJson the whole text of its strips file, where it was stamped
   * @throws InputException where that text is no strips file
   */
  public void fileJob(JobRecord job, Optional<String> stripsJson) throws InputException {
    JobRows rows = JobRows.of(job, stripsJson);
    write(
        handle -> {
          rows.write(handle);
          return null;
        });
  }

  /**
   * Files a score: each strip's verdicts, checks, patches and findings.
   *
   * @param scoreJson what {@code score --json} writes, with the record in it or without
   * @throws InputException where that text is no score
   */
  public void fileScore(ScoreRecord score, String scoreJson) throws InputException {
    ScoreRows rows = ScoreRows.of(score, scoreJson);
    write(
        handle -> {
          rows.write(handle);
          return null;
        });
  }

  /** Records a calibration; the same system and time again replace the note. */
  public void calibrate(Calibration calibration) {
    writeSafely(handle -> LedgerQueries.calibrate(handle, calibration));
  }

  /** All calibrations, by proofing system and time. */
  public List<Calibration> calibrations() {
    return read(LedgerQueries::calibrations);
  }

  /** A job by its id. */
  public Optional<JobRecord> job(String jobId) {
    return read(handle -> LedgerQueries.job(handle, jobId));
  }

  /**
   * Jobs, the latest received first.
   *
   * @param most at most so many, from 1
   */
  public List<JobRecord> jobs(JobFilter filter, int most) {
    return jobs(filter, "", 0, most);
  }

  /**
   * Jobs a page at a time, the latest received first.
   *
   * @param text stands in the file's or the proof's name, in whatever case; empty for any
   * @param skip so many are passed over, from 0
   * @param most at most so many, from 1
   */
  public List<JobRecord> jobs(JobFilter filter, String text, int skip, int most) {
    return read(handle -> PageQueries.jobs(handle, filter, text, skip, most));
  }

  /** How many jobs that would be on all pages. */
  public long jobCount(JobFilter filter, String text) {
    return read(handle -> PageQueries.jobCount(handle, filter, text));
  }

  /** The whole text of a job's strips file, as it was filed. */
  public Optional<String> stripsJson(String jobId) {
    return read(handle -> PageQueries.stripsJson(handle, jobId));
  }

  /** The latest job that was stamped with a strips file of exactly this text. */
  public Optional<JobRecord> jobOfStrips(String stripsJson) {
    return read(handle -> LedgerQueries.jobOfStrips(handle, stripsJson));
  }

  /** The first strip of a job, with the text of all of them; empty where the job has none. */
  public Optional<FiledStrip> stripOfJob(String jobId) {
    return read(handle -> LedgerQueries.stripOfJob(handle, jobId));
  }

  /** The jobs that have a strip of this id, the latest received first. */
  public List<FiledStrip> strips(String stripId) {
    return strips(stripId, Integer.MAX_VALUE);
  }

  /** As {@link #strips(String)}, the newest alone: the same file dropped often has many. */
  public List<FiledStrip> strips(String stripId, int most) {
    return read(handle -> LedgerQueries.strips(handle, stripId, most));
  }

  /**
   * All distinct strips, each with the latest job that has it, the latest first.
   *
   * @param skip so many are passed over, from 0
   * @param most at most so many, from 1
   */
  public List<FiledStrip> latestStrips(int skip, int most) {
    return read(handle -> LedgerQueries.latestStrips(handle, skip, most));
  }

  /** A filed score's record by its id. */
  public Optional<ScoreRecord> score(String scoreId) {
    return read(handle -> LedgerQueries.score(handle, scoreId));
  }

  /** The records of the scores of one job, the latest received first. */
  public List<ScoreRecord> scoresOfJob(String jobId) {
    return read(handle -> LedgerQueries.scoresOfJob(handle, jobId));
  }

  /** The whole text of a score, as it was filed. */
  public Optional<String> scoreJson(String scoreId) {
    return read(handle -> PageQueries.scoreJson(handle, scoreId));
  }

  /** The scores of some jobs at a glance, the latest received first. */
  public List<ScoreSummary> summaries(Collection<String> jobIds) {
    return read(handle -> PageQueries.summariesOfJobs(handle, jobIds));
  }

  /**
   * All scores at a glance, the latest received first.
   *
   * @param skip so many are passed over, from 0
   * @param most at most so many, from 1
   */
  public List<ScoreSummary> latestSummaries(int skip, int most) {
    return read(handle -> PageQueries.latestSummaries(handle, skip, most));
  }

  /** The names that jobs bear. */
  public LabelNames names() {
    return read(PageQueries::names);
  }

  /** The strips of one score, in its order; none where there is no such score. */
  public List<ScoredStrip> scoredStrips(String scoreId) {
    List<ScoredStrip> strips = new ArrayList<>();
    read(
        handle -> {
          ScoredStripQuery.ofScore(handle, scoreId).run(strips::add);
          return null;
        });
    Collections.reverse(strips);
    return strips;
  }

  /**
   * Hands over every scored strip that a filter admits, the latest measurement first, one after
   * another, so that a long history needs little memory.
   */
  public void scoredStrips(ScoreFilter filter, Consumer<ScoredStrip> taker) {
    read(
        handle -> {
          new ScoredStripQuery(handle, filter).run(taker);
          return null;
        });
  }

  /** How many jobs and scores there are. */
  public Count count() {
    return read(LedgerQueries::count);
  }

  /**
   * What the ledger holds.
   *
   * @param jobs stamped and refused
   * @param strips of all jobs
   * @param scores filed
   */
  public record Count(long jobs, long strips, long scores) {}

  /**
   * Writes all tables as text in an order of its own: two ledgers of the same content give the same
   * text, whatever their database.
   */
  public void dump(Writer out) throws IOException {
    try {
      jdbi.useHandle(handle -> LedgerDump.write(handle, out));
    } catch (JdbiException e) {
      throw new LedgerException(name(), e);
    }
  }

  /**
   * Copies a ledger into a new file, while it is in use.
   *
   * @throws InputException where the ledger is no file (PostgreSQL has its own tool), or the target
   *     is there already or can't be written
   */
  public void backup(Path target) throws InputException {
    LedgerBackup.run(database, target);
  }

  /** Several filings. */
  public interface Filings {
    /** Files. */
    void run() throws InputException;
  }

  /** Runs several filings of this thread as one: all are kept, or none. */
  public void together(Filings filings) throws InputException {
    write(
        handle -> {
          filings.run();
          return null;
        });
  }

  /** Runs a rebuild's work as one transaction, with every other writer kept out. */
  <T> T writeAlone(Work<T> work) throws InputException {
    return write(
        handle -> {
          if (database.file().isEmpty()) {
            handle.execute("LOCK TABLE job, score IN EXCLUSIVE MODE");
          }
          return work.on(handle);
        });
  }

  private void writeSafely(Consumer<Handle> work) {
    try {
      write(
          handle -> {
            work.accept(handle);
            return null;
          });
    } catch (InputException e) {
      throw new IllegalStateException(e);
    }
  }

  /** One connection is kept for writing; after a failure it is opened anew. */
  private <T> T write(Work<T> work) throws InputException {
    writing.lock();
    try {
      if (writer == null) {
        writer = jdbi.open();
      }
      if (writer.isInTransaction()) {
        return work.on(writer);
      }
      return writer.inTransaction(work::on);
    } catch (JdbiException e) {
      discardWriter();
      throw new LedgerException(name(), e);
    } finally {
      writing.unlock();
    }
  }

  private <T> T read(Function<Handle, T> query) {
    try {
      return jdbi.withHandle(query::apply);
    } catch (JdbiException e) {
      throw new LedgerException(name(), e);
    }
  }

  private void discardWriter() {
    if (writer == null) {
      return;
    }
    try {
      writer.close();
    } catch (JdbiException e) {
      // It is given up either way; what failed is told by the caller.
    } finally {
      writer = null;
    }
  }

  /** Waits for a write that is under way, and lets the database go. */
  @Override
  public void close() {
    writing.lock();
    try {
      discardWriter();
    } finally {
      writing.unlock();
    }
  }

  /** The earliest moment that the ledger can tell: what stands where a time is not known. */
  public static Instant unknownTime() {
    return Instant.EPOCH;
  }
}
