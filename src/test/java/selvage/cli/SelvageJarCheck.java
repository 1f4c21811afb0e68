package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import selvage.measurement.StripFixture;
import selvage.strip.StripsJson;

/** The jar as the build makes it, and the archive of classes beside it; run after packaging. */
@Timeout(120)
class SelvageJarCheck {
  private static final Path JAR = Path.of("target", "selvage.jar").toAbsolutePath();
  private static final Path ARCHIVE = JAR.resolveSibling("selvage.jsa");
  private static final String JOB = Path.of("testdata", "demo-job.pdf").toAbsolutePath().toString();
  private static final String[] SURVEY = {"survey", JOB, "--dpi", "36", "--json", "-"};

  @TempDir Path folder;

  @Test
  void survey_besideTheArchive_saysWhatItSaysWithout() throws Exception {
    JarRun jar = JarRun.of(JAR, folder);

    JarRun.Result with = jar.run(SURVEY);

    assertThat(with.status()).isEqualTo(ExitStatus.DONE);
    assertThat(with.err()).isEmpty();
    assertThat(with).isEqualTo(jar.runInOne(SURVEY));
  }

  /** Migrations and database drivers are found by services files, which a jar of jars may lose. */
  @Test
  void ledger_ofTheJar_isMadeAndRead() throws Exception {
    JarRun jar = JarRun.of(JAR, folder);
    String ledger = folder.resolve("shop.db").toString();

    JarRun.Result made =
        jar.run("ledger", "calibrate", "--ledger", ledger, "--proofing-system", "A");
    JarRun.Result read = jar.run("compare", "--ledger", ledger);

    assertThat(made).isEqualTo(new JarRun.Result(ExitStatus.DONE, "", ""));
    assertThat(read.status()).isEqualTo(ExitStatus.DONE);
    assertThat(read.err()).isEmpty();
    assertThat(read.out()).contains("Nothing to compare");
  }

  /** Its libraries would cost every start that needs none of them. */
  @Test
  void start_withoutALedger_loadsNothingOfIt() throws Exception {
    Path strips = folder.resolve("flyer.strips.json");
    Files.writeString(
        strips, StripsJson.write(StripFixture.file(StripFixture.strip("KM7T-90QA", 1)), List.of()));
    JarRun jar = JarRun.of(JAR, folder);
    String measured = folder.resolve("measured.txt").toString();
    jar.run("rehearse", strips.toString(), "-o", measured);
    Path log = folder.resolve("classes.log");

    JarRun.Result scored =
        jar.run(
            Map.of(),
            List.of(JarRun.ONE_PROCESS, "-Xlog:class+load:file=" + log),
            "score",
            strips.toString(),
            measured);

    assertThat(scored.status()).as(scored.out() + scored.err()).isEqualTo(ExitStatus.DONE);
    assertThat(log)
        .content()
        .contains("selvage.score.Scoring ")
        .doesNotContain(
            "selvage.ledger.", "org.jdbi", "org.flywaydb", "org.sqlite", "org.postgresql");
  }

  /** Java refuses to run with {@code -Xshare:on} where it can't use the archive. */
  @Test
  void archive_ofTheBuild_servesTheJar() throws Exception {
    assertThat(Launcher.isComplete(ARCHIVE.toString())).isTrue();
    List<String> options =
        List.of("-Xshare:on", "-XX:SharedArchiveFile=" + ARCHIVE, "-XX:+UseSerialGC");

    JarRun.Result shared = JarRun.of(JAR, folder).run(Map.of(), options, SURVEY);

    assertThat(shared.status()).as(shared.out() + shared.err()).isEqualTo(ExitStatus.DONE);
  }

  @Test
  void archive_cutShort_isPassedOverWithoutAWord() throws Exception {
    byte[] whole = Files.readAllBytes(ARCHIVE);
    JarRun jar = JarRun.of(JAR, folder);
    JarRun.Result right = jar.run(SURVEY);
    JarRun elsewhere = JarRun.of(copyOfJar(), folder);

    for (int length : new int[] {0, 100, 4096, whole.length / 3, whole.length - 9}) {
      Files.write(folder.resolve("selvage.jsa"), Arrays.copyOf(whole, length));
      assertThat(elsewhere.run(SURVEY)).as("cut to %d bytes", length).isEqualTo(right);
    }
  }

  @Test
  void archive_ofAJarThatMoved_isPassedOverWithoutAWord() throws Exception {
    Path copy = copyOfJar();
    Files.copy(ARCHIVE, folder.resolve("selvage.jsa"));

    assertThat(JarRun.of(copy, folder).run(SURVEY)).isEqualTo(JarRun.of(JAR, folder).run(SURVEY));
  }

  private Path copyOfJar() throws IOException {
    return Files.copy(JAR, folder.resolve("selvage.jar"), StandardCopyOption.COPY_ATTRIBUTES);
  }
}
