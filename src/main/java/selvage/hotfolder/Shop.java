package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.ledger.JobRecord;
import selvage.ledger.ScoreRecord;

/** What the watcher and its workers share. Safe for use by many threads. */
final class Shop {
  private static final String KEPT_RECORD = "record.json";
  private static final String KEPT_STRIPS = "strips.json";

  private final JobQueue queue = new JobQueue();
  private final Names names = new Names();
  private final Map<Path, ClaimArea> areas = new HashMap<>();
  private final Filing filing;
  private final ProofChoice proofChoice;
  private final EventLog log;
  private final Metrics metrics;
  private final Clock clock;
  private volatile boolean stopping;

  Shop(WatchSettings settings, Filing filing, EventLog log, Metrics metrics, Clock clock) {
    this.filing = filing;
    this.proofChoice = new ProofChoice(filing);
    this.log = log;
    this.metrics = metrics;
    this.clock = clock;
    for (FolderSettings folder : settings.folders()) {
      for (Kind kind : Kind.values()) {
        if (kind == Kind.JOB || folder.places().measured().isPresent()) {
          areas.put(folder.drop(kind), new ClaimArea(folder, kind, clock));
        }
      }
    }
  }

  JobQueue queue() {
    return queue;
  }

  Names names() {
    return names;
  }

  EventLog log() {
    return log;
  }

  ProofChoice proofChoice() {
    return proofChoice;
  }

  Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  boolean isStopping() {
    return stopping;
  }

  void stop() {
    stopping = true;
    queue.close();
  }

  ClaimArea area(FolderSettings folder, Kind kind) {
    return areas.get(folder.drop(kind));
  }

  Optional<Claim> take(Arrival arrival) throws IOException {
    return area(arrival.folder(), arrival.kind()).take(arrival);
  }

  void release(Claim claim) {
    area(claim.folder(), claim.kind()).release(claim.id());
  }

  void giveBack(Claim claim) throws IOException {
    claim.deleteStages();
    if (area(claim.folder(), claim.kind()).giveBack(claim)) {
      tellReturned(claim);
    }
  }

  private void tellReturned(Claim claim) {
    log.tell("returned", claim.folder().name(), claim.relative(), "to the folder it came from");
  }

  /** Gives back what waits, once no worker works any more. What can't go back stays claimed. */
  void giveBackAll() {
    for (ClaimArea area : areas.values()) {
      try {
        area.giveBackAll().forEach(this::tellReturned);
      } catch (IOException e) {
        log.tell("trouble", "", "", "can't be returned, and stays claimed: " + e.getMessage());
      }
    }
  }

  /** Where a claim keeps what is filed about it, until it is. */
  Path keptRecord(Claim claim) {
    return claim.area().resolve(KEPT_RECORD);
  }

  Path keptStrips(Claim claim) {
    return claim.area().resolve(KEPT_STRIPS);
  }

  /**
   * Files what became of a claim.
   *
   * @throws IOException where the ledger is away; to be tried again
   */
  void file(Claim claim) throws IOException {
    Path record = keptRecord(claim);
    try {
      String text = Files.readString(record);
      Optional<ScoreRecord> score = ScoreRecord.parse(record.toString(), text);
      if (score.isPresent()) {
        filing.fileScore(score.get(), text);
        return;
      }
      Path strips = keptStrips(claim);
      filing.fileJob(
          JobRecord.read(record),
          Files.exists(strips) ? Optional.of(Files.readString(strips)) : Optional.empty());
    } catch (InputException e) {
      throw new IOException(e.getMessage(), e);
    }
  }

  void settled(Settlement settlement, Duration took) {
    Claim claim = settlement.claim();
    metrics.settled(settlement.outcome(), took);
    log.over(key(claim.folder()), claim.folder().name(), "files are settled again");
    log.tell(
        settlement.outcome(),
        claim.folder().name(),
        claim.relative(),
        String.format(Locale.ROOT, "%s (%.2f s)", settlement.text(), took.toMillis() / 1000.0));
  }

  /** Tells of what hinders work in a folder, once until it is over. */
  void trouble(FolderSettings folder, IOException e) {
    String what =
        e instanceof java.nio.file.NoSuchFileException
            ? "not there: " + e.getMessage()
            : String.valueOf(e.getMessage());
    metrics.troubled();
    log.trouble(
        key(folder),
        folder.name(),
        what + "; nothing is lost, it is tried again by itself every minute at least");
  }

  private static String key(FolderSettings folder) {
    return "work " + folder.name();
  }

  void close() {
    for (ClaimArea area : areas.values()) {
      try {
        area.close();
      } catch (IOException e) {
        log.tell("trouble", "", "", "a lock can't be released: " + e.getMessage());
      }
    }
    filing.close();
  }
}
