package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import selvage.hotfolder.JobQueue.Lane;
import selvage.hotfolder.JobQueue.Work;

class JobQueueTest {
  private final JobQueue queue = new JobQueue();
  private final FolderSettings folder = HotFolderFixture.folder(Path.of("/hot"));
  private long order;

  @Test
  void take_shortLane_givesTheSmallestFirst() throws InterruptedException {
    offer("large.pdf", 900);
    offer("small.pdf", 10);
    assertThat(taken(Lane.SHORT)).isEqualTo("small.pdf");
    assertThat(taken(Lane.SHORT)).isEqualTo("large.pdf");
  }

  @Test
  void take_anyLane_givesTheOldestFirst() throws InterruptedException {
    offer("large.pdf", 900);
    offer("small.pdf", 10);
    assertThat(taken(Lane.ANY)).isEqualTo("large.pdf");
  }

  @Test
  void take_measurementAmongJobs_comesFirstInTheShortLane() throws InterruptedException {
    offer("small.pdf", 10);
    queue.offer(Work.of(arrival(Kind.MEASUREMENT, "measured.txt", 5000)));
    assertThat(taken(Lane.SHORT)).isEqualTo("measured.txt");
  }

  @Test
  void take_knownToBeLong_isLeftToTheOtherLane() throws InterruptedException {
    offer("many-pages.pdf", 10);
    Work work = queue.take(Lane.SHORT, 0).orElseThrow();
    queue.putBack(work, work.longer(claim("many-pages.pdf")), 0);
    offer("later.pdf", 5);
    assertThat(taken(Lane.SHORT)).isEqualTo("later.pdf");
    assertThat(queue.take(Lane.SHORT, 0)).isEmpty();
    assertThat(taken(Lane.ANY)).isEqualTo("many-pages.pdf");
  }

  @Test
  void take_putBackWithDelay_waitsForIt() throws InterruptedException {
    offer("a.pdf", 1);
    Work work = queue.take(Lane.ANY, 0).orElseThrow();
    queue.putBack(work, work.failed(claim("a.pdf")), 60_000_000_000L);
    assertThat(queue.take(Lane.ANY, 0)).isEmpty();
    assertThat(queue.size()).isEqualTo(1);
  }

  @Test
  void putBack_failed_countsFailures() throws InterruptedException {
    offer("a.pdf", 1);
    Work work = queue.take(Lane.ANY, 0).orElseThrow();
    queue.putBack(work, work.failed(claim("a.pdf")), 0);
    assertThat(queue.take(Lane.ANY, 0).orElseThrow().failures()).isEqualTo(1);
  }

  @Test
  void offer_fileInWork_isNotTakenTwice() throws InterruptedException {
    assertThat(offer("a.pdf", 1)).isTrue();
    Work work = queue.take(Lane.ANY, 0).orElseThrow();
    assertThat(offer("a.pdf", 1)).isFalse();
    queue.done(work);
    assertThat(offer("a.pdf", 1)).isTrue();
  }

  @Test
  void take_closed_givesNothing() throws InterruptedException {
    offer("a.pdf", 1);
    queue.close();
    assertThat(queue.take(Lane.ANY, 10_000)).isEmpty();
  }

  private boolean offer(String name, long bytes) {
    return queue.offer(Work.of(arrival(Kind.JOB, name, bytes)));
  }

  private String taken(Lane lane) throws InterruptedException {
    Work work = queue.take(lane, 0).orElseThrow();
    Optional<String> claimed = work.claim().map(Claim::relative);
    return claimed.orElseGet(() -> work.arrival().orElseThrow().relative());
  }

  private Arrival arrival(Kind kind, String name, long bytes) {
    return new Arrival(
        folder, kind, Path.of("/hot/in", name), name, bytes, FileTime.fromMillis(0), order++);
  }

  private Claim claim(String name) {
    return new Claim(
        folder,
        Kind.JOB,
        "0123456789abcdef0123456789abcdef",
        Path.of("/hot/in/.selvage/claims/0123456789abcdef0123456789abcdef"),
        name,
        10,
        FileTime.fromMillis(0),
        Instant.EPOCH);
  }
}
