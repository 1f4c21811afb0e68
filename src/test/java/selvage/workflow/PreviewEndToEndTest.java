package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.metadata.IIOMetadataNode;
import javax.imageio.stream.ImageInputStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.color.ReferenceTable;
import selvage.finding.InputException;
import selvage.fixture.PreviewFixtures;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;

/** Pictures of pages whose colours are known. */
class PreviewEndToEndTest {
  private static final int[] PAPER = {239, 241, 244};

  @TempDir Path folder;

  @Test
  void preview_ofKnownMixtures_showsTheirColors() throws Exception {
    List<double[]> rows =
        ReferenceTable.read(
            "fogra39-srgb.csv", "cyan", "magenta", "yellow", "black", "red", "green", "blue");
    Path pdf = write(PreviewFixtures.cells(rows));
    BufferedImage picture = preview(pdf, "cells.png", 50);
    assertThat(picture.getWidth()).isEqualTo(250);
    assertThat(picture.getHeight()).isEqualTo(250);
    for (int i = 0; i < rows.size(); i++) {
      double[] row = rows.get(i);
      int x = i % 10 * 25;
      int y = i / 10 * 25;
      int[] expected = {(int) row[4], (int) row[5], (int) row[6]};
      assertPixel(picture, x, y, expected);
      assertPixel(picture, x + 24, y + 24, expected);
    }
    assertPixel(picture, 249, 249, PAPER);
  }

  @Test
  void preview_ofASpotDefinedInALaterBand_showsItsColor() throws Exception {
    Path pdf = write(PreviewFixtures.spotDefinedLast("60 40 30"));
    BufferedImage picture = preview(pdf, "spot.png", 360);
    assertThat(picture.getHeight()).isEqualTo(1800);
    // Lab 60 40 30 by the same independent computation as the reference table.
    int[] dune = {217, 114, 94};
    assertPixel(picture, 90, 90, dune);
    assertPixel(picture, 1710, 1710, dune);
    assertPixel(picture, 900, 900, PAPER);
  }

  @Test
  void preview_ofATurnedPage_isAsDisplayed() throws Exception {
    Path pdf = folder.resolve("turned.pdf");
    try (PDDocument document = new PDDocument()) {
      PDPage page = new PDPage(new PDRectangle(10, 20, 144, 72));
      page.setRotation(90);
      document.addPage(page);
      try (PDPageContentStream content = new PDPageContentStream(document, page)) {
        content.setNonStrokingColor(1f, 0f, 0f, 0f);
        content.addRect(10, 20, 36, 36); // lower left; turned clockwise, upper left
        content.fill();
      }
      document.save(pdf.toFile());
    }
    BufferedImage picture = preview(pdf, "turned.png", 72);
    assertThat(picture.getWidth()).isEqualTo(72);
    assertThat(picture.getHeight()).isEqualTo(144);
    assertPixel(picture, 0, 0, new int[] {0, 151, 218});
    assertPixel(picture, 35, 35, new int[] {0, 151, 218});
    assertPixel(picture, 36, 0, PAPER);
    assertPixel(picture, 0, 36, PAPER);
  }

  @Test
  void preview_ofAPage_statesResolutionAndColorSpace() throws Exception {
    preview(write(PreviewFixtures.cells(List.of(new double[4]))), "cells.png", 150);
    try (ImageInputStream in =
        ImageIO.createImageInputStream(folder.resolve("cells.png").toFile())) {
      ImageReader reader = ImageIO.getImageReadersByFormatName("png").next();
      reader.setInput(in);
      IIOMetadataNode png =
          (IIOMetadataNode) reader.getImageMetadata(0).getAsTree("javax_imageio_png_1.0");
      IIOMetadataNode size = (IIOMetadataNode) png.getElementsByTagName("pHYs").item(0);
      assertThat(size.getAttribute("pixelsPerUnitXAxis")).isEqualTo("5906");
      assertThat(size.getAttribute("pixelsPerUnitYAxis")).isEqualTo("5906");
      assertThat(size.getAttribute("unitSpecifier")).isEqualTo("meter");
      assertThat(png.getElementsByTagName("sRGB").getLength()).isEqualTo(1);
    }
  }

  @Test
  void preview_ofSeveralPages_numbersThem() throws Exception {
    Path pdf = demoJob();
    survey(pdf, null, folder.resolve("job.v2.png"), 24, ContentLimits.USUAL);
    assertThat(files()).containsExactly("demo-job.pdf", "job.v2-p001.png", "job.v2-p002.png");
    survey(pdf, "2", folder.resolve("second"), 24, ContentLimits.USUAL);
    assertThat(folder.resolve("second")).hasSameBinaryContentAs(folder.resolve("job.v2-p002.png"));
  }

  @Test
  void preview_whereALaterPageFails_leavesNothing() throws Exception {
    Path pdf = folder.resolve("large.pdf");
    try (PDDocument document = new PDDocument()) {
      document.addPage(new PDPage(new PDRectangle(100, 100)));
      document.addPage(new PDPage(new PDRectangle(10000, 10000)));
      document.save(pdf.toFile());
    }
    ContentLimits limits = new ContentLimits(60, 1_000_000, 1 << 20, 1 << 20);
    assertThatThrownBy(() -> survey(pdf, null, folder.resolve("out.png"), 72, limits))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("page 2");
    assertThat(files()).containsExactly("large.pdf");
  }

  @Test
  void preview_whereItCanNotBeWritten_isRefused() throws Exception {
    Path pdf = write(PreviewFixtures.cells(List.of(new double[4])));
    assertRefused(pdf, folder.resolve("missing").resolve("out.png"), "the folder");
    assertRefused(pdf, folder, "found a folder");
    assertRefused(pdf, pdf, "the job itself");
    assertThat(files()).containsExactly("job.pdf");
  }

  private static void assertRefused(Path pdf, Path preview, String why) {
    assertThatThrownBy(() -> survey(pdf, null, preview, 24, ContentLimits.USUAL))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(why);
  }

  private BufferedImage preview(Path pdf, String name, double dpi) throws Exception {
    Path file = folder.resolve(name);
    survey(pdf, null, file, dpi, ContentLimits.USUAL);
    return ImageIO.read(file.toFile());
  }

  private static void survey(Path pdf, String pages, Path preview, double dpi, ContentLimits limits)
      throws InputException, IOException {
    new SurveyJob(
            new SurveyJob.Request(
                pdf, "FOGRA39", pages, dpi, AreaKind.TRIM, List.of(), null, preview, limits))
        .run();
  }

  private static void assertPixel(BufferedImage picture, int x, int y, int[] expected) {
    int rgb = picture.getRGB(x, y);
    int[] found = {rgb >> 16 & 0xFF, rgb >> 8 & 0xFF, rgb & 0xFF};
    for (int i = 0; i < 3; i++) {
      assertThat(Math.abs(found[i] - expected[i]))
          .as(
              "pixel %d, %d: %s, expected %s",
              x, y, List.of(found[0], found[1], found[2]), expected)
          .isLessThanOrEqualTo(1);
    }
  }

  private Path write(byte[] pdf) throws IOException {
    return Files.write(folder.resolve("job.pdf"), pdf);
  }

  private Path demoJob() throws IOException {
    Path pdf = folder.resolve("demo-job.pdf");
    try (InputStream job = SurveyJob.class.getResourceAsStream("/demo/demo-job.pdf")) {
      Files.copy(job, pdf);
    }
    return pdf;
  }

  private List<String> files() throws IOException {
    try (Stream<Path> list = Files.list(folder)) {
      return list.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }
}
