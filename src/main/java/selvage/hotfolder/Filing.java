package selvage.hotfolder;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.ledger.FiledStrip;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.ledger.LedgerException;
import selvage.ledger.ScoreRecord;

/**
 * The ledger as the hot folder needs it: opened when first used and again after a failure, with
 * failures told as what they are here, something to be tried again later. Safe for use by many
 * threads.
 */
final class Filing implements AutoCloseable {
  private final String url;
  private Ledger ledger;

  Filing(String url) {
    this.url = url;
  }

  /** What is done with the ledger. */
  private interface Use<T> {
    T with(Ledger ledger) throws InputException, IOException;
  }

  private synchronized <T> T use(Use<T> use) throws IOException {
    try {
      if (ledger == null) {
        ledger = Ledger.open(url);
      }
      return use.with(ledger);
    } catch (InputException | LedgerException e) {
      close();
      throw new LedgerAwayException(e);
    }
  }

  /** Thrown where the ledger can't be used now. */
  static final class LedgerAwayException extends IOException {
    private static final long serialVersionUID = 1L;

    LedgerAwayException(Exception cause) {
      super("the ledger can't be used: " + cause.getMessage(), cause);
    }
  }

  /**
   * Makes sure that the ledger can be used.
   *
   * @throws InputException where it can't
   */
  synchronized void check() throws InputException {
    if (ledger == null) {
      ledger = Ledger.open(url);
    }
  }

  void fileJob(JobRecord job, Optional<String> strips) throws IOException {
    use(
        open -> {
          open.fileJob(job, strips);
          return null;
        });
  }

  void fileScore(ScoreRecord score, String scoreJson) throws IOException {
    use(
        open -> {
          open.fileScore(score, scoreJson);
          return null;
        });
  }

  /** The newest proof with a strip of this id, in a list that is empty where there is none. */
  List<FiledStrip> newestStrip(String stripId) throws IOException {
    return use(open -> open.strips(stripId, 1));
  }

  /** A strip of a job, with the text of all of them; empty where it has none. */
  Optional<FiledStrip> stripOfJob(String jobId) throws IOException {
    return use(open -> open.stripOfJob(jobId));
  }

  /** The strips stamped last, newest first. */
  List<FiledStrip> latestStrips(int most) throws IOException {
    return use(open -> open.latestStrips(0, most));
  }

  @Override
  public synchronized void close() {
    if (ledger != null) {
      try {
        ledger.close();
      } catch (LedgerException e) {
        // It is given up either way.
      }
      ledger = null;
    }
  }
}
