package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command that a newcomer runs first. */
class DemoEndToEndTest {
  @TempDir Path folder;

  @Test
  void demo_emptyFolder_passesOneProofAndFailsTheOther() throws IOException {
    Path target = folder.resolve("a folder").resolve("demo");
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();

    int status =
        Main.run(
            new String[] {"demo", target.toString()}, new PrintWriter(out), new PrintWriter(err));

    assertThat(err.toString()).isEmpty();
    assertThat(status).isEqualTo(ExitStatus.DONE);
    assertThat(out.toString())
        .contains("The good proof", ": PASS", "The bad proof", ": FAIL")
        .contains("let the bad proof through")
        .contains("INVENTED season", "150 proofs", "Escapes", "drift alarms")
        .contains("SIMULATED", "do not replace")
        .contains(target.resolve("proof.pdf").toString());
    try (Stream<Path> files = Files.list(target)) {
      assertThat(files.map(file -> file.getFileName().toString()))
          .containsExactlyInAnyOrder(
              "demo-job.pdf",
              "demo-spots.txt",
              "survey.json",
              "proof.pdf",
              "proof.strips.json",
              "proof.strip-p001.txt",
              "proof.strip-p002.txt",
              "good-measured.txt",
              "good-score.txt",
              "good-score.json",
              "good-report.pdf",
              "bad-measured.txt",
              "bad-score.txt",
              "bad-score.json",
              "bad-report.pdf",
              "season.db",
              "season-comparison.pdf");
    }
  }

  @Test
  void demo_folderIsAFile_refusesTheInput() throws IOException {
    Path file = Files.writeString(folder.resolve("taken"), "here");
    StringWriter err = new StringWriter();

    int status =
        Main.run(
            new String[] {"demo", file.toString()},
            new PrintWriter(new StringWriter()),
            new PrintWriter(err));

    assertThat(status).isEqualTo(ExitStatus.INPUT);
    assertThat(err.toString()).contains("taken").hasLineCount(1);
  }
}
