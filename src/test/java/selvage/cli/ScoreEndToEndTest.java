package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.color.ReferenceConditions;
import selvage.ink.InkMixture;
import selvage.measurement.StripFixture;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/** {@code rehearse} and {@code score} as a user calls them. */
class ScoreEndToEndTest {
  private static final String FIRST = "KM7T-90QA";
  private static final String SECOND = "XX00-Q1ZZ";

  @TempDir Path folder;
  private Path strips;
  private Path measured;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @BeforeEach
  void writeStrips() throws IOException {
    strips = folder.resolve("flyer.strips.json");
    measured = folder.resolve("measured.txt");
    StripsFile file =
        StripFixture.file(StripFixture.strip(FIRST, 1), StripFixture.strip(SECOND, 2));
    Files.writeString(strips, StripsJson.write(file, List.of()));
  }

  @Test
  void score_proofWithoutDrift_statusPassEveryDifferenceZero() throws IOException {
    assertThat(run("rehearse", strips, "-o", measured)).isZero();
    assertThat(run("score", strips, measured, "--page", "2", "--json", "-")).isZero();
    JsonNode json = json();
    assertThat(json.path("strip_id").textValue()).isEqualTo(SECOND);
    assertThat(json.path("verdict").textValue()).isEqualTo("pass");
    assertThat(json.path("patches")).hasSize(11);
    json.path("patches").forEach(patch -> assertThat(patch.path("de00").doubleValue()).isZero());
    assertThat(json.path("findings").toString()).contains("simulated-measurement");
  }

  /** A proof fails, is mended on paper, is printed again through the correction, and passes. */
  @Test
  void score_failingProofPrintedAgainThroughItsCorrection_passes() throws IOException {
    Path fix = folder.resolve("fix.txt");
    Path again = folder.resolve("again.txt");
    String[] drift = {"--tone", "M=15", "--spot", "Dune Red=2,-4,3", "--noise", "0.2"};
    run(with(drift, "rehearse", strips, "-o", measured));
    assertThat(run("score", strips, measured, "--correction", fix, "--json", "-")).isEqualTo(4);
    JsonNode json = json();
    assertThat(json.path("mending").path("predicted")).hasSize(2);
    assertThat(json.path("mending").path("patches").toString()).contains("\"Dune Red\":100");
    assertThat(json.path("scores").get(0).path("diagnosis").path("causes").toString())
        .contains("\"tone\",\"ink\":\"Magenta\"", "\"recipe\",\"ink\":\"Dune Red\"");
    assertThat(fix).content().contains("SIMULATED", "INK_LIMIT", "Magenta");
    run(with(drift, "rehearse", strips, "-o", again, "--correction", fix));
    assertThat(out.toString() + err).contains("printed through");
    assertThat(run("score", strips, again)).isZero();
  }

  /** A patch that was misread by ΔE*ab 20 is named, and hides nothing of what happened. */
  @Test
  void score_onePatchMisread_namedAndTheCauseFound() throws IOException {
    StripFixture fixture = StripFixture.empty();
    for (String ink : List.of("Cyan", "Magenta", "Yellow", "Black")) {
      for (double tint : new double[] {25, 50, 75, 100}) {
        double[] cmyk = InkMixture.ofPercents(Map.of(ink, tint)).cmyk();
        Lab aim =
            ReferenceConditions.defaultCondition().aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab();
        fixture.job("tint", Map.of(ink, tint), aim, "condition", 6);
      }
    }
    StripsFile file = StripFixture.file(fixture.build(FIRST, 1));
    Files.writeString(strips, StripsJson.write(file, List.of()));
    run("rehearse", strips, "-o", measured, "--tone", "M=9", "--noise", "0.2");
    String[] lines = Files.readString(measured).split("\n", -1);
    for (int i = 0; i < lines.length; i++) {
      if (lines[i].startsWith("J010\t")) {
        String[] fields = lines[i].split("\t", -1);
        fields[2] = String.valueOf(Double.parseDouble(fields[2]) - 12);
        fields[4] = String.valueOf(Double.parseDouble(fields[4]) - 16);
        lines[i] = String.join("\t", fields);
      }
    }
    Files.writeString(measured, String.join("\n", lines));
    run("score", strips, measured, "--json", "-");
    JsonNode score = json();
    assertThat(score.path("diagnosis").path("odd_patches").toString()).isEqualTo("[\"J010\"]");
    assertThat(score.path("findings").toString())
        .contains("patch-reads-odd", "J010 reads far off what the rest say: measure it again");
    JsonNode cause = score.path("diagnosis").path("causes").get(0);
    assertThat(cause.path("cause").textValue()).isEqualTo("tone");
    assertThat(cause.path("ink").textValue()).isEqualTo("Magenta");
    assertThat(cause.path("values").get(0).doubleValue()).isBetween(8.5, 9.5);
    assertThat(cause.path("explains_pct").doubleValue()).isGreaterThan(90);
  }

