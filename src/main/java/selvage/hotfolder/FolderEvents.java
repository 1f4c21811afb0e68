package selvage.hotfolder;

import java.io.IOException;
import java.nio.file.ClosedWatchServiceException;
import java.nio.file.FileSystems;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Waits for the system to tell of something new in a folder. It may tell late, or never (network
 * shares): the wait ends by itself then, and a look follows in any case.
 */
final class FolderEvents implements AutoCloseable {
  /** Many files come at once; one look is enough for them. */
  private static final long GATHER_MILLIS = 100;

  private final WatchService service;

  private FolderEvents(WatchService service) {
    this.service = service;
  }

  /** Events of folders; of none where the system has no such thing. */
  static FolderEvents of(List<Path> folders) {
    WatchService service;
    try {
      service = FileSystems.getDefault().newWatchService();
    } catch (IOException | UnsupportedOperationException e) {
      // Some systems have no events, others have used up what they allow: looks in turn have to do.
      return new FolderEvents(null);
    }
    for (Path folder : folders) {
      try {
        folder.register(service, StandardWatchEventKinds.ENTRY_CREATE);
      } catch (IOException e) {
        // Polling finds its files.
      }
    }
    return new FolderEvents(service);
  }

  /** Waits for an event, at most so long. */
  void await(Duration most) throws InterruptedException {
    if (service == null) {
      Thread.sleep(most.toMillis());
      return;
    }
    try {
      WatchKey key = service.poll(most.toMillis(), TimeUnit.MILLISECONDS);
      if (key != null) {
        Thread.sleep(GATHER_MILLIS);
      }
      while (key != null) {
        key.pollEvents();
        key.reset();
        key = service.poll();
      }
    } catch (ClosedWatchServiceException e) {
      // The watcher stops.
    }
  }

  @Override
  public void close() {
    if (service != null) {
      try {
        service.close();
      } catch (IOException e) {
        // Nothing is waited for any more.
      }
    }
  }
}
