package selvage.web;

import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.function.Supplier;
import selvage.ledger.Ledger;

/**
 * Comparisons that were worked out a moment ago: each reads every patch of every score asked for,
 * and a page is often looked at by several. One that is being worked out is waited for. Forgotten
 * as soon as the ledger has grown, and after half a minute anyway.
 */
final class RememberedComparisons<V> {
  private static final long KEPT_NANOS = Duration.ofSeconds(30).toNanos();
  private static final int MOST = 16;

  private record Kept<V>(CompletableFuture<V> value, Ledger.Count count, long untilNanos) {}

  private final Ledger ledger;
  private final Map<ComparisonWish, Kept<V>> kept =
      new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<ComparisonWish, Kept<V>> eldest) {
          return size() > MOST;
        }
      };

  RememberedComparisons(Ledger ledger) {
    this.ledger = ledger;
  }

  /** What was worked out for a wish, or is now. */
  V get(ComparisonWish wish, Supplier<V> working) {
    Ledger.Count count = ledger.count();
    CompletableFuture<V> mine = new CompletableFuture<>();
    CompletableFuture<V> value = known(wish, count, mine);
    if (value == mine) {
      try {
        mine.complete(working.get());
      } catch (RuntimeException e) {
        mine.completeExceptionally(e);
        forget(wish, mine);
        throw e;
      }
    }
    try {
      return value.join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw e;
    }
  }

  private synchronized CompletableFuture<V> known(
      ComparisonWish wish, Ledger.Count count, CompletableFuture<V> otherwise) {
    Kept<V> before = kept.get(wish);
    if (before != null && before.count.equals(count) && before.untilNanos - System.nanoTime() > 0) {
      return before.value;
    }
    kept.remove(wish);
    kept.put(wish, new Kept<>(otherwise, count, System.nanoTime() + KEPT_NANOS));
    return otherwise;
  }

  private synchronized void forget(ComparisonWish wish, CompletableFuture<V> value) {
    Kept<V> before = kept.get(wish);
    if (before != null && before.value == value) {
      kept.remove(wish);
    }
  }
}
