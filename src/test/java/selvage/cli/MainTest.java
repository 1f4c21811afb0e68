package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MainTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String line) {
    String[] args = line.isEmpty() ? new String[0] : line.split(" ");
    return Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "unknown",
        "survey",
        "survey a.pdf b.pdf",
        "survey a.pdf --dpi many",
        "survey a.pdf --area paper",
        "survey a.pdf --no-such-option",
        "survey a.pdf --dpi",
        "stamp a.pdf",
        "stamp -o b.pdf",
        "stamp a.pdf -o b.pdf --per sheet",
        "rehearse",
        "rehearse a.json",
        "score",
        "score a.json",
      })
  void run_wrongUse_saysSoAndShowsTheHelp(String line) {
    assertThat(run(line)).isEqualTo(ExitStatus.USAGE);
    assertThat(err.toString()).contains("Usage: selvage");
    assertThat(out.toString()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"survey", "stamp", "rehearse", "score", "demo"})
  void run_help_namesTheCommandAndItsOptions(String command) {
    assertThat(run(command + " --help")).isEqualTo(ExitStatus.DONE);
    assertThat(out.toString()).startsWith("Usage: selvage " + command + " ").contains("--json");
    assertThat(err.toString()).isEmpty();
  }

  @Test
  void run_helpOfAll_namesEveryCommand() {
    assertThat(run("--help")).isEqualTo(ExitStatus.DONE);
    assertThat(out.toString()).contains("survey", "stamp", "rehearse", "score", "demo", "support");
  }

  @Test
  void run_version_isOneLine() {
    assertThat(run("--version")).isEqualTo(ExitStatus.DONE);
    assertThat(out.toString().strip()).startsWith("selvage ").doesNotContain("\n");
  }
}
