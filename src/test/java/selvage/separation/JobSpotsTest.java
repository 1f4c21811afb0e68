package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSFloat;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.common.PDStream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.color.Lab;
import selvage.color.ReferenceConditions;
import selvage.finding.Finding;

/** One ink, several alternate colours: in CIELAB, so that they are known without a conversion. */
class JobSpotsTest {
  private static final float[] RED = {46, 55, 30};
  private static final float[] NEARLY_RED = {46, 55.5f, 30};
  private static final float[] GREEN = {50, -40, 20};

  @TempDir Path folder;

  private final PDDocument document = new PDDocument();

  /** A page with a square in the ink Clay for each space. */
  private void page(COSArray... spaces) throws IOException {
    PDPage page = new PDPage(new PDRectangle(100, 100));
    COSDictionary named = new COSDictionary();
    StringBuilder content = new StringBuilder();
    for (int i = 0; i < spaces.length; i++) {
      named.setItem(COSName.getPDFName("S" + i), spaces[i]);
      content.append("/S" + i + " cs 1 scn " + 20 * i + " 0 10 10 re f\n");
    }
    COSDictionary resources = new COSDictionary();
    resources.setItem(COSName.COLORSPACE, named);
    page.getCOSObject().setItem(COSName.RESOURCES, resources);
    PDStream stream = new PDStream(document);
    try (var out = stream.createOutputStream()) {
      out.write(content.toString().getBytes(StandardCharsets.ISO_8859_1));
    }
    page.setContents(stream);
    document.addPage(page);
  }

  /** The space Clay; the exponent of its tint transform moves the tints and not the solid. */
  private static COSArray clay(float[] solid, float exponent) {
    COSDictionary white = new COSDictionary();
    white.setItem(COSName.WHITE_POINT, array(0.9642f, 1, 0.8249f));
    white.setItem(COSName.RANGE, array(-128, 127, -128, 127));
    COSArray lab = new COSArray(List.of(COSName.LAB, white));
    COSDictionary function = new COSDictionary();
    function.setItem(COSName.FUNCTION_TYPE, COSInteger.get(2));
    function.setItem(COSName.DOMAIN, array(0, 1));
    function.setItem(COSName.C0, array(95, 0, 0));
    function.setItem(COSName.C1, array(solid));
    function.setItem(COSName.N, new COSFloat(exponent));
    return new COSArray(List.of(COSName.SEPARATION, COSName.getPDFName("Clay"), lab, function));
  }

  private static COSArray array(float... values) {
    COSArray array = new COSArray();
    array.setFloatArray(values);
    return array;
  }

  private List<PageSeparation> separated() throws Exception {
    Path file = folder.resolve("job.pdf");
    document.save(file.toFile());
    document.close();
    List<PageSeparation> pages = new ArrayList<>();
    try (PdfJob job = PdfJob.open(file, ContentLimits.USUAL)) {
      for (int page = 1; page <= job.pageCount(); page++) {
        pages.add(job.separate(page, 72, ReferenceConditions.defaultCondition(), band -> {}));
      }
    }
    return pages;
  }

  private static List<Finding> differing(PageSeparation page) {
    return page.findings().stream()
        .filter(finding -> finding.code().equals("spot-alternates-differ"))
        .toList();
  }

  private static void assertSolid(PageSeparation page, float[] expected) {
    Lab solid = page.alternates().get("Clay").solid();
    assertThat(new double[] {solid.l(), solid.a(), solid.b()})
        .containsExactly(new double[] {expected[0], expected[1], expected[2]}, Offset.offset(0.05));
  }

  @Test
  void separate_twoColorsOfOneSpot_firstCountsAndBothAreTold() throws Exception {
    page(clay(RED, 1), clay(GREEN, 1));
    PageSeparation page = separated().get(0);
    assertSolid(page, RED);
    assertThat(differing(page))
        .singleElement()
        .satisfies(
            finding ->
                assertThat(finding.text())
                    .contains("page 1", "\"Clay\"", "46.0 55.0 30.0", "50.0 -40.0 20.0"));
  }

  @Test
  void separate_otherColorOnLaterPage_firstPageCounts() throws Exception {
    page(clay(GREEN, 1));
    page(clay(RED, 1));
    List<PageSeparation> pages = separated();
    assertSolid(pages.get(1), GREEN);
    assertThat(differing(pages.get(0))).isEmpty();
    assertThat(differing(pages.get(1)))
        .singleElement()
        .satisfies(finding -> assertThat(finding.text()).contains("page 2", "(page 1)"));
  }

  @Test
  void separate_sameSolidOtherTints_isTold() throws Exception {
    page(clay(RED, 1), clay(RED, 2));
    assertThat(differing(separated().get(0)))
        .singleElement()
        .satisfies(finding -> assertThat(finding.text()).contains("at 50 %"));
  }

  @Test
  void separate_nearlyTheSameColor_isNotTold() throws Exception {
    page(clay(RED, 1), clay(NEARLY_RED, 1.01f), clay(RED, 1));
    assertThat(differing(separated().get(0))).isEmpty();
  }
}
