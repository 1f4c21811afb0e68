package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.ledger.JobRecord;
import selvage.ledger.LedgerFixture;

class ProofFilesTest {
  @TempDir Path root;
  private Path out;
  private ProofFiles files;

  @BeforeEach
  void makeFolder() throws IOException {
    out = Files.createDirectories(root.resolve("out"));
    files = new ProofFiles(out);
  }

  private static JobRecord job(String proof) {
    JobRecord job = LedgerFixture.stamped(1, "a.pdf");
    return new JobRecord(
        job.jobId(),
        job.folder(),
        job.file(),
        job.sha256(),
        job.bytes(),
        job.received(),
        job.finished(),
        job.state(),
        Optional.of(proof),
        Optional.of(proof.replace(".pdf", ".strips.json")),
        Optional.empty());
  }

  @Test
  void files_besideTheProof_areFound() throws IOException {
    Files.createDirectories(out.resolve("north"));
    for (String name :
        new String[] {"a.proof.pdf", "a.proof.strip-p012.txt", "a.proof.score-00000abc.pdf"}) {
      Files.writeString(out.resolve("north").resolve(name), name);
    }
    JobRecord job = job("north/a.proof.pdf");

    assertThat(files.proof(job)).contains(out.toRealPath().resolve("north/a.proof.pdf"));
    assertThat(files.stripText(job, 12)).isPresent();
    assertThat(files.stripText(job, 13)).isEmpty();
    assertThat(files.score(job, "00000abcdef", ".pdf")).isPresent();
    assertThat(files.strips(job)).isEmpty();
  }

  @Test
  void files_outsideTheFolder_areNone() throws IOException {
    Files.writeString(root.resolve("secret.pdf"), "secret");
    Files.createSymbolicLink(out.resolve("link.pdf"), root.resolve("secret.pdf"));

    assertThat(files.proof(job("../secret.pdf"))).isEmpty();
    assertThat(files.proof(job(root.resolve("secret.pdf").toString()))).isEmpty();
    assertThat(files.proof(job("link.pdf"))).isEmpty();
    assertThat(files.proof(job("."))).isEmpty();
  }

  @Test
  void files_ofAFolderThatIsAway_areNone() {
    assertThat(new ProofFiles(root.resolve("away")).proof(job("a.proof.pdf"))).isEmpty();
  }
}
