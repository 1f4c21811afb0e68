package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LauncherTest {
  @ParameterizedTest
  @ValueSource(strings = {"survey", "stamp", "rehearse", "score", "demo", "--help", "-V"})
  void isShort_commandThatIsSoonOver_isTrue(String first) {
    assertThat(Launcher.isShort(new String[] {first, "more"})).isTrue();
  }

  @ParameterizedTest
  @ValueSource(strings = {"watch", "serve", "", "Survey", "job.pdf"})
  void isShort_anythingElse_isFalse(String first) {
    assertThat(Launcher.isShort(new String[] {first})).isFalse();
  }

  @Test
  void isShort_nothing_isTrue() {
    assertThat(Launcher.isShort(new String[0])).isTrue();
  }

  @Test
  void isPlainStart_jarAndItsArguments_isTrue() {
    assertThat(ProcessFacts.isPlainStart(words("java", "-jar", "a b.jar"), 0)).isTrue();
    assertThat(ProcessFacts.isPlainStart(words("/x/java", "-jar", "a.jar", "survey", ""), 2))
        .isTrue();
    assertThat(ProcessFacts.isPlainStart(words("", "-jar", "a.jar"), 0)).isTrue();
  }

  @Test
  void isPlainStart_withAnOption_isFalse() {
    assertThat(ProcessFacts.isPlainStart(words("java", "-Xmx1g", "-jar", "a.jar", "demo"), 1))
        .isFalse();
    assertThat(ProcessFacts.isPlainStart(words("java", "-jar", "-Xmx1g", "a.jar", "demo"), 1))
        .isFalse();
    assertThat(ProcessFacts.isPlainStart(words("java", "-cp", "a.jar", "selvage.cli.Main"), 1))
        .isFalse();
    assertThat(ProcessFacts.isPlainStart(words("java", "@options", "demo"), 1)).isFalse();
    assertThat(ProcessFacts.isPlainStart(words("java", "-jars", "a.jar"), 0)).isFalse();
  }

  @Test
  void isPlainStart_nothingKnown_isFalse() {
    assertThat(ProcessFacts.isPlainStart(new byte[0], 0)).isFalse();
  }

  @Test
  void parentId_nameWithBlanksAndParentheses_isTheFourthField() {
    assertThat(ProcessFacts.parentId("71 (a) 9 (b) S 4711 71 1 0 -1")).isEqualTo("4711");
  }

  @Test
  void secondProcess_noSuchProgram_doesNotStart() {
    assertThat(new SecondProcess().start(List.of("/no/such/program"))).isFalse();
  }

  @Test
  void isComplete_onlyWithTheMarkAtTheEnd(@TempDir Path folder) throws IOException {
    assertThat(Launcher.isComplete(Files.writeString(folder.resolve("a"), "xcomplete").toString()))
        .isTrue();
    assertThat(Launcher.isComplete(Files.writeString(folder.resolve("b"), "xcomplet").toString()))
        .isFalse();
    assertThat(Launcher.isComplete(Files.writeString(folder.resolve("c"), "x").toString()))
        .isFalse();
    assertThat(Launcher.isComplete(folder.resolve("none").toString())).isFalse();
    assertThat(Launcher.isComplete(folder.toString())).isFalse();
  }

  @Test
  void isLarge_fromEightMegabytesOn(@TempDir Path folder) throws IOException {
    Path below = Files.write(folder.resolve("below.pdf"), new byte[(8 << 20) - 1]);
    Path from = Files.write(folder.resolve("from.pdf"), new byte[8 << 20]);
    assertThat(Launcher.isLarge(new String[] {"survey", below.toString(), "--dpi", ""})).isFalse();
    assertThat(Launcher.isLarge(new String[] {"survey", "-o", "none", from.toString()})).isTrue();
  }

  private static byte[] words(String... words) {
    return (String.join("\0", words) + "\0").getBytes(StandardCharsets.UTF_8);
  }
}
