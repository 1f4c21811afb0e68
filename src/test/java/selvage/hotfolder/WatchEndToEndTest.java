package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.ledger.JobFilter;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.measurement.Drift;
import selvage.measurement.StripChoice;
import selvage.workflow.RehearseProof;

/** Drops files into a hot folder and looks at what comes out. */
@Timeout(300)
class WatchEndToEndTest {
  @TempDir Path root;
  private final StringWriter logged = new StringWriter();

  static List<String> workerCommand() {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-Xmx256m",
        "-XX:TieredStopAtLevel=1",
        "-cp",
        System.getProperty("java.class.path"),
        "selvage.cli.Main",
        "watch-worker");
  }

  private void drain() throws Exception {
    watch(HotFolderFixture.settings(root)).run(true);
  }

  private Watch watch(WatchSettings settings) {
    return new Watch(
        settings,
        workerCommand(),
        new EventLog(new PrintWriter(logged), EventLog.Form.TEXT, Clock.systemUTC()),
        Clock.systemUTC());
  }

  private Path at(String path) {
    return root.resolve(path);
  }

  private void drop(String name, byte[] bytes) throws IOException {
    drop("in", name, bytes);
  }

  private void drop(String folder, String name, byte[] bytes) throws IOException {
    Path file = at(folder).resolve(name);
    Files.createDirectories(file.getParent());
    Files.write(file, bytes);
  }

  @Test
  void run_goodAndBadJobs_areStampedOrRefusedAndFiled() throws Exception {
    String odd = "große Broschüre (2) 印刷";
    drop("sub/" + odd + ".pdf", HotFolderFixture.job(1));
    drop("same-bytes.pdf", HotFolderFixture.job(1));
    drop("broken.pdf", "%PDF-1.4 nothing\n%%EOF\n".getBytes(StandardCharsets.US_ASCII));
    drop("note.txt", "not a job".getBytes(StandardCharsets.US_ASCII));
    drain();
    for (String name : List.of("sub/" + odd, "same-bytes")) {
      assertThat(at("out/" + name + ".proof.pdf")).exists();
      assertThat(at("out/" + name + ".proof.strips.json")).exists();
      assertThat(at("out/" + name + ".proof.strip-p001.txt")).exists();
      assertThat(at("done/" + name + ".pdf")).hasBinaryContent(HotFolderFixture.job(1));
    }
    assertThat(at("refused/broken.pdf")).exists();
    assertThat(at("refused/broken.why.txt")).content().contains("broken.pdf was refused on");
    assertThat(at("refused/note.why.txt")).content().contains("expected a PDF, TIFF or JPEG");
    assertThat(leftInHiddenFolders()).isEmpty();
    try (Ledger ledger = Ledger.open(at("ledger.db").toString())) {
      assertThat(ledger.jobs(JobFilter.ALL, 10))
          .extracting(JobRecord::file, one -> one.state().word())
          .containsExactlyInAnyOrder(
              org.assertj.core.groups.Tuple.tuple("sub/" + odd + ".pdf", "stamped"),
              org.assertj.core.groups.Tuple.tuple("same-bytes.pdf", "stamped"),
              org.assertj.core.groups.Tuple.tuple("broken.pdf", "refused"),
              org.assertj.core.groups.Tuple.tuple("note.txt", "refused"));
    }
  }

  @Test
  void run_sameJobTwice_isStampedOnceAndRefusedWithAWord() throws Exception {
    drop("a.pdf", HotFolderFixture.job(1));
    drain();
    drop("a.pdf", HotFolderFixture.job(1));
    drain();
    assertThat(at("refused/a.why.txt")).content().contains("was stamped before", "a.proof.pdf");
    assertThat(at("out/a-2.proof.pdf")).doesNotExist();
  }

  @Test
  void run_changedJobUnderTheSameName_getsItsOwnProof() throws Exception {
    drop("a.pdf", HotFolderFixture.job(1));
    drain();
    byte[] first = Files.readAllBytes(at("out/a.proof.pdf"));
    drop("a.pdf", HotFolderFixture.job(2));
    drain();
    assertThat(at("out/a.proof.pdf")).hasBinaryContent(first);
    assertThat(at("out/a-2.proof.pdf")).exists();
    assertThat(at("out/a-2.proof.strips.json")).content().contains("a-2.proof.pdf");
    assertThat(at("done/a-2.pdf")).hasBinaryContent(HotFolderFixture.job(2));
  }

  @Test
  void run_measurements_findTheirProofByIdOrByTheirReadings() throws Exception {
    drop("a.pdf", HotFolderFixture.job(1));
    drop("b.pdf", HotFolderFixture.job(7));
    drain();
    measure("b", "named.txt", true);
    measure("a", "nameless.txt", false);
    Files.writeString(at("measured/other.txt"), "CGATS.17\nno readings here\n");
    drain();
    assertThat(scores("b")).hasSize(1);
    assertThat(scores("a")).hasSize(1);
    assertThat(Files.readString(scores("a").get(0))).contains("\"verdict\"", "\"filed\"");
    assertThat(Path.of(scores("a").get(0).toString().replace(".json", ".pdf"))).exists();
    assertThat(at("done/named.txt")).exists();
    assertThat(at("refused/other.why.txt")).exists();
    try (Ledger ledger = Ledger.open(at("ledger.db").toString())) {
      assertThat(ledger.jobs(JobFilter.in(JobRecord.State.MEASUREMENT_REFUSED), 10))
          .extracting(JobRecord::file)
          .containsExactly("other.txt");
      assertThat(ledger.count().scores()).isEqualTo(2);
    }
  }

  @Test
  void run_measurementOfNoProof_isRefusedWithTheNearestNamed() throws Exception {
    drop("a.pdf", HotFolderFixture.job(1));
    drop("b.pdf", HotFolderFixture.job(7));
    drain();
    measure("b", "far.txt", false);
    String text = Files.readString(at("measured/far.txt"));
    StringBuilder shuffled = new StringBuilder();
    boolean isData = false;
    List<String> rows = new ArrayList<>();
    for (String line : text.lines().toList()) {
      isData |= line.startsWith("BEGIN_DATA") && !line.startsWith("BEGIN_DATA_FORMAT");
      isData &= !line.startsWith("END_DATA") || line.startsWith("END_DATA_FORMAT");
      if (isData && !line.startsWith("BEGIN_DATA")) {
        String[] cells = line.split("\t", -1);
        cells[cells.length - 3] = "50";
        cells[cells.length - 2] = "60";
        cells[cells.length - 1] = "-60";
        rows.add(line);
        shuffled.append(String.join("\t", cells)).append('\n');
      } else {
        shuffled.append(line).append('\n');
      }
    }
    assertThat(rows).isNotEmpty();
    Files.writeString(at("measured/far.txt"), shuffled);
    drain();
    assertThat(scores("a")).isEmpty();
    assertThat(scores("b")).isEmpty();
    assertThat(at("refused/far.why.txt")).exists();
  }

  @Test
  void run_outgoingGoneAndBack_waitsAndGoesOnByItself() throws Exception {
    Watch watch = watch(HotFolderFixture.settings(root));
    Thread watching = started(watch);
    await("watching");
    Files.move(at("out"), at("away"));
    drop("in", "a.pdf", HotFolderFixture.job(1));
    await("trouble");
    assertThat(at("out")).doesNotExist();
    Files.move(at("away"), at("out"));
    await("recovered");
    watch.stop(Duration.ofSeconds(60));
    watching.join();
    assertThat(at("out/a.proof.pdf")).exists();
  }

  @Test
  void run_incomingGoneAndBack_waitsAndGoesOnByItself() throws Exception {
    Watch watch = watch(HotFolderFixture.settings(root));
    Thread watching = started(watch);
    await("watching");
    Files.move(at("in"), at("away"));
    await("trouble");
    drop("away", "a.pdf", HotFolderFixture.job(1));
    Files.move(at("away"), at("in"));
    await("stamped");
    watch.stop(Duration.ofSeconds(60));
    watching.join();
    assertThat(at("out/a.proof.pdf")).exists();
  }

  @Test
  void stop_whileAJobIsWorkedOn_finishesOrReturnsIt() throws Exception {
    for (int i = 0; i < 12; i++) {
      drop("job" + i + ".pdf", HotFolderFixture.job(i));
    }
    Watch watch = watch(HotFolderFixture.settings(root));
    Thread watching = started(watch);
    await("stamped");
    watch.stop(Duration.ofMillis(1));
    watching.join();
    for (int i = 0; i < 12; i++) {
      boolean isStamped = Files.exists(at("out/job" + i + ".proof.pdf"));
      assertThat(Files.exists(at("in/job" + i + ".pdf"))).isNotEqualTo(isStamped);
      assertThat(Files.exists(at("done/job" + i + ".pdf"))).isEqualTo(isStamped);
    }
    drain();
    for (int i = 0; i < 12; i++) {
      assertThat(at("out/job" + i + ".proof.pdf")).exists();
    }
    assertThat(leftInHiddenFolders()).isEmpty();
  }

  private static Thread started(Watch watch) {
    Thread thread =
        new Thread(
            () -> {
              try {
                watch.run(false);
              } catch (InputException | InterruptedException e) {
                throw new AssertionError(e);
              }
            });
    thread.start();
    return thread;
  }

  private void await(String event) throws InterruptedException {
    for (int i = 0; i < 1200 && !logged.toString().contains(event); i++) {
      Thread.sleep(100);
    }
    assertThat(logged.toString()).contains(event);
  }

  private void measure(String proof, String name, boolean withId) throws Exception {
    Path strips = at("out/" + proof + ".proof.strips.json");
    Path rehearsed = root.resolve("rehearsed.txt");
    new RehearseProof(StripChoice.ANY, Optional.empty(), Drift.NONE).run(strips, rehearsed);
    String text = Files.readString(rehearsed);
    Files.writeString(
        at("measured/" + name), withId ? text : text.replaceAll("(?m)^STRIP_ID.*\n", ""));
  }

  private List<Path> scores(String proof) throws IOException {
    try (Stream<Path> files = Files.list(at("out"))) {
      return files
          .filter(
              file ->
                  String.valueOf(file.getFileName()).startsWith(proof + ".proof.score-")
                      && file.toString().toLowerCase(Locale.ROOT).endsWith(".json"))
          .toList();
    }
  }

  private List<Path> leftInHiddenFolders() throws IOException {
    List<Path> left = new ArrayList<>();
    for (String folder : Arrays.asList("in", "out", "refused", "measured", "done")) {
      Path hidden = at(folder + "/.selvage");
      if (Files.isDirectory(hidden)) {
        try (Stream<Path> files = Files.walk(hidden)) {
          files
              .filter(file -> Files.isRegularFile(file) && !file.endsWith("lock"))
              .forEach(left::add);
        }
      }
    }
    return left;
  }
}
