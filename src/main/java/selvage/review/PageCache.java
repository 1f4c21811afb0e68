package selvage.review;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/**
 * Pages that were opened last, as many as fit into a budget of memory. A page that two ask for is
 * opened once; those that failed are tried again when asked for again. Safe for use by many
 * threads.
 */
final class PageCache implements AutoCloseable {
  /** A page of one review. */
  record Key(String review, int page) {}

  private final long mostBytes;
  private final ExecutorService workers;
  private final Map<Key, CompletableFuture<OpenPage>> pages = new HashMap<>();
  private final List<Key> order = new ArrayList<>(); // the one used last at the end

  /**
   * Makes a cache.
   *
   * @param mostBytes what the pages may take, but for those under way
   * @param threads that open pages
   */
  PageCache(long mostBytes, int threads) {
    this.mostBytes = mostBytes;
    this.workers =
        Executors.newFixedThreadPool(
            threads,
            task -> {
              Thread thread = new Thread(task, "open-page");
              thread.setDaemon(true);
              return thread;
            });
  }

  /** The page, opened already or soon. */
  synchronized CompletableFuture<OpenPage> get(Key key, Callable<OpenPage> opening) {
    CompletableFuture<OpenPage> known = pages.get(key);
    if (known != null && !known.isCompletedExceptionally()) {
      order.remove(key);
      order.add(key);
      return known;
    }
    CompletableFuture<OpenPage> page = new CompletableFuture<>();
    pages.put(key, page);
    order.remove(key);
    order.add(key);
    workers.execute(() -> open(page, opening));
    return page;
  }

  private void open(CompletableFuture<OpenPage> page, Callable<OpenPage> opening) {
    try {
      page.complete(opening.call());
    } catch (Throwable e) {
      // Whatever a hostile file brings about, memory used up among it, is told to whoever waits.
      page.completeExceptionally(e);
    }
    trim();
  }

  /** Lets go of the pages used longest ago until the others fit. */
  private synchronized void trim() {
    long sum = 0;
    Set<Key> kept = new HashSet<>();
    for (int i = order.size() - 1; i >= 0; i--) {
      Key key = order.get(i);
      CompletableFuture<OpenPage> page = pages.get(key);
      sum += page.isDone() && !page.isCompletedExceptionally() ? bytes(page) : 0;
      if (sum <= mostBytes || i == order.size() - 1 || !page.isDone()) {
        kept.add(key);
      }
    }
    order.retainAll(kept);
    pages.keySet().retainAll(kept);
  }

  private static long bytes(CompletableFuture<OpenPage> page) {
    try {
      return page.join().bytes();
    } catch (CompletionException e) {
      return 0;
    }
  }

  /** Forgets a review's pages. */
  synchronized void forget(String review) {
    order.removeIf(key -> key.review().equals(review));
    pages.keySet().removeIf(key -> key.review().equals(review));
  }

  /** Opens no more; what is under way ends by itself. */
  @Override
  public void close() {
    workers.shutdownNow();
  }
}
