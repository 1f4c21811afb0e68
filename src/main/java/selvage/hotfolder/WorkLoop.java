package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import selvage.hotfolder.JobQueue.Lane;
import selvage.hotfolder.JobQueue.Work;

/** One worker's round: take a file, have it worked on, settle it, take the next. */
final class WorkLoop implements Runnable {
  /** What the worker for short work spends on one file before it leaves it to the others. */
  static final Duration SHORT = Duration.ofSeconds(8);

  private static final Duration SHORT_KILLED = Duration.ofSeconds(20);
  private static final long IDLE_MILLIS = 500;

  /** A file that fails so often without being at fault for certain is refused. */
  private static final int MOST_FAILURES = 3;

  private static final long LONGEST_DELAY_SECONDS = 60;

  private final Shop shop;
  private final Lane lane;
  private final WorkerProcess process;

  WorkLoop(Shop shop, Lane lane, WorkerProcess process) {
    this.shop = shop;
    this.lane = lane;
    this.process = process;
  }

  @Override
  public void run() {
    try {
      while (!shop.isStopping()) {
        Optional<Work> work = shop.queue().take(lane, IDLE_MILLIS);
        if (work.isPresent()) {
          handle(work.get());
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      process.close();
    }
  }

  private void handle(Work work) throws InterruptedException {
    Optional<Claim> claim = work.claim();
    FolderSettings folder =
        claim.isPresent() ? claim.get().folder() : work.arrival().orElseThrow().folder();
    try {
      if (claim.isEmpty()) {
        claim = shop.take(work.arrival().orElseThrow());
        if (claim.isEmpty()) {
          shop.queue().done(work);
          return;
        }
      }
      settle(work, claim.get());
    } catch (IOException e) {
      later(work, claim, folder, e);
    } catch (RuntimeException e) {
      shop.log().tell("fault", folder.name(), name(work), String.valueOf(e));
      later(work, claim, folder, new IOException("a fault in the program: " + e, e));
    }
  }

  private static String name(Work work) {
    return work.claim().map(Claim::relative).orElseGet(() -> work.arrival().get().relative());
  }

  /** The folder, the disk or the ledger is at fault, not the file: it waits. */
  private void later(Work work, Optional<Claim> claim, FolderSettings folder, IOException e) {
    shop.trouble(folder, e);
    long delay = Math.min(LONGEST_DELAY_SECONDS, 1L << Math.min(6, work.failures()));
    if (claim.isPresent()) {
      again(work, work.failed(claim.get()), TimeUnit.SECONDS.toNanos(delay));
    } else {
      again(work, work, TimeUnit.SECONDS.toNanos(delay));
    }
  }

  private void again(Work taken, Work again, long delayNanos) {
    shop.queue().putBack(taken, again, delayNanos);
  }

  private void settle(Work work, Claim claim) throws IOException, InterruptedException {
    long start = System.nanoTime();
    if (Files.exists(claim.plan())) {
      finish(work, Settlement.read(claim), start);
      return;
    }
    // The names are kept until the files that have them are there.
    try (Job job = Job.begin(shop, claim)) {
      Optional<Settlement> decided = decide(work, claim, job);
      if (decided.isPresent()) {
        finish(work, decided.get(), start);
      }
    }
  }

  private void finish(Work work, Settlement settlement, long start) throws IOException {
    Claim claim = settlement.claim();
    settlement.moveAll();
    shop.file(claim);
    settlement.close();
    shop.release(claim);
    shop.queue().done(work);
    shop.settled(settlement, Duration.ofNanos(System.nanoTime() - start));
  }

  /** Empty where the file goes back to the queue or to its folder. */
  private Optional<Settlement> decide(Work work, Claim claim, Job job)
      throws IOException, InterruptedException {
    Optional<String> refusal = job.refusalAtSight();
    if (refusal.isPresent()) {
      return Optional.of(job.refuse(refusal.get()));
    }
    boolean isShort = lane == Lane.SHORT && claim.kind() == Kind.JOB;
    Duration limit = isShort ? SHORT_KILLED : claim.folder().timeLimit();
    if (limit.compareTo(claim.folder().timeLimit()) > 0) {
      limit = claim.folder().timeLimit();
      isShort = false;
    }
    WorkerProcess.Answer answer =
        process.ask(job.request(isShort ? SHORT.toMillis() / 1000.0 : 0), limit);
    switch (answer.end()) {
      case CLOSED -> {
        shop.giveBack(claim);
        shop.queue().done(work);
        return Optional.empty();
      }
      case TIMED_OUT -> {
        if (isShort) {
          again(work, work.longer(claim), 0);
          return Optional.empty();
        }
        return Optional.of(
            job.refuse(
                "took longer than the "
                    + claim.folder().timeLimit().toSeconds()
                    + " seconds that a file may take; simplify it, or raise"
                    + " time_limit_seconds"));
      }
      case DIED -> {
        return doubtful(work, claim, job, "the process that worked on it ended of itself");
      }
      case REPLIED -> {
        if (!claim.isUnchanged()) {
          shop.giveBack(claim);
          shop.queue().done(work);
          return Optional.empty();
        }
        String why = answer.reply().path("why").asText();
        return switch (answer.reply().path("outcome").asText()) {
          case "stamped", "scored" -> Optional.of(job.accept(answer.reply()));
          case "refused" -> Optional.of(job.refuse(why));
          case "long" -> {
            again(work, work.longer(claim), 0);
            yield Optional.empty();
          }
          case "fault" -> {
            shop.log()
                .tell(
                    "fault",
                    claim.folder().name(),
                    claim.relative(),
                    answer.reply().path("trace").asText().replace('\n', ' '));
            yield Optional.of(
                job.refuse(
                    "a fault in the program ("
                        + why
                        + "); please report it with this file and the log"));
          }
          default -> doubtful(work, claim, job, why);
        };
      }
    }
    throw new IllegalStateException(String.valueOf(answer.end()));
  }

  /** The file may be at fault, or the machine: it is tried again a few times. */
  private Optional<Settlement> doubtful(Work work, Claim claim, Job job, String why)
      throws IOException {
    job.checkFolders();
    if (work.failures() + 1 >= MOST_FAILURES) {
      return Optional.of(job.refuse(why + " (tried " + MOST_FAILURES + " times)"));
    }
    again(work, work.failed(claim), TimeUnit.MILLISECONDS.toNanos(500));
    return Optional.empty();
  }
}
