package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The mark of a stamped sheet, drawn by one independent program and read by another. */
class StampedMarkEndToEndTest {
  @TempDir Path folder;

  @BeforeAll
  static void needsTools() throws Exception {
    assumeTrue(StampedSheet.hasTools(), "gs or qpdf is not installed");
    assumeTrue(isInstalled("dmtxread"), "dmtxread is not installed");
  }

  private static boolean isInstalled(String tool) throws Exception {
    try {
      return new ProcessBuilder(tool, "--version").start().waitFor() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  @ParameterizedTest
  @CsvSource({"0, BOTTOM", "90, TOP", "0, LEFT"})
  void mark_drawnAt300AnInch_isReadAsTheStripsName(int rotate, Edge edge) throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 595 420] /Rotate " + rotate + " " + JobPdf.SPOTS,
                "0.2 0.8 0 0 k 100 100 200 200 re f");
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(edge));
    Path picture = drawn(sheet.proof);
    String read = output(List.of("dmtxread", "-N1", "-m20000", picture.toString()));
    assertThat(read.strip()).isEqualTo(sheet.strip.layout().stripId());
  }

  private Path drawn(Path pdf) throws Exception {
    Path picture = folder.resolve("sheet.png");
    output(
        List.of(
            "gs",
            "-q",
            "-dNOPAUSE",
            "-dBATCH",
            "-dSAFER",
            "-sDEVICE=pnggray",
            "-r300",
            "-sOutputFile=" + picture,
            pdf.toString()));
    return picture;
  }

  private static String output(List<String> command) throws Exception {
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return text;
  }

  /**
   * A whole A4 page in a sixth of the time that the mark took at the strip's end; the bound is wide
   * for slow machines.
   */
  @ParameterizedTest
  @EnumSource(Edge.class)
  void mark_onAWholePage_isFoundAtOnce(Edge edge) throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 595.28 841.89] " + JobPdf.SPOTS, "0.2 0.8 0 0 k 50 60 400 9 re f");
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(edge));
    Path picture = drawn(sheet.proof);
    String read = output(List.of("dmtxread", "-N1", "-m2000", picture.toString()));
    assertThat(read.strip()).isEqualTo(sheet.strip.layout().stripId());
  }

  /**
   * The strip on a page by itself: there the page's middle runs through the strip, and at the three
   * larger widths a line of a row would lie on it or beside it.
   */
  @ParameterizedTest
  @ValueSource(ints = {340, 510, 595, 842})
  void mark_ofAStripAlone_isFoundAtOnce(int widthPt) throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 " + widthPt + " 842] " + JobPdf.SPOTS,
                "0.2 0.8 0 0 k 50 60 200 9 re f");
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(Edge.BOTTOM));
    Path alone = folder.resolve("strips.pdf");
    try (StripsAlone strips = StripsAlone.of(sheet.job);
        OutputStream out = Files.newOutputStream(alone)) {
      strips.add(sheet.strip.layout(), Map.of());
      strips.write(out, Instant.parse("2026-11-25T10:03:00Z"), 7);
    }
    String read = output(List.of("dmtxread", "-N1", "-m2000", drawn(alone).toString()));
    assertThat(read.strip()).isEqualTo(sheet.strip.layout().stripId());
  }
}
