package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import selvage.finding.InputException;
import selvage.hotfolder.JobQueue.Lane;
import selvage.hotfolder.JobQueue.Work;

/** Watches hot folders until it is stopped. */
public final class Watch {
  private static final Duration RETENTION_ROUND = Duration.ofMinutes(10);

  /** Longer than any job takes: what is older is nobody's. */
  private static final Duration STALE = Duration.ofDays(2);

  private static final Duration SHORTEST_WAIT = Duration.ofMillis(50);

  private final WatchSettings settings;
  private final List<String> workerCommand;
  private final EventLog log;
  private final Clock clock;
  private final Metrics metrics = new Metrics();
  private final Filing filing;
  private final Shop shop;
  private final List<WorkerProcess> processes = new ArrayList<>();
  private final Map<Arrivals, Source> sources = new LinkedHashMap<>();
  private final CountDownLatch ended = new CountDownLatch(1);
  private volatile Thread watcher;
  private long nextRetentionNanos = System.nanoTime();

  /** Where arrivals come from. */
  private record Source(FolderSettings folder, Kind kind) {
    String key() {
      return "watch " + folder.name() + " " + kind.word();
    }
  }

  /**
   * Prepares.
   *
   * @param settings checked already, see {@link SettingsCheck}
   * @param workerCommand starts a process that runs {@link Worker#serve} on its standard input and
   *     output
   */
  public Watch(WatchSettings settings, List<String> workerCommand, EventLog log, Clock clock) {
    this.settings = settings;
    this.workerCommand = List.copyOf(workerCommand);
    this.log = log;
    this.clock = clock;
    this.filing = new Filing(settings.ledger());
    this.shop = new Shop(settings, filing, log, metrics, clock);
    for (FolderSettings folder : settings.folders()) {
      for (Kind kind : Kind.values()) {
        if (kind == Kind.JOB || folder.places().measured().isPresent()) {
          sources.put(new Arrivals(folder, kind, settings.settle()), new Source(folder, kind));
        }
      }
    }
  }

  /**
   * Watches.
   *
   * @param drain whether to end once nothing is left to do, instead of when {@link #stop} is called
   * @throws InputException where a folder or the ledger can't be used from the start
   */
  public void run(boolean drain) throws InputException, InterruptedException {
    watcher = Thread.currentThread();
    List<Thread> workers = new ArrayList<>();
    try {
      prepare();
      metrics.watch(shop.queue()::size, log::troubles);
      try (StatusPage page =
              settings.port().isPresent()
                  ? StatusPage.open(settings.port().getAsInt(), shop, metrics)
                  : null;
          FolderEvents events =
              FolderEvents.of(
                  sources.values().stream().map(one -> one.folder().drop(one.kind())).toList())) {
        for (int i = 0; i < settings.workers(); i++) {
          workers.add(startWorker(i));
        }
        log.tell(
            "watching",
            "",
            "",
            settings.folders().size()
                + " hot folders with "
                + settings.workers()
                + " workers; ledger "
                + settings.ledger()
                + (page == null ? "" : "; status on port " + settings.port().getAsInt()));
        watch(drain, events);
      }
    } finally {
      shop.stop();
      for (Thread worker : workers) {
        worker.join();
      }
      if (!workers.isEmpty()) {
        shop.giveBackAll();
      }
      shop.close();
      metrics.close();
      log.tell("stopped", "", "", "all that was taken is settled, returned or kept as claimed");
      ended.countDown();
    }
  }

  private Thread startWorker(int index) {
    Lane lane = index == 0 && settings.workers() > 1 ? Lane.SHORT : Lane.ANY;
    WorkerProcess process = new WorkerProcess(workerCommand);
    processes.add(process);
    Thread thread = new Thread(new WorkLoop(shop, lane, process), "work-" + index);
    thread.start();
    return thread;
  }

  /** Makes missing folders, locks those that are watched, and opens the ledger. */
  private void prepare() throws InputException {
    for (FolderSettings folder : settings.folders()) {
      folder.places().make();
    }
    filing.check();
    for (Source source : sources.values()) {
      try {
        shop.area(source.folder(), source.kind()).prepare();
      } catch (IOException e) {
        throw InputException.of(
            source.folder().drop(source.kind()).toString(),
            "can't be used: " + e.getMessage() + "; check who may write there",
            e);
      }
    }
  }

  private void watch(boolean drain, FolderEvents events) throws InterruptedException {
    int idle = 0;
    while (!shop.isStopping()) {
      boolean isUnsettled = false;
      for (Map.Entry<Arrivals, Source> one : sources.entrySet()) {
        isUnsettled |= look(one.getKey(), one.getValue());
      }
      removeOld();
      boolean isEmpty = !isUnsettled && shop.queue().size() == 0;
      idle = isEmpty ? idle + 1 : 0;
      if (drain && idle > 1) {
        return;
      }
      Duration wait = settings.poll();
      if (isUnsettled || (drain && isEmpty)) {
        wait = least(wait, settings.settle().dividedBy(2).plus(SHORTEST_WAIT));
      }
      events.await(wait);
    }
  }

  private static Duration least(Duration one, Duration other) {
    return one.compareTo(other) < 0 ? one : other;
  }

  /** Looks into a folder. Returns whether something there is not known to be complete yet. */
  private boolean look(Arrivals arrivals, Source source) {
    String name = source.folder().name();
    try {
      ClaimArea area = shop.area(source.folder(), source.kind());
      area.prepare();
      for (Claim claim : area.left()) {
        if (shop.queue().offer(Work.of(claim))) {
          log.tell("resumed", name, claim.relative(), "was taken before and not settled");
        }
      }
      for (Arrival arrival : arrivals.look(System.nanoTime())) {
        shop.queue().offer(Work.of(arrival));
      }
      log.over(source.key(), name, "the folder is there again");
      return arrivals.hasUnsettled();
    } catch (InputException | IOException e) {
      log.trouble(
          source.key(),
          name,
          source.folder().drop(source.kind())
              + " can't be watched: "
              + e.getMessage()
              + "; it is tried again by itself");
      return false;
    }
  }

  private void removeOld() {
    if (System.nanoTime() - nextRetentionNanos < 0) {
      return;
    }
    nextRetentionNanos = System.nanoTime() + RETENTION_ROUND.toNanos();
    FileTime limit = FileTime.from(clock.instant().minus(STALE));
    for (FolderSettings folder : settings.folders()) {
      try {
        Retention.clear(folder.places().outgoing(), time -> time.compareTo(limit) < 0);
        Retention.clear(folder.places().refused(), time -> time.compareTo(limit) < 0);
      } catch (IOException e) {
        log.tell("trouble", folder.name(), "", "old remains can't be removed: " + e.getMessage());
      }
      if (folder.keepDone().isPresent()) {
        try {
          int removed =
              Retention.sweep(folder.places().done(), folder.keepDone().get(), clock.instant());
          if (removed > 0) {
            log.tell("removed", folder.name(), "", removed + " old files from the done folder");
          }
        } catch (IOException e) {
          log.tell("trouble", folder.name(), "", "old files can't be removed: " + e.getMessage());
        }
      }
    }
  }

  /**
   * Stops: takes nothing new, lets what is being worked on finish, and returns what does not in
   * time. Waits until that is done.
   *
   * @param grace for work to finish
   */
  public void stop(Duration grace) throws InterruptedException {
    shop.stop();
    if (watcher == null) {
      return;
    }
    if (!ended.await(grace.toMillis(), TimeUnit.MILLISECONDS)) {
      processes.forEach(WorkerProcess::close);
      ended.await(10, TimeUnit.SECONDS);
    }
  }
}