  @Test
  void score_correctionOverItsInput_refused() {
    run("rehearse", strips, "-o", measured, "--tone", "M=15");
    assertThat(run("score", strips, measured, "--correction", measured)).isEqualTo(3);
    assertThat(err.toString()).contains("would overwrite");
  }

  private static Object[] with(String[] options, Object... words) {
    List<Object> all = new ArrayList<>(List.of(words));
    all.addAll(List.of(options));
    return all.toArray();
  }

  @Test
  void score_bothPages_oneListAndTextForEach() throws IOException {
    run("rehearse", strips, "-o", measured, "--noise", "0.2");
    assertThat(run("score", strips, measured)).isZero();
    assertThat(out.toString())
        .contains("✓ PASS (SIMULATED)  page 1, strip " + FIRST)
        .contains("✓ PASS (SIMULATED)  page 2, strip " + SECOND)
        .contains("✓ PASS of all 2 strips");
    Path json = folder.resolve("score.json");
    assertThat(run("score", strips, measured, "--json", json, "--quiet")).isZero();
    assertThat(new ObjectMapper().readTree(json.toFile()).path("scores")).hasSize(2);
    assertThat(out.toString()).isEmpty();
  }

  @Test
  void score_report_filesInEachForm() throws IOException {
    run("rehearse", strips, "-o", measured);
    Path pdf = folder.resolve("report.pdf");
    Path html = folder.resolve("report.HTML");
    Path sticker = folder.resolve("sticker.pdf");
    assertThat(
            run("score", strips, measured, "--report", pdf, "--report", html, "--sticker", sticker))
        .isZero();
    assertThat(Files.readAllBytes(pdf)).startsWith('%', 'P', 'D', 'F');
    assertThat(Files.readAllBytes(sticker)).startsWith('%', 'P', 'D', 'F');
    assertThat(Files.readString(html)).contains("flyer.pdf", FIRST, SECOND);
  }

  @Test
  void score_reportOfUnknownForm_statusUsageAndNothingWritten() {
    run("rehearse", strips, "-o", measured);
    Path report = folder.resolve("report.docx");
    assertThat(run("score", strips, measured, "--report", report)).isEqualTo(2);
    assertThat(report).doesNotExist();
  }

  @Test
  void score_reportOverTheStrips_refusedAndTheyStayAsTheyAre() throws IOException {
    run("rehearse", strips, "-o", measured);
    Path link = folder.resolve("sub").resolve("..").resolve("flyer.strips.json");
    byte[] before = Files.readAllBytes(strips);
    assertThat(run("score", strips, measured, "--sticker", link)).isEqualTo(3);
    assertThat(Files.readAllBytes(strips)).isEqualTo(before);
  }

