package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceCMYK;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.fixture.Ghostscript;
import selvage.fixture.TintPlane;
import selvage.ink.Colorant;
import selvage.strip.Patch;
import selvage.strip.Strip;
import selvage.strip.StripsJson;

/**
 * The command {@code stamp} with 200 patches on a job of a colourful A4 page, a plain one, and a
 * colourful small page that stands turned.
 */
class OwnPageEndToEndTest {
  private static final int DPI = 72;
  private static final double MM_PER_INCH = 25.4;
  private static final List<Integer> JOB_PAGES_OF_PROOF = List.of(1, 3, 4);

  @TempDir static Path folder;

  private static Path job;
  private static Path proof;
  private static String said;
  private static List<Strip> strips;

  @BeforeAll
  static void stamp() throws Exception {
    job = folder.resolve("card.pdf");
    proof = folder.resolve("card.proof.pdf");
    try (PDDocument document = new PDDocument()) {
      page(document, new PDRectangle(595, 842), 400, 0);
      page(document, new PDRectangle(595, 842), 4, 0);
      page(document, new PDRectangle(298, 420), 400, 90);
      document.save(job.toFile());
    }
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    String[] arguments = {
      "stamp",
      job.toString(),
      "-o",
      proof.toString(),
      "--patches",
      "200",
      "--dpi",
      "72",
      "--separate",
      folder.resolve("strips.pdf").toString()
    };
    int status = Main.run(arguments, new PrintWriter(out, true), new PrintWriter(err, true));
    assertThat(status).as(err.toString()).isZero();
    said = out.toString();
    strips = StripsJson.read(folder.resolve("card.proof.strips.json")).strips();
  }

  private static void page(PDDocument document, PDRectangle box, int colors, int rotate)
      throws IOException {
    PDPage page = new PDPage(box);
    page.setRotation(rotate);
    document.addPage(page);
    Random random = new Random(5);
    try (PDPageContentStream content = new PDPageContentStream(document, page)) {
      float width = box.getWidth() / 20;
      float height = box.getHeight() / 20;
      for (int i = 0; i < colors; i++) {
        float[] cmyk = {random.nextFloat(), random.nextFloat(), random.nextFloat(), 0.1f};
        content.setNonStrokingColor(new PDColor(cmyk, PDDeviceCMYK.INSTANCE));
        int row = i / 20;
        content.addRect(i % 20 * width, row * height, width, height);
        content.fill();
      }
    }
  }

  @Test
  void stamp_manyPatches_giveThoseStripsAPageBehindTheirs() throws Exception {
    assertThat(strips).extracting(Strip::page).containsExactly(1, 2, 3);
    assertThat(strips).extracting(one -> one.place().ownPage()).containsExactly(true, false, true);
    assertThat(strips).extracting(one -> one.place().proofPage()).containsExactly(2, 3, 5);
    assertThat(strips)
        .extracting(one -> one.place().mediaExtended())
        .containsExactly(false, true, false);
    try (PDDocument document = Loader.loadPDF(proof.toFile());
        PDDocument alone = Loader.loadPDF(folder.resolve("strips.pdf").toFile())) {
      assertThat(document.getNumberOfPages()).isEqualTo(5);
      assertThat(alone.getNumberOfPages()).isEqualTo(3);
      PDPage own = document.getPage(1);
      assertThat(own.getMediaBox()).hasToString(new PDRectangle(595, 842).toString());
      assertThat(own.getTrimBox()).hasToString(new PDRectangle(595, 842).toString());
      PDPage small = document.getPage(4);
      assertThat(small.getRotation()).isZero();
      assertThat(small.getMediaBox().getWidth())
          .isGreaterThan(small.getMediaBox().getHeight())
          .isGreaterThanOrEqualTo(420);
    }
  }

  @Test
  void stamp_manyPatches_saysWhereTheStripsLieAndWhy() {
    assertThat(said)
        .contains(
            "on a page of its own, page 2 of the proof;",
            "on a page of its own, page 5 of the proof;",
            "edge, sheet extended;",
            "warning: page 1: its strip would make the sheet grow by");
  }

