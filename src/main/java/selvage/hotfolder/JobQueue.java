package selvage.hotfolder;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * What waits to be worked on. One worker is kept for short work and takes the smallest file first;
 * what it can't finish soon goes to the others, which take what is known to be long first and then
 * the oldest. So neither can starve: large jobs have workers that prefer them, small ones have one
 * that large jobs leave quickly. Safe for use by many threads.
 */
final class JobQueue {
  /** Which work a worker takes. */
  enum Lane {
    SHORT,
    ANY
  }

  /** A file that waits: still in its folder, or claimed already. */
  static final class Work {
    private final Arrival arrival;
    private final Claim claim;
    private final boolean isLong;
    private final int failures;

    private Work(Arrival arrival, Claim claim, boolean isLong, int failures) {
      this.arrival = arrival;
      this.claim = claim;
      this.isLong = isLong;
      this.failures = failures;
    }

    static Work of(Arrival arrival) {
      return new Work(arrival, null, false, 0);
    }

    static Work of(Claim claim) {
      return new Work(null, claim, false, 0);
    }

    /** The same, known to take long. */
    Work longer(Claim taken) {
      return new Work(null, taken, true, failures);
    }

    /** The same after one more failure that was not the file's fault, or may not have been. */
    Work failed(Claim taken) {
      return new Work(null, taken, isLong, failures + 1);
    }

    Optional<Arrival> arrival() {
      return Optional.ofNullable(arrival);
    }

    Optional<Claim> claim() {
      return Optional.ofNullable(claim);
    }

    int failures() {
      return failures;
    }

    boolean isLong() {
      return isLong;
    }

    private long bytes() {
      return claim == null ? arrival.bytes() : claim.bytes();
    }

    private boolean isMeasurement() {
      return (claim == null ? arrival.kind() : claim.kind()) == Kind.MEASUREMENT;
    }

    private Object key() {
      return claim == null ? arrival.file() : claim.id();
    }
  }

  private record Waiting(Work work, long order, long notBeforeNanos) {}

  private final List<Waiting> fresh = new ArrayList<>();
  private final List<Waiting> longs = new ArrayList<>();
  private final Map<Object, Work> known = new HashMap<>();
  private long nextOrder;
  private boolean closed;

  /** Adds what is not there yet and not being worked on. */
  synchronized boolean offer(Work work) {
    if (closed || known.putIfAbsent(work.key(), work) != null) {
      return false;
    }
    add(work, System.nanoTime());
    return true;
  }

  /** Puts back what was taken, to be taken again after a while. */
  synchronized void putBack(Work taken, Work again, long delayNanos) {
    known.remove(taken.key());
    known.put(again.key(), again);
    add(again, System.nanoTime() + delayNanos);
  }

  private void add(Work work, long notBefore) {
    (work.isLong() ? longs : fresh).add(new Waiting(work, nextOrder++, notBefore));
    notifyAll();
  }

  /** Tells that what was taken is done with. */
  synchronized void done(Work taken) {
    known.remove(taken.key());
    notifyAll();
  }

  /** How many wait or are being worked on. */
  synchronized int size() {
    return known.size();
  }

  synchronized int waiting() {
    return fresh.size() + longs.size();
  }

  /** Forgets files that wait in their folders, once nobody may begin anything any more. */
  synchronized void close() {
    closed = true;
    notifyAll();
  }

  /**
   * Takes the next for a lane.
   *
   * @return empty after some time without any, or once closed
   */
  synchronized Optional<Work> take(Lane lane, long waitMillis) throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(waitMillis);
    while (!closed) {
      long now = System.nanoTime();
      Optional<Work> next = lane == Lane.SHORT ? smallest(now) : longestKnown(now);
      if (next.isPresent()) {
        return next;
      }
      if (end - now <= 0) {
        return Optional.empty();
      }
      TimeUnit.NANOSECONDS.timedWait(this, Math.min(end - now, 100_000_000L));
    }
    return Optional.empty();
  }

  private Optional<Work> smallest(long now) {
    return taken(
        fresh,
        now,
        Comparator.comparing((Waiting one) -> !one.work().isMeasurement())
            .thenComparingLong(one -> one.work().bytes())
            .thenComparingLong(Waiting::order));
  }

  private Optional<Work> longestKnown(long now) {
    Comparator<Waiting> oldest = Comparator.comparingLong(Waiting::order);
    Optional<Work> one = taken(longs, now, oldest);
    return one.isPresent() ? one : taken(fresh, now, oldest);
  }

  private static Optional<Work> taken(List<Waiting> from, long now, Comparator<Waiting> order) {
    Waiting best = null;
    for (Waiting one : from) {
      if (one.notBeforeNanos() - now <= 0 && (best == null || order.compare(one, best) < 0)) {
        best = one;
      }
    }
    if (best == null) {
      return Optional.empty();
    }
    from.remove(best);
    return Optional.of(best.work());
  }
}
