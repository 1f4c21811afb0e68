package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.finding.InputException;
import selvage.measurement.LabShift;

class PdfReportTest {
  private static final double PT_PER_MM = 72 / 25.4;
  private static final LabShift FAR = new LabShift(-6, 2, 0);

  @TempDir Path folder;

  @Test
  void write_fail_firstSheetSaysAllThatMatters() throws InputException, IOException {
    String text = text(pdf(ReportFixture.report("flyer.pdf", FAR)), 1);
    assertThat(text)
        .contains("FAIL", "flyer.pdf", "page 1 of 1", "KM7T-90QA", "FOGRA39 (built in)")
        .contains("iso-12647-7-2016", "Tolerances from: ISO 12647-7:2016")
        .contains("Evaluated as", "contract proof", "SIMULATED", "2026-11-25 10:03 UTC")
        .contains("Substrate", "ΔE00 maximum", "Job strip", "Standard strip", "Drift", "Findings")
        .contains(ScoreText.CAUTION, ProofReport.SCREENS)
        .containsPattern("Spot solids job ΔE00 maximum \\d\\.\\d\\d 2\\.50 fail");
  }

  @Test
  void write_drift_trueMinusInTheFigures() throws InputException, IOException {
    String text = text(pdf(ReportFixture.report("flyer.pdf", FAR)), 2);
    assertThat(text).contains("−6.00").doesNotContain("-6.00");
  }

  @Test
  void write_twice_sameBytes() throws InputException, IOException {
    ProofReport report = ReportFixture.report("flyer.pdf", FAR);
    assertThat(pdf(report)).isEqualTo(pdf(report));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 24, 60, 400})
  void write_anyNumberOfPatches_everyLetterWithinTheMargins(int patches)
      throws InputException, IOException {
    String job = "a-very-long-name-of-a-job-".repeat(12) + ".pdf";
    byte[] bytes = pdf(ReportFixture.large(job, patches, FAR));
    try (PDDocument document = Loader.loadPDF(bytes)) {
      assertThat(document.getNumberOfPages()).isGreaterThanOrEqualTo(2);
      new PDFTextStripper() {
        @Override
        protected void writeString(String text, List<TextPosition> positions) {
          TextPosition first = positions.get(0);
          TextPosition last = positions.get(positions.size() - 1);
          assertThat(first.getXDirAdj()).as(text).isGreaterThan((float) (8 * PT_PER_MM));
          assertThat(last.getXDirAdj() + last.getWidthDirAdj())
              .as(text)
              .isLessThan((float) (PdfReport.WIDTH * PT_PER_MM - 8 * PT_PER_MM));
          assertThat(first.getYDirAdj())
              .as(text)
              .isBetween(20f, (float) (PdfReport.HEIGHT * PT_PER_MM - 10));
        }
      }.getText(document);
      assertThat(text(bytes, 1)).contains("Report sheet 1 of " + document.getNumberOfPages());
    }
  }

  @Test
  void write_namesInOtherScripts_lettersOrTheirNumbersNeverQuestionMarks()
      throws InputException, IOException {
    String greekAndCyrillic = "Θάλασσα Морская волна Őľş";
    byte[] bytes = pdf(ReportFixture.spot(greekAndCyrillic, FAR));
    assertThat(text(bytes, 1) + text(bytes, 2))
        .contains(greekAndCyrillic + ".pdf", greekAndCyrillic + " 100")
        .doesNotContain("?", "U+", "letters not in this type");
    byte[] others = pdf(ReportFixture.spot("水色 No. 2 \uD83C\uDF0A", FAR));
    assertThat(text(others, 1))
        .contains("[U+6C34 U+8272] No. 2 [U+1F30A].pdf", "[U+…]: letters not in this type")
        .doesNotContain("?");
    assertThat(text(others, 2)).contains("[U+6C34 U+8272] No. 2");
  }

  @Test
  void write_fonts_embeddedSubsets() throws InputException, IOException {
    List<String> fonts = new ArrayList<>();
    try (PDDocument document =
        Loader.loadPDF(pdf(ReportFixture.report("flyer.pdf", LabShift.NONE)))) {
      for (PDPage page : document.getPages()) {
        for (COSName name : page.getResources().getFontNames()) {
          fonts.add(page.getResources().getFont(name).getName());
          assertThat(page.getResources().getFont(name).isEmbedded()).isTrue();
        }
      }
    }
    assertThat(fonts).isNotEmpty().allMatch(font -> font.matches("[A-Z]{6}\\+LiberationSans.*"));
  }

  @Test
  void write_reportAndSticker_otherProgramFindsNoFault()
      throws InputException, IOException, InterruptedException {
    Assumptions.assumeTrue(runs("qpdf", "--version"), "qpdf is not installed; skipped");
    ProofReport report = ReportFixture.report("flyer.pdf", FAR);
    Path file = folder.resolve("report.pdf");
    Files.write(file, pdf(report));
    assertThat(runs("qpdf", "--check", file.toString())).isTrue();
    ByteArrayOutputStream sticker = new ByteArrayOutputStream();
    PdfSticker.write(List.of(report), sticker);
    Files.write(file, sticker.toByteArray());
    assertThat(runs("qpdf", "--check", file.toString())).isTrue();
  }

  private boolean runs(String... command) throws InterruptedException {
    try {
      return new ProcessBuilder(command)
              .redirectErrorStream(true)
              .redirectOutput(folder.resolve("log.txt").toFile())
              .start()
              .waitFor()
          == 0;
    } catch (IOException e) {
      return false;
    }
  }

  private static byte[] pdf(ProofReport report) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PdfReport.write(List.of(report), out);
    return out.toByteArray();
  }

  private static String text(byte[] bytes, int page) throws IOException {
    try (PDDocument document = Loader.loadPDF(bytes)) {
      PDFTextStripper stripper = new PDFTextStripper();
      stripper.setSortByPosition(true);
      stripper.setStartPage(page);
      stripper.setEndPage(page);
      return stripper.getText(document).replaceAll("[ \t]+", " ");
    }
  }
}
