package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.measurement.StripFixture;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.survey.JobFile;

/** {@code score --ledger}, {@code ledger} and {@code compare} as a user calls them. */
class LedgerEndToEndTest {
  @TempDir Path folder;
  private Path strips;
  private Path ledger;
  private StringWriter out;
  private StringWriter err;

  @BeforeEach
  void writeStrips() throws IOException {
    ledger = folder.resolve("ledger.db");
    strips = folder.resolve("flyer.strips.json");
    StripsFile file =
        new StripsFile(
            new JobFile("flyer.pdf", "0".repeat(64), 2),
            "flyer-proof.pdf",
            "FOGRA39",
            "built-in",
            List.of(StripFixture.strip("KM7T-90QA", 1), StripFixture.strip("XX00-Q1ZZ", 2)),
            List.of(
                new StripLabel.Item("Proofing system", "=Alder, \"old\""),
                new StripLabel.Item("Substrate", "semi-matt")));
    Files.writeString(strips, StripsJson.write(file, List.of()));
  }

  @Test
  void score_intoALedger_twiceAddsNothing() throws IOException {
    Path measured = rehearse("one", "--spot", "Dune Red=2,-4,3");
    Path json = folder.resolve("one.score.json");
    for (int i = 0; i < 2; i++) {
      assertThat(run("score", strips, measured, "--ledger", ledger, "--json", json, "--quiet"))
          .isEqualTo(ExitStatus.FAIL);
    }
    assertThat(run("compare", "--ledger", ledger, "--json", "-")).isZero();
    JsonNode comparison = json();
    assertThat(comparison.path("pairs").intValue()).isEqualTo(2);
    assertThat(comparison.path("earlier_scores_left_out").intValue()).isZero();
    assertThat(comparison.path("verdicts").path("escapes").path("count").intValue()).isEqualTo(2);
    assertThat(comparison.path("colors").get(0).path("inks").path("Dune Red").doubleValue())
        .isEqualTo(100);

    assertThat(run("ledger", "rebuild", "--ledger", folder.resolve("anew.db"), folder)).isZero();
    assertThat(out.toString()).contains("1 jobs, 1 scores").doesNotContain("passed over");
    assertThat(run("compare", "--ledger", folder.resolve("anew.db"), "--json", "-")).isZero();
    assertThat(json().path("strips")).isEqualTo(comparison.path("strips"));
  }

  @Test
  void compare_filters_takeTheLabelsWords() throws IOException {
    run("score", strips, rehearse("one"), "--ledger", ledger, "--time", "2026-09-10T10:00:00Z");
    assertThat(pairs("--proofing-system", "=Alder, \"old\"")).isEqualTo(2);
    assertThat(pairs("--proofing-system", "Birch")).isZero();
    assertThat(pairs("--substrate", "semi-matt", "--condition", "FOGRA39")).isEqualTo(2);
    assertThat(pairs("--from", "2026-09-10", "--to", "2026-09-10")).isEqualTo(2);
    assertThat(pairs("--from", "2026-09-11")).isZero();
    assertThat(pairs("--to", "2026-09-09")).isZero();
    assertThat(pairs("--to", "2026-09-10T10:00:00Z")).isZero();
  }

  @Test
  void compare_csvAndReport_areWritten() throws IOException {
    run("score", strips, rehearse("one"), "--ledger", ledger);
    Path csv = folder.resolve("rows.csv");
    Path report = folder.resolve("plots.pdf");
    Path again = folder.resolve("again.pdf");
    String time = "2026-11-25T10:03:00Z";
    assertThat(run("compare", "--ledger", ledger, "--csv", csv, "--report", report, "--time", time))
        .isZero();
    assertThat(out.toString())
        .contains("2 scored strips", "SIMULATED", "McNemar", "too few", "do not replace");
    assertThat(csv)
        .content()
        .hasLineCount(3)
        .contains("\"'=Alder, \"\"old\"\"\",semi-matt,FOGRA39,true,pass,pass,");
    assertThat(report).content(java.nio.charset.StandardCharsets.ISO_8859_1).startsWith("%PDF-1.");
    run("compare", "--ledger", ledger, "--report", again, "--time", time);
    assertThat(again).hasSameBinaryContentAs(report);
  }

  @Test
  void compare_emptyLedger_saysThatThereIsNothing() throws IOException {
    run("ledger", "calibrate", "--ledger", ledger, "--proofing-system", "Alder");
    Path report = folder.resolve("plots.pdf");
    assertThat(run("compare", "--ledger", ledger, "--report", report)).isZero();
    assertThat(out.toString()).contains("Nothing to compare");
    assertThat(report).isNotEmptyFile();
  }

  @Test
  void compare_noSuchLedgerOrWrongWords_areRefused() {
    assertThat(run("compare", "--ledger", folder.resolve("none.db"))).isEqualTo(ExitStatus.INPUT);
    assertThat(err.toString()).contains("none.db", "no such ledger").hasLineCount(1);
    assertThat(folder.resolve("none.db")).doesNotExist();
    assertThat(run("compare", "--ledger", ledger, "--from", "yesterday"))
        .isEqualTo(ExitStatus.USAGE);
    assertThat(run("compare", "--ledger", ledger, "--baseline", "2")).isEqualTo(ExitStatus.USAGE);
    assertThat(run("compare")).isEqualTo(ExitStatus.USAGE);
    assertThat(run("ledger")).isEqualTo(ExitStatus.USAGE);
    assertThat(run("ledger", "--help")).isZero();
    assertThat(out.toString()).contains("rebuild", "backup", "calibrate");
  }

  @Test
  void ledgerBackup_ofALedgerInUse_canBeCompared() throws IOException {
    run("score", strips, rehearse("one"), "--ledger", ledger);
    Path copy = folder.resolve("copy.db");
    assertThat(run("ledger", "backup", "--ledger", ledger, copy)).isZero();
    ledger = copy;
    assertThat(pairs()).isEqualTo(2);
    assertThat(run("ledger", "backup", "--ledger", ledger, copy)).isEqualTo(ExitStatus.INPUT);
  }

  private Path rehearse(String name, String... drift) {
    Path measured = folder.resolve(name + ".txt");
    Object[] arguments =
        Stream.concat(Stream.of("rehearse", strips, "-o", measured), Stream.of(drift)).toArray();
    assertThat(run(arguments)).isZero();
    return measured;
  }

  private int pairs(String... filter) throws IOException {
    Object[] arguments =
        Stream.concat(Stream.of("compare", "--ledger", ledger, "--json", "-"), Stream.of(filter))
            .toArray();
    assertThat(run(arguments)).isZero();
    return json().path("pairs").intValue();
  }

  private JsonNode json() throws IOException {
    return new ObjectMapper().readTree(out.toString());
  }

  private int run(Object... arguments) {
    out = new StringWriter();
    err = new StringWriter();
    return Main.run(
        Stream.of(arguments).map(Object::toString).toArray(String[]::new),
        new PrintWriter(out),
        new PrintWriter(err));
  }
}
