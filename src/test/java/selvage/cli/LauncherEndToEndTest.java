package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A command in a second process does what it does in one. */
@Timeout(240)
class LauncherEndToEndTest {
  private static final String JOB = Path.of("testdata", "demo-job.pdf").toAbsolutePath().toString();

  /** Some ten seconds of work. */
  private static final String[] LONG = {"survey", JOB, "--dpi", "1000", "--json", "survey.json"};

  @TempDir Path folder;
  private JarRun jar;

  @BeforeEach
  void makeJar() throws IOException {
    jar = JarRun.ofClasses(folder);
  }

  @Test
  void survey_job_saysTheSame() throws Exception {
    JarRun.Result one = jar.runInOne("survey", JOB, "--dpi", "36", "--json", "-");
    JarRun.Result two = jar.run("survey", JOB, "--dpi", "36", "--json", "-");

    assertThat(one.status()).isEqualTo(ExitStatus.DONE);
    assertThat(one.out()).contains("\"pages\"");
    assertThat(two).isEqualTo(one);
  }

  @ParameterizedTest
  @CsvSource({"survey none.pdf, 3", "survey, 2", "stamp --nonsense, 2", "--help, 0", "'', 2"})
  void command_badOrNone_hasTheSameStatusAndWords(String line, int status) throws Exception {
    String[] arguments = line.isEmpty() ? new String[0] : line.split(" ", -1);

    JarRun.Result two = jar.run(arguments);

    assertThat(two.status()).isEqualTo(status);
    assertThat(two).isEqualTo(jar.runInOne(arguments));
  }

  @Test
  void score_outOfTolerance_hasStatusFour() throws Exception {
    assertThat(jar.run("demo", "demo").status()).isEqualTo(ExitStatus.DONE);

    JarRun.Result fail = jar.run("score", "demo/proof.strips.json", "demo/bad-measured.txt");

    assertThat(fail.status()).isEqualTo(ExitStatus.FAIL);
    assertThat(fail.err()).isEmpty();
    assertThat(fail.out()).contains("FAIL");
  }

  @ParameterizedTest
  @ValueSource(strings = {"C", "C.UTF-8", "POSIX"})
  void survey_nameBeyondAscii_endsTheSameInEveryLocale(String locale) throws Exception {
    Files.copy(Path.of(JOB), folder.resolve("caffè 紙.pdf"));
    Map<String, String> environment = Map.of("LC_ALL", locale);
    String[] arguments = {"survey", "caffè 紙.pdf", "--dpi", "36"};

    JarRun.Result two = jar.run(environment, List.of(), arguments);

    assertThat(two).isEqualTo(jar.run(environment, List.of(JarRun.ONE_PROCESS), arguments));
    assertThat(two.status())
        .isEqualTo(locale.equals("C.UTF-8") ? ExitStatus.DONE : ExitStatus.USAGE);
  }

  @Test
  void archive_ofSomethingElse_isPassedOverWithoutAWord() throws Exception {
    Files.writeString(folder.resolve("program.jsa"), "no archive, yet complete");

    JarRun.Result two = jar.run("survey", JOB, "--dpi", "36");

    assertThat(two).isEqualTo(jar.runInOne("survey", JOB, "--dpi", "36"));
    assertThat(two.status()).isEqualTo(ExitStatus.DONE);
    assertThat(two.err()).isEmpty();
  }

  @Test
  void plainStart_onLinux_hasASecondProcess() throws Exception {
    Process process = jar.start(Map.of(), List.of(), LONG);

    assertThat(second(process)).isPresent();
    process.destroy();
    process.waitFor();
  }

  @Test
  void start_withAnOptionOrAVariable_staysOneProcess() throws Exception {
    Process option = jar.start(Map.of(), List.of("-Xmx512m"), LONG);
    Process variable = jar.start(Map.of("JDK_JAVA_OPTIONS", "-Xmx512m"), List.of(), LONG);

    TimeUnit.SECONDS.sleep(2);
    assertThat(option.isAlive()).isTrue();
    assertThat(variable.isAlive()).isTrue();
    assertThat(Stream.concat(option.descendants(), variable.descendants())).isEmpty();
    option.destroyForcibly().waitFor();
    variable.destroyForcibly().waitFor();
  }

  @Test
  void signalToEnd_whileAtWork_endsBothAndWritesNothing() throws Exception {
    Process process = jar.start(Map.of(), List.of(), LONG);
    ProcessHandle second = second(process).orElseThrow();
    TimeUnit.SECONDS.sleep(1);

    process.destroy();

    assertThat(process.waitFor()).isEqualTo(128 + 15);
    assertThat(second.isAlive()).isFalse();
    assertThat(folder.resolve("survey.json")).doesNotExist();
  }

  @Test
  void killed_whileAtWork_takesTheSecondProcessAlong() throws Exception {
    Process process = jar.start(Map.of(), List.of(), LONG);
    ProcessHandle second = second(process).orElseThrow();
    TimeUnit.SECONDS.sleep(1);

    process.destroyForcibly();

    second.onExit().get(20, TimeUnit.SECONDS);
    assertThat(folder.resolve("survey.json")).doesNotExist();
  }

  /** The process that a process has started; on Linux it is there soon. */
  private static Optional<ProcessHandle> second(Process process) throws InterruptedException {
    Assumptions.assumeTrue(
        Files.exists(Path.of("/proc/self/cmdline")), "second processes are started on Linux only");
    Instant end = Instant.now().plus(Duration.ofSeconds(30));
    while (Instant.now().isBefore(end) && process.isAlive()) {
      Optional<ProcessHandle> second = process.descendants().findFirst();
      if (second.isPresent()) {
        return second;
      }
      TimeUnit.MILLISECONDS.sleep(20);
    }
    return Optional.empty();
  }
}