  @Test
  void score_spotOff_statusFail() {
    run("rehearse", strips, "-o", measured, "--spot", "Dune Red=0,-15,0", "--page", "1");
    assertThat(run("score", strips, measured)).isEqualTo(ExitStatus.FAIL);
    assertThat(out.toString()).startsWith("✗ FAIL").contains("✗ spot-solids");
  }

  @Test
  void score_withinGuardBand_statusUndecided() throws IOException {
    Path tolerance = folder.resolve("ours.json");
    Files.writeString(
        tolerance,
        "{\"selvage_tolerance\":1,\"name\":\"ours\",\"source\":\"test\",\"guard_band\":0.5,"
            + "\"limits\":[{\"name\":\"paper\",\"set\":\"standard\",\"patches\":\"substrate\","
            + "\"metric\":\"de76\",\"statistic\":\"max\",\"limit\":2,\"source\":\"test\","
            + "\"mark\":\"test\"},{\"name\":\"mean\",\"set\":\"job\",\"patches\":\"all\","
            + "\"metric\":\"de76\",\"statistic\":\"mean\",\"limit\":9,\"source\":\"test\","
            + "\"mark\":\"test\"}]}");
    run("rehearse", strips, "-o", measured, "--paper", "-1.8,0,0", "--page", "1");
    assertThat(run("score", strips, measured, "--tolerance", tolerance))
        .isEqualTo(ExitStatus.UNDECIDED);
    assertThat(out.toString()).startsWith("? UNDECIDED").contains("tolerance set ours");
  }

  @Test
  void rehearse_sameSettings_sameBytes() throws IOException {
    Path again = folder.resolve("again.txt");
    Object[] drift = {
      "--tone", "C=+3,M=-2", "--density", "K=-4", "--spot", "all=1,0,0", "--noise", "0.5"
    };
    run(concat(new Object[] {"rehearse", strips, "-o", measured}, drift));
    run(concat(new Object[] {"rehearse", strips, "-o", again}, drift));
    assertThat(again).hasSameTextualContentAs(measured);
    assertThat(Files.readString(measured))
        .startsWith("CGATS.17\n# SIMULATED")
        .contains("tone Cyan +3.0 %; tone Magenta -2.0 %; density Black -4.0 %; other spots");
  }

  @ParameterizedTest
  @CsvSource({
    "--tone, C",
    "--tone, C=x",
    "--tone, C=30",
    "--density, K=NaN",
    "--paper, '1,2'",
    "--spot, 'Dune Red=1,2'",
    "--spot, 'Dune Red=1,2,999'",
    "--noise, -1"
  })
  void rehearse_wrongOption_usageAndNoFile(String option, String value) {
    assertThat(run("rehearse", strips, "-o", measured, option, value)).isEqualTo(ExitStatus.USAGE);
    assertThat(measured).doesNotExist();
    assertThat(err.toString()).isNotBlank();
  }

  @Test
  void rehearse_inkThatNoStripHas_refused() {
    assertThat(run("rehearse", strips, "-o", measured, "--tone", "Dune Rot=3"))
        .isEqualTo(ExitStatus.INPUT);
    assertThat(err.toString()).contains("Dune Rot").contains("Dune Red");
    assertThat(measured).doesNotExist();
  }

  @Test
  void rehearse_ontoTheStripsFile_refused() throws IOException {
    String before = Files.readString(strips);
    assertThat(run("rehearse", strips, "-o", strips)).isEqualTo(ExitStatus.INPUT);
    assertThat(strips).hasContent(before);
  }

