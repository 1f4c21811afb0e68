package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/** The command {@code stamp} on the demo job and on input that can't be used. */
class StampEndToEndTest {
  private static final Path DEMO = Path.of("testdata/demo-job.pdf");
  private static final String SPOTS = "testdata/demo-spots.txt";

  @TempDir Path folder;

  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int stamp(Path job, String... options) {
    List<String> arguments = new ArrayList<>(List.of("stamp", job.toString()));
    arguments.addAll(Arrays.asList(options));
    return Main.run(
        arguments.toArray(new String[0]), new PrintWriter(out, true), new PrintWriter(err, true));
  }

  private String proof() {
    return folder.resolve("demo.proof.pdf").toString();
  }

  private StripsFile record() throws Exception {
    byte[] json = Files.readAllBytes(folder.resolve("demo.proof.strips.json"));
    return StripsJson.read("demo.proof.strips.json", json);
  }

  private List<String> files() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void stamp_demoJob_writesEveryFileAndSaysWhatTheStripsAreWorth() throws Exception {
    int status = stamp(DEMO, "-o", proof(), "--spots", SPOTS, "--dpi", "72");
    assertThat(status).as(err.toString()).isZero();
    assertThat(files())
        .containsExactly(
            "demo.proof.pdf",
            "demo.proof.strip-p001.txt",
            "demo.proof.strip-p002.txt",
            "demo.proof.strips.json");
    for (Strip strip : record().strips()) {
      List<Patch> job = strip.patches(PatchSet.JOB);
      assertThat(job).hasSize(24).allMatch(patch -> patch.areaPercent() > 0);
      assertThat(job)
          .filteredOn(patch -> patch.role().equals("spot-solid"))
          .extracting(patch -> patch.mixture().toString())
          .containsExactlyInAnyOrder("Dune Red 100", "Reed Teal 100");
      assertThat(strip.coverage().within3Percent())
          .isGreaterThan(2 * strip.coverage().standardWithin3Percent());
      assertThat(out.toString()).contains("strip " + strip.stripId());
    }
  }

  @Test
  void stamp_sameTime_givesTheSameBytes() throws Exception {
    String[] options = {
      "-o", proof(), "--dpi", "36", "--pages", "2", "--time", "2026-11-25T10:03:00Z", "--quiet"
    };
    assertThat(stamp(DEMO, options)).isZero();
    byte[] first = Files.readAllBytes(Path.of(proof()));
    assertThat(stamp(DEMO, options)).isZero();
    assertThat(Files.readAllBytes(Path.of(proof()))).isEqualTo(first);
    assertThat(out.toString()).isEmpty();
  }

  @Test
  void stamp_perJobWithoutStandard_hasOneStripAndNothingButPaperInTheStandardSet()
      throws Exception {
    int status =
        stamp(
            DEMO,
            "-o",
            proof(),
            "--dpi",
            "36",
            "--per",
            "job",
            "--standard",
            "none",
            "--json",
            "-");
    assertThat(status).as(err.toString()).isZero();
    assertThat(record().strips()).hasSize(1);
    assertThat(record().strips().get(0).patches(PatchSet.STANDARD))
        .allMatch(patch -> patch.mixture().isPaper());
    assertThat(out.toString()).startsWith("{").contains("\"strips\"").doesNotContain("wrote");
  }

  @Test
  void stamp_blankMarginOutsideTheBleed_isUsed() throws Exception {
    String content = "0 0 0 0 k 0 0 700 900 re f 0.2 0.6 0 0 k 60 420 500 400 re f";
    Path job = folder.resolve("wide.pdf");
    Files.writeString(
        job,
        "%PDF-1.4\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n"
            + "2 0 obj\n<< /Type /Pages /Count 1 /Kids [3 0 R] >>\nendobj\n"
            + "3 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 700 900] /BleedBox [50 410 690"
            + " 890] /TrimBox [60 420 680 880] /Contents 4 0 R >>\nendobj\n"
            + "4 0 obj\n<< /Length "
            + content.length()
            + " >>\nstream\n"
            + content
            + "\nendstream\nendobj\ntrailer\n<< /Size 5 /Root 1 0 R >>\nstartxref\n0\n%%EOF\n",
        StandardCharsets.US_ASCII);
    assertThat(stamp(job, "-o", proof())).as(err.toString()).isZero();
    Strip.Place place = record().strips().get(0).place();
    assertThat(place.mediaExtended()).isFalse();
    assertThat(place.edge()).isEqualTo("bottom");
    assertThat(place.yPt() + place.heightPt()).isLessThanOrEqualTo(410);
  }

  @ParameterizedTest
  @CsvSource({
    "0.85, cut off",
    "0.01, cut off",
  })
  void stamp_truncatedJob_isRefusedAndLeavesNothing(double share, String message) throws Exception {
    byte[] whole = Files.readAllBytes(DEMO);
    Path job = folder.resolve("part.pdf");
    Files.write(job, Arrays.copyOf(whole, (int) (share * whole.length)));
    assertThat(stamp(job, "-o", proof())).isEqualTo(ExitStatus.INPUT);
    assertThat(err.toString()).contains("part.pdf", message);
    assertThat(files()).containsExactly("part.pdf");
  }

  @ParameterizedTest
  @CsvSource({
    "--standard, fancy, 3, 'full, basic, none'",
    "--reader, fancy, 3, handheld-spot",
    "--json, no/such/folder/x.json, 3, does not exist",
    "--edge, up, 2, '--edge: expected auto'",
    "--patches, 0, 2, '--patches: expected 1'",
    "--time, yesterday, 2, '--time: expected a time'"
  })
  void stamp_wrongOption_isRefusedAndLeavesNothing(
      String option, String value, int status, String message) throws Exception {
    assertThat(stamp(DEMO, "-o", proof(), "--dpi", "18", option, value)).isEqualTo(status);
    assertThat(err.toString()).contains(message);
    assertThat(files()).isEmpty();
  }

  @Test
  void stamp_withoutOutput_isAUsageError() {
    assertThat(stamp(DEMO)).isEqualTo(ExitStatus.USAGE);
    assertThat(err.toString()).contains("--output");
  }
}
