package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.strip.ChosenPatch;
import selvage.strip.ChosenSet;
import selvage.strip.Reason;

class DeskWorkTest {
  @TempDir private Path root;
  private WatchSettings settings;
  private Path job;

  @BeforeEach
  void prepare() throws IOException {
    settings = HotFolderFixture.settings(root);
    job = Files.write(root.resolve("job.pdf"), HotFolderFixture.job(1));
  }

  private DeskWork open() throws InputException, IOException {
    DeskWork work =
        new DeskWork(
            settings,
            root.resolve("claims"),
            new EventLog(
                new PrintWriter(new StringWriter()), EventLog.Form.TEXT, Clock.systemUTC()),
            Clock.systemUTC());
    work.prepare();
    return work;
  }

  private FolderSettings folder() {
    return settings.folders().get(0);
  }

  private List<String> names(Path among) throws IOException {
    try (Stream<Path> files = Files.list(among)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> !name.startsWith("."))
          .sorted()
          .toList();
    }
  }

  private Optional<JobRecord> filed(String id) throws InputException {
    try (Ledger ledger = Ledger.open(settings.ledger())) {
      return ledger.job(id);
    }
  }

  @Test
  void stamp_chosenSet_liesInTheOutgoingFolderWithWhatComesBeside() throws Exception {
    String id = DeskWork.newId();
    ChosenSet set =
        new ChosenSet(
            List.of(new ChosenPatch(InkMixture.cmyk(0, 100, 0, 0), Reason.OPERATOR)), false);
    try (DeskWork work = open()) {
      DeskWork.Done done =
          work.stamp(folder(), id, "flyer.pdf", job, Map.of(1, set), Map.of(".note.txt", "hello"));
      assertThat(done.id()).isEqualTo(id);
      assertThat(done.text()).contains("flyer.proof.pdf");
    }
    Path out = folder().places().outgoing();
    assertThat(names(out))
        .containsExactly(
            "flyer.job.json",
            "flyer.note.txt",
            "flyer.proof.pdf",
            "flyer.proof.strip-p001.txt",
            "flyer.proof.strips.json");
    assertThat(out.resolve("flyer.proof.strips.json")).content().contains("\"operator\"");
    assertThat(names(folder().places().done())).containsExactly("flyer.pdf");
    assertThat(job).exists();
    assertThat(names(root.resolve("claims"))).isEmpty();
    JobRecord record = filed(id).orElseThrow();
    assertThat(record.state()).isEqualTo(JobRecord.State.STAMPED);
    assertThat(record.proof()).hasValue("flyer.proof.pdf");
  }

  @Test
  void stamp_noJob_isToldAndLeavesNothing() throws Exception {
    Files.writeString(job, "no job");
    try (DeskWork work = open()) {
      assertThatThrownBy(
              () -> work.stamp(folder(), DeskWork.newId(), "flyer.pdf", job, Map.of(), Map.of()))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("flyer.pdf")
          .hasMessageNotContaining("claims");
    }
    assertThat(names(folder().places().outgoing())).isEmpty();
    assertThat(names(folder().places().refused())).isEmpty();
    assertThat(names(root.resolve("claims"))).isEmpty();
  }

  @Test
  void prepare_decidedBeforeAStop_isCarriedOut() throws Exception {
    String id = DeskWork.newId();
    try (DeskWork work = open()) {
      // The ledger goes away, so that the plan is written and not carried out to its end.
      Files.delete(root.resolve("ledger.db"));
      Files.createDirectory(root.resolve("ledger.db"));
      assertThatThrownBy(() -> work.stamp(folder(), id, "flyer.pdf", job, Map.of(), Map.of()))
          .isInstanceOf(IOException.class);
    }
    assertThat(names(root.resolve("claims"))).containsExactly(id);
    Files.delete(root.resolve("ledger.db"));
    open().close();
    assertThat(names(root.resolve("claims"))).isEmpty();
    assertThat(names(folder().places().outgoing())).contains("flyer.proof.pdf");
    assertThat(filed(id)).isPresent();
  }

  @Test
  void prepare_deskInUse_isRefusedAndDisturbsNothing() throws Exception {
    try (DeskWork work = open()) {
      Path under = root.resolve("claims").resolve(DeskWork.newId());
      Files.createDirectories(under);
      assertThatThrownBy(this::open)
          .isInstanceOf(InputException.class)
          .hasMessageContaining("another server");
      assertThat(under).exists();
      assertThat(work.stamp(folder(), DeskWork.newId(), "a.pdf", job, Map.of(), Map.of()).outcome())
          .isEqualTo("stamped");
    }
  }

  @Test
  void prepare_nothingDecidedBeforeAStop_leavesNothing() throws Exception {
    Path area = root.resolve("claims").resolve(DeskWork.newId());
    Files.createDirectories(area.resolve("file"));
    Files.writeString(area.resolve("folder"), "house");
    Files.copy(job, area.resolve("file").resolve("flyer.pdf"));
    open().close();
    assertThat(names(root.resolve("claims"))).isEmpty();
    assertThat(names(folder().places().outgoing())).isEmpty();
  }

  @Test
  void original_ofAStampedJob_isFoundByItsBytes() throws Exception {
    String id = DeskWork.newId();
    try (DeskWork work = open()) {
      Files.write(folder().places().done().resolve("flyer.pdf"), HotFolderFixture.job(2));
      work.stamp(folder(), id, "flyer.pdf", job, Map.of(), Map.of());
      Path found = work.original(folder(), filed(id).orElseThrow()).orElseThrow();
      assertThat(found).hasSameBinaryContentAs(job);
      Files.delete(found);
      assertThat(work.original(folder(), filed(id).orElseThrow())).isEmpty();
    }
  }
}
