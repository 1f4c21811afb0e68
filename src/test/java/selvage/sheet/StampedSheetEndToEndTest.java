package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.InputStream;
import java.nio.file.Path;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.strip.Strip;

/** Stamped sheets, read back from an independent renderer's planes. */
class StampedSheetEndToEndTest {
  /** Fills of process and spot inks, one over the edge of the sheet. */
  private static final String CONTENT =
      "0.33 0 0.8 0.1 k 30 40 150 120 re f /Red cs 0.5 scn 120 100 140 90 re f"
          + " /Teal cs 1 scn 40 200 60 60 re f 1 0 0 0 k -50 -50 80 90 re f"
          + " 0 1 0 0 k 280 380 200 200 re f";

  @TempDir Path folder;

  @BeforeAll
  static void needsTools() {
    assumeTrue(StampedSheet.hasTools(), "gs or qpdf is not installed");
  }

  @ParameterizedTest
  @CsvSource({
    "0, 1, 0, 0, BOTTOM",
    "90, 1, 0, 0, BOTTOM",
    "180, 1, 0, 0, TOP",
    "270, 1, 0, 0, RIGHT",
    "0, 2, 0, 0, LEFT",
    "90, 0.5, -30, 55.5, RIGHT",
    "270, 1.5, 100.25, -40, BOTTOM",
    "0, 1, 17.3, -200.9, RIGHT"
  })
  void stamp_rotatedScaledOrShiftedPage_printsEveryPatchAndLeavesThePage(
      int rotate, double userUnit, double x, double y, Edge edge) throws Exception {
    String content = "1 0 0 1 " + x + " " + y + " cm " + CONTENT;
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox ["
                    + x
                    + " "
                    + y
                    + " "
                    + (x + 320)
                    + " "
                    + (y + 420)
                    + "] /Rotate "
                    + rotate
                    + " /UserUnit "
                    + userUnit
                    + " "
                    + JobPdf.SPOTS,
                content);
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(edge));
    assertThat(sheet.strip.place().mediaExtended()).isTrue();
    sheet.assertFileIsSound();
    sheet.assertPatchesPrintAsTold();
    sheet.assertPageIsUntouched();
  }

  @Test
  void stamp_grownSheet_keepsTrimAndBleed() throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 400 500] /CropBox [10 10 390 490] /BleedBox [20 20 380 480]"
                    + " /TrimBox [30 30 370 470] "
                    + JobPdf.SPOTS,
                CONTENT);
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(Edge.TOP));
    try (PDDocument document = Loader.loadPDF(sheet.proof.toFile())) {
      PDPage page = document.getPage(0);
      assertThat(page.getTrimBox()).hasToString(new PDRectangle(30, 30, 340, 440).toString());
      assertThat(page.getBleedBox()).hasToString(new PDRectangle(20, 20, 360, 460).toString());
      PDRectangle media = page.getMediaBox();
      assertThat(media.getLowerLeftY()).isZero();
      assertThat(media.getUpperRightX()).isEqualTo(400);
      assertThat(media.getUpperRightY()).isGreaterThan(600);
      assertThat(page.getCropBox().getUpperRightY()).isEqualTo(media.getUpperRightY());
      assertThat(page.getCropBox().getLowerLeftY()).isEqualTo(10);
    }
    sheet.assertPatchesPrintAsTold();
    sheet.assertPageIsUntouched();
  }

  @Test
  void stamp_boxesOfManyDigits_growsOneSideAndKeepsTheOthersExactly() throws Exception {
    JobPdf pdf =
        new JobPdf().page("/MediaBox [-3.3333 7.7777 642.966 900.6911] " + JobPdf.SPOTS, CONTENT);
    StampedSheet sheet = StampedSheet.of(folder, pdf, Optional.of(Edge.BOTTOM));
    try (PDDocument before = Loader.loadPDF(sheet.job.toFile());
        PDDocument after = Loader.loadPDF(sheet.proof.toFile())) {
      PDRectangle old = before.getPage(0).getMediaBox();
      PDRectangle grown = after.getPage(0).getMediaBox();
      assertThat(grown.getLowerLeftX()).isEqualTo(old.getLowerLeftX());
      assertThat(grown.getUpperRightX()).isEqualTo(old.getUpperRightX());
      assertThat(grown.getUpperRightY()).isEqualTo(old.getUpperRightY());
      assertThat(grown.getLowerLeftY()).isLessThan(old.getLowerLeftY());
      assertThat(after.getPage(0).getTrimBox().toString()).isEqualTo(old.toString());
    }
  }

  private static final String A5 = "/MediaBox [0 0 420 595] ";

  private StampedSheet stamp(JobPdf pdf, Optional<Edge> edge, InkOccupancy occupancy)
      throws Exception {
    StampedSheet sheet = StampedSheet.of(folder, pdf, edge, occupancy, "basic", "handheld-spot");
    sheet.assertFileIsSound();
    sheet.assertPatchesPrintAsTold();
    sheet.assertPageIsUntouched();
    return sheet;
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "q 0.5 0 0 0.5 100 100 cm q 0 0 0 0.4 k 0 0 100 100 re f",
        "0 0 0 0.4 k 0 0 100 100 re f Q Q 2 0 0 2 50 50 cm",
        "BT 0.4 g 3 Tr 0.1 0 0 0.1 0 0 Tm",
        "/OC /Hidden BDC 0 0 0 0.4 k 10 10 100 100 re f",
        "10 10 50 50 re W n 0 0 0 0.4 k 0 0 100 100 re f /Over gs 0 0 0 1 K",
        "0 0 0 0.4 k 0 0 100 100 re f 200 200 m 300 300 l"
      })
  void stamp_contentThatLeavesItsStateOpen_printsEveryPatch(String content) throws Exception {
    JobPdf pdf = new JobPdf();
    int layer = pdf.object("<< /Type /OCG /Name (hidden) >>");
    pdf.catalog(
        "/OCProperties << /OCGs ["
            + layer
            + " 0 R] /D << /OFF ["
            + layer
            + " 0 R] /Order [] >> >>");
    String resources =
        JobPdf.SPOTS.replace(
            "/Resources <<",
            "/Resources << /Properties << /Hidden "
                + layer
                + " 0 R >> /ExtGState << /Over << /OP true /op true /OPM 1 >> >>");
    stamp(pdf.page(A5 + resources, content), Optional.of(Edge.BOTTOM), InkOccupancy.UNKNOWN);
  }

  @Test
  void stamp_pageThatRedefinesDeviceCmyk_printsEveryPatch() throws Exception {
    JobPdf pdf = new JobPdf();
    int swap =
        pdf.stream(
            "/FunctionType 4 /Domain [0 1 0 1 0 1 0 1] /Range [0 1 0 1 0 1 0 1]", "{ 4 1 roll }");
    String resources =
        JobPdf.SPOTS.replace(
            "/ColorSpace <<",
            "/ColorSpace << /DefaultCMYK [/DeviceN [/Magenta /Cyan /Yellow /Black] /DeviceCMYK "
                + swap
                + " 0 R] ");
    stamp(
        pdf.page(A5 + resources, "0.3 0.9 0 0 k 50 50 100 100 re f"),
        Optional.of(Edge.TOP),
        InkOccupancy.UNKNOWN);
  }

  @ParameterizedTest
  @ValueSource(strings = {"/DeviceRGB", "/DeviceGray", "/DeviceCMYK"})
  void stamp_pageThatBlendsInItsGroup_printsEveryPatchAndLeavesThePage(String space)
      throws Exception {
    String resources =
        JobPdf.SPOTS.replace(
            "/Resources <<",
            "/Resources << /ExtGState << /Half << /ca 0.5 >> /Multiply << /BM /Multiply >> >>");
    StampedSheet sheet =
        stamp(
            new JobPdf()
                .page(
                    A5 + "/Group << /S /Transparency /CS " + space + " >> " + resources,
                    "0.3 0.9 0 0 k 50 50 100 100 re f /Half gs 1 0 0 rg 100 100 100 100 re f"
                        + " /Multiply gs 0 0.5 0 rg 60 120 200 40 re f"),
            Optional.of(Edge.LEFT),
            InkOccupancy.UNKNOWN);
    assertThat(sheet.findings.stream().anyMatch(one -> one.code().equals("page-group-moved")))
        .isEqualTo(!space.equals("/DeviceCMYK"));
  }

  @Test
  void stamp_spotsOnlyWithinDeviceNOfAForm_usesTheJobsOwnColours() throws Exception {
    JobPdf pdf = new JobPdf();
    int transform =
        pdf.stream(
            "/FunctionType 4 /Domain [0 1 0 1] /Range [0 1 0 1 0 1 0 1]",
            "{ 2 copy 0.9 mul exch 0.6 mul 4 2 roll pop pop 0 0 }");
    int form =
        pdf.stream(
            "/Type /XObject /Subtype /Form /BBox [0 0 200 200] /Resources << /ColorSpace << /Two"
                + " [/DeviceN [/Dune#20Red /Teal] /DeviceCMYK "
                + transform
                + " 0 R] >> >>",
            "/Two cs 0.5 0.7 scn 20 20 100 100 re f");
    StampedSheet sheet =
        stamp(
            pdf.page(A5 + "/Resources << /XObject << /Fm " + form + " 0 R >> >>", "/Fm Do"),
            Optional.of(Edge.RIGHT),
            InkOccupancy.UNKNOWN);
    assertThat(sheet.findings)
        .noneMatch(finding -> finding.code().equals("spot-definition-not-found"));
  }

  @Test
  void stamp_spotThatThePdfDoesNotDefine_printsItAndSaysSo() throws Exception {
    StampedSheet sheet =
        stamp(
            new JobPdf().page(A5, "0 0 0 0.5 k 20 20 100 100 re f"),
            Optional.of(Edge.RIGHT),
            InkOccupancy.UNKNOWN);
    assertThat(sheet.findings)
        .filteredOn(finding -> finding.code().equals("spot-definition-not-found"))
        .hasSize(2);
  }

  private static final String WIDE_MARGIN =
      "/MediaBox [0 0 700 800] /BleedBox [50 300 650 780] /TrimBox [59 309 641 771] ";

  @Test
  void stamp_blankMargin_staysOnTheSheetAndAboveWhitePaint() throws Exception {
    StampedSheet sheet =
        stamp(
            new JobPdf()
                .page(
                    WIDE_MARGIN + JobPdf.SPOTS,
                    "0 0 0 0 k 0 0 700 800 re f 1 0 0 0 k 60 310 300 200 re f"),
            Optional.empty(),
            (llx, lly, urx, ury) -> ury < 305);
    assertThat(sheet.strip.place().edge()).isEqualTo("bottom");
    assertThat(sheet.strip.place().mediaExtended()).isFalse();
    assertThat(sheet.strip.place().yPt() + sheet.strip.place().heightPt()).isLessThan(300);
    try (PDDocument document = Loader.loadPDF(sheet.proof.toFile())) {
      assertThat(document.getPage(0).getMediaBox().getHeight()).isEqualTo(800);
    }
  }

  @Test
  void stamp_inkBesideTheBlankMargin_keepsAwayFromIt() throws Exception {
    // Ink as far as 100 on the left: the middle of the edge would be nearer to it than the right.
    StampedSheet sheet =
        stamp(
            new JobPdf()
                .page(
                    "/MediaBox [0 0 1000 800] /BleedBox [20 300 980 780] /TrimBox [20 300 980 780] "
                        + JobPdf.SPOTS,
                    "1 0 0 0 k 0 0 100 300 re f"),
            Optional.empty(),
            (llx, lly, urx, ury) -> llx >= 100 && ury < 305);
    assertThat(sheet.strip.place().mediaExtended()).isFalse();
    assertThat(sheet.strip.place().xPt()).isGreaterThan(100 + 12 / 25.4 * 72);
  }

  @Test
  void stamp_inkInTheMargin_growsTheSheet() throws Exception {
    StampedSheet sheet =
        stamp(
            new JobPdf().page(WIDE_MARGIN + JobPdf.SPOTS, "1 0 0 0 k 0 0 700 800 re f"),
            Optional.of(Edge.BOTTOM),
            (llx, lly, urx, ury) -> false);
    assertThat(sheet.strip.place().mediaExtended()).isTrue();
  }

  @Test
  void stamp_pageNarrowerThanAnyStrip_growsAlongTheEdgeToo() throws Exception {
    StampedSheet sheet =
        stamp(
            new JobPdf().page("/MediaBox [0 0 90 100] " + JobPdf.SPOTS, "0 0 0 0.5 k 9 9 9 9 re f"),
            Optional.empty(),
            InkOccupancy.UNKNOWN);
    assertThat(sheet.findings).anyMatch(finding -> finding.code().equals("sheet-widened"));
  }

  @ParameterizedTest
  @CsvSource({
    "0, 1, 250, 900, BOTTOM, 250, 900",
    "0, 1, 250, 900, TOP, 250, 900",
    "90, 0.5, 1800, 500, BOTTOM, 500, 1800",
    "270, 1, 250, 900, RIGHT, 900, 250",
    "180, 1, 900, 250, LEFT, 900, 250"
  })
  void stamp_sheetThatWouldGrowTooFar_putsTheStripOnAPageOfItsOwn(
      int rotate, double unit, int width, int height, Edge edge, int ownWidth, int ownHeight)
      throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 %d %d] /Rotate %d /UserUnit %s "
                        .formatted(width, height, rotate, unit)
                    + JobPdf.SPOTS,
                CONTENT)
            .page("/MediaBox [0 0 300 300]", "1 0 0 0 k 0 0 9 9 re f");
    StampedSheet sheet = ofManyColors(pdf, Optional.of(edge));
    assertThat(sheet.strip.place().ownPage()).isTrue();
    assertThat(sheet.strip.place().proofPage()).isEqualTo(2);
    assertThat(sheet.strip.place().mediaExtended()).isFalse();
    assertThat(sheet.strip.place().edge()).isEqualTo(edge.word());
    assertThat(sheet.findings).anyMatch(one -> one.code().equals("strip-on-own-page"));
    try (PDDocument before = Loader.loadPDF(sheet.job.toFile());
        PDDocument after = Loader.loadPDF(sheet.proof.toFile())) {
      assertThat(after.getNumberOfPages()).isEqualTo(3);
      assertThat(after.getPage(2).getMediaBox().getWidth()).isEqualTo(300);
      PDPage own = after.getPage(1);
      assertThat(own.getRotation()).isZero();
      // never smaller than the page as displayed
      assertThat(own.getMediaBox().getWidth()).isGreaterThanOrEqualTo(ownWidth);
      assertThat(own.getMediaBox().getHeight()).isGreaterThanOrEqualTo(ownHeight);
      Strip.Place place = sheet.strip.place();
      assertThat(place.xPt()).isNotNegative();
      assertThat(place.yPt()).isNotNegative();
      assertThat(place.xPt() + place.widthPt())
          .isLessThanOrEqualTo(own.getMediaBox().getWidth() + 1e-3);
      assertThat(place.yPt() + place.heightPt())
          .isLessThanOrEqualTo(own.getMediaBox().getHeight() + 1e-3);
      assertThat(after.getPage(0).getCOSObject().keySet())
          .isEqualTo(before.getPage(0).getCOSObject().keySet());
      try (InputStream one = before.getPage(0).getContents();
          InputStream other = after.getPage(0).getContents()) {
        assertThat(other.readAllBytes()).isEqualTo(one.readAllBytes());
      }
    }
    sheet.assertFileIsSound();
    sheet.assertPatchesPrintAsTold();
    sheet.assertPageIsUntouched();
  }

  private StampedSheet ofManyColors(JobPdf pdf, Optional<Edge> edge) throws Exception {
    return StampedSheet.of(
        folder,
        pdf,
        edge,
        InkOccupancy.UNKNOWN,
        StampedSheet.content(1, StampedSheet.manyColors(), 160, "full"),
        "handheld-spot");
  }

  @Test
  void stamp_anotherEdgeGrowsLess_staysOnTheSheet() throws Exception {
    StampedSheet sheet =
        ofManyColors(
            new JobPdf().page("/MediaBox [0 0 600 2600] " + JobPdf.SPOTS, CONTENT),
            Optional.empty());
    assertThat(sheet.strip.place().mediaExtended()).isTrue();
    assertThat(sheet.strip.place().ownPage()).isFalse();
    assertThat(sheet.strip.place().proofPage()).isEqualTo(1);
  }

  @Test
  void stamp_pageThatStandsTwiceInTheTree_staysOnTheSheet() throws Exception {
    JobPdf pdf = new JobPdf().page("/MediaBox [0 0 250 900] " + JobPdf.SPOTS, CONTENT);
    pdf.pageAgain();
    StampedSheet sheet = ofManyColors(pdf, Optional.of(Edge.BOTTOM));
    assertThat(sheet.strip.place().ownPage()).isFalse();
    assertThat(sheet.strip.place().mediaExtended()).isTrue();
  }

  @ParameterizedTest
  @CsvSource({"strip-feeder, 0", "xy-table, 90", "handheld-scan, 270"})
  void stamp_otherReaders_printEveryPatch(String reader, int rotate) throws Exception {
    JobPdf pdf =
        new JobPdf()
            .page(
                "/MediaBox [0 0 595 842] /Rotate " + rotate + " " + JobPdf.SPOTS,
                "0.2 0 0 0 k 20 20 50 50 re f");
    StampedSheet sheet =
        StampedSheet.of(folder, pdf, Optional.empty(), InkOccupancy.UNKNOWN, "full", reader);
    sheet.assertPatchesPrintAsTold();
  }
}