  @Test
  void rehearse_folderMissing_refusedNothingLeft() throws IOException {
    assertThat(run("rehearse", strips, "-o", folder.resolve("no/m.txt")))
        .isEqualTo(ExitStatus.INPUT);
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files).containsExactly(strips);
    }
  }

  /** Each breaks the measurement in one place; the message names it. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "55.0000 | n/a | :20: LAB_L: expected a number",
        "55.0000 | '' | LAB_L: expected a number, found nothing",
        "LAB_L | LAB_X | expected columns LAB_L LAB_A LAB_B",
        "KM7T-90QA | AAAA-AAAA | of another proof",
        "J04 | J02 | expected one reading a patch",
        "J04 | X04 | found none for J04 (Magenta 40)",
        "SIMULATED | POLARIZATION | found M3"
      })
  void score_brokenMeasurement_statusInputOneLineNoOutput(
      String before, String after, String message) throws IOException {
    run("rehearse", strips, "-o", measured, "--page", "1");
    String text = Files.readString(measured);
    assertThat(text).contains(before);
    Files.writeString(measured, text.replace(before, after));
    Path json = folder.resolve("score.json");
    assertThat(run("score", strips, measured, "--json", json)).isEqualTo(ExitStatus.INPUT);
    assertThat(err.toString()).contains(message);
    assertThat(err.toString().strip().lines()).hasSize(1);
    assertThat(out.toString()).isEmpty();
    assertThat(json).doesNotExist();
  }

  @Test
  void score_stripReadTwice_theSpreadIsTheGuardBandUnlessThePlainRuleIsAskedFor()
      throws IOException {
    Path again = folder.resolve("again.txt");
    run("rehearse", strips, "-o", measured, "--noise", "0.3", "--seed", "1");
    run("rehearse", strips, "-o", again, "--noise", "0.3", "--seed", "2");
    Path json = folder.resolve("score.json");
    run("score", strips, measured, again, "--json", json);
    assertThat(Files.readString(json))
        .contains("guard band: twice the standard uncertainty", "the mean of 2");
    run("score", strips, measured, again, "--json", json, "--repeatability", "0");
    assertThat(Files.readString(json)).doesNotContain("guard band");
    run("score", strips, measured, "--json", json);
    assertThat(Files.readString(json)).doesNotContain("guard band");
  }

  @Test
  void score_hostileFiles_statusInput() throws IOException {
    run("rehearse", strips, "-o", measured);
    Path bad = folder.resolve("bad");
    for (String text : List.of("", "{", "[]", "{\"selvage\":1}", "%PDF-1.7", "\u0000")) {
      Files.writeString(bad, text);
      assertThat(run("score", bad, measured)).as(text).isEqualTo(ExitStatus.INPUT);
      assertThat(run("score", strips, bad)).as(text).isEqualTo(ExitStatus.INPUT);
      assertThat(run("score", strips, measured, "--tolerance", bad))
          .as(text)
          .isEqualTo(ExitStatus.INPUT);
    }
    assertThat(run("score", folder, measured)).isEqualTo(ExitStatus.INPUT);
    assertThat(run("score", strips, folder)).isEqualTo(ExitStatus.INPUT);
    assertThat(run("score", folder.resolve("no"), measured)).isEqualTo(ExitStatus.INPUT);
    assertThat(run("score", strips, measured, "--tolerance", "unknown"))
        .isEqualTo(ExitStatus.INPUT);
    assertThat(run("score", strips, measured, "--page", "9")).isEqualTo(ExitStatus.INPUT);
    assertThat(run("score", strips)).isEqualTo(ExitStatus.USAGE);
  }

  @Test
  void help_score_namesOptionsAndCaution() {
    assertThat(run("score", "--help")).isZero();
    assertThat(out.toString())
        .contains("--tolerance", "--strip", "--page", "--allow-missing", "--json")
        .contains("judgement of those who sign the proof");
  }

  private JsonNode json() throws IOException {
    return new ObjectMapper().readTree(out.toString());
  }

  private static Object[] concat(Object[] one, Object[] other) {
    return Stream.concat(Stream.of(one), Stream.of(other)).toArray();
  }

  private int run(Object... arguments) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    String[] words = Stream.of(arguments).map(Object::toString).toArray(String[]::new);
    try (PrintWriter o = new PrintWriter(out);
        PrintWriter e = new PrintWriter(err)) {
      return Main.run(words, o, e);
    }
  }
}