  @Test
  void stamp_manyPatches_leavesTheJobsPagesByteForByte() throws Exception {
    try (PDDocument before = Loader.loadPDF(job.toFile());
        PDDocument after = Loader.loadPDF(proof.toFile())) {
      for (int page : List.of(0, 2)) {
        PDPage one = before.getPage(page);
        PDPage other = after.getPage(JOB_PAGES_OF_PROOF.get(page) - 1);
        assertThat(other.getCOSObject().keySet()).isEqualTo(one.getCOSObject().keySet());
        assertThat(other.getMediaBox()).hasToString(one.getMediaBox().toString());
        assertThat(other.getContents().readAllBytes()).isEqualTo(one.getContents().readAllBytes());
      }
    }
  }

  @Test
  void stamp_manyPatches_anotherRendererFindsThemAndTheJobsPages() throws Exception {
    assumeTrue(Ghostscript.isInstalled(), "gs is not installed");
    for (Strip strip : strips) {
      int jobPage = JOB_PAGES_OF_PROOF.get(strip.page() - 1);
      if (strip.place().ownPage()) {
        assertSame(
            Ghostscript.planes(job, strip.page(), DPI), Ghostscript.planes(proof, jobPage, DPI));
        assertPatches(strip, Ghostscript.planes(proof, strip.place().proofPage(), DPI));
      }
    }
  }

  private static void assertSame(Map<String, TintPlane> before, Map<String, TintPlane> after) {
    assertThat(after.keySet()).isEqualTo(before.keySet());
    for (Map.Entry<String, TintPlane> plane : before.entrySet()) {
      TintPlane one = plane.getValue();
      TintPlane other = after.get(plane.getKey());
      assertThat(other.width()).isEqualTo(one.width());
      assertThat(other.height()).isEqualTo(one.height());
      for (int y = 0; y < one.height(); y++) {
        for (int x = 0; x < one.width(); x++) {
          if (one.at(x, y) != other.at(x, y)) {
            throw new AssertionError(
                String.format(Locale.ROOT, "%s differs at %d, %d", plane.getKey(), x, y));
          }
        }
      }
    }
  }

  /** The page of the strip stands upright and in points, so that its box counts from the corner. */
  private static void assertPatches(Strip strip, Map<String, TintPlane> planes) {
    double left = strip.place().xPt() / 72 * MM_PER_INCH;
    double bottom = strip.place().yPt() / 72 * MM_PER_INCH;
    assertThat(strip.patches()).hasSizeGreaterThan(200);
    for (Patch patch : strip.patches()) {
      for (Map.Entry<String, TintPlane> plane : planes.entrySet()) {
        double x = left + patch.box().xMm() + patch.box().widthMm() / 2;
        double y = bottom + patch.box().yMm() + patch.box().heightMm() / 2;
        int column = (int) (x / MM_PER_INCH * DPI);
        int row = plane.getValue().height() - 1 - (int) (y / MM_PER_INCH * DPI);
        assertThat(plane.getValue().at(column, row) / 2.55)
            .as("%s of patch %s", plane.getKey(), patch.id())
            .isCloseTo(patch.mixture().percent(Colorant.named(plane.getKey())), within(1.0));
      }
    }
  }

  @Test
  void rehearseAndScore_stripOnItsOwnPage_passes() throws Exception {
    Path measured = folder.resolve("measured.txt");
    String record = folder.resolve("card.proof.strips.json").toString();
    StringWriter err = new StringWriter();
    PrintWriter errors = new PrintWriter(err, true);
    PrintWriter out = new PrintWriter(new StringWriter(), true);
    String[] rehearse = {"rehearse", record, "-o", measured.toString()};
    assertThat(Main.run(rehearse, out, errors)).as(err.toString()).isZero();
    assertThat(Files.size(measured)).isPositive();
    String[] score = {"score", record, measured.toString(), "--page", "1"};
    assertThat(Main.run(score, out, errors)).as(err.toString()).isZero();
  }
}
