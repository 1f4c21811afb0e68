package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Point2D;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSFloat;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A page of 200 by 100 points whose lower left corner is at (50, -30), at 144 dpi. */
class PageGeometryTest {
  private static PDPage page() {
    return new PDPage(new PDRectangle(50, -30, 200, 100));
  }

  private static PageGeometry geometry(PDPage page) {
    return new PageGeometry(page, 144);
  }

  /** The lower left corner of the box, and a point 10 right and 20 up of it, in samples. */
  @ParameterizedTest
  @CsvSource({
    "0,   400, 200, 0,   200, 20,  160",
    "90,  200, 400, 0,   0,   40,  20",
    "180, 400, 200, 400, 0,   380, 40",
    "270, 200, 400, 200, 400, 160, 380",
    "-90, 200, 400, 200, 400, 160, 380",
    "450, 200, 400, 0,   0,   40,  20"
  })
  void toSamples_rotations_turnClockwise(
      int rotation, int width, int height, double x, double y, double x2, double y2) {
    PDPage page = page();
    page.setRotation(rotation);
    PageGeometry geometry = geometry(page);
    assertThat(geometry.width()).isEqualTo(width);
    assertThat(geometry.height()).isEqualTo(height);
    Point2D corner = geometry.toSamples().transform(new Point2D.Double(50, -30), null);
    assertThat(corner.getX()).isCloseTo(x, Offset.offset(1e-6));
    assertThat(corner.getY()).isCloseTo(y, Offset.offset(1e-6));
    Point2D inner = geometry.toSamples().transform(new Point2D.Double(60, -10), null);
    assertThat(inner.getX()).isCloseTo(x2, Offset.offset(1e-6));
    assertThat(inner.getY()).isCloseTo(y2, Offset.offset(1e-6));
  }

  @Test
  void displayedSize_turned_swapsItsSides() {
    PDPage page = page();
    page.setRotation(90);
    PageGeometry geometry = geometry(page);
    assertThat(geometry.displayedWidthMm(geometry.media()))
        .isCloseTo(100 * 25.4 / 72, Offset.offset(1e-9));
    assertThat(geometry.displayedHeightMm(geometry.media()))
        .isCloseTo(200 * 25.4 / 72, Offset.offset(1e-9));
  }

  @Test
  void userUnit_oneAndAHalf_scalesSamplesAndMillimetres() {
    PDPage page = page();
    page.getCOSObject().setFloat(COSName.getPDFName("UserUnit"), 1.5f);
    PageGeometry geometry = geometry(page);
    assertThat(geometry.width()).isEqualTo(600);
    assertThat(geometry.userUnit()).isEqualTo(1.5);
    assertThat(geometry.displayedWidthMm(geometry.trim()))
        .isCloseTo(300 * 25.4 / 72, Offset.offset(1e-9));
  }

  @Test
  void userUnit_absurd_countsAsOne() {
    PDPage page = page();
    page.getCOSObject().setFloat(COSName.getPDFName("UserUnit"), -3);
    assertThat(geometry(page).userUnit()).isEqualTo(1);
  }

  @Test
  void boxes_missing_areTheCropBox() {
    PDPage page = page();
    page.setCropBox(new PDRectangle(60, -20, 100, 50));
    PageGeometry geometry = geometry(page);
    assertThat(geometry.trim()).isEqualTo(new PageGeometry.Box(60, -20, 100, 50));
    assertThat(geometry.bleed()).isEqualTo(geometry.trim());
    assertThat(geometry.media()).isEqualTo(new PageGeometry.Box(50, -30, 200, 100));
  }

  @Test
  void boxes_beyondTheMedia_areCutToIt() {
    PDPage page = page();
    page.setBleedBox(new PDRectangle(0, 0, 100, 1000));
    page.setTrimBox(new PDRectangle(1000, 1000, 10, 10));
    PageGeometry geometry = geometry(page);
    assertThat(geometry.bleed()).isEqualTo(new PageGeometry.Box(50, 0, 50, 70));
    assertThat(geometry.trim()).as("nothing of it is left").isEqualTo(geometry.media());
  }

  @Test
  void mediaBox_cornersSwapped_isTheSame() {
    PDPage page = page();
    COSArray swapped = new COSArray();
    for (float value : new float[] {250, 70, 50, -30}) {
      swapped.add(new COSFloat(value));
    }
    page.getCOSObject().setItem(COSName.MEDIA_BOX, swapped);
    assertThat(geometry(page).media()).isEqualTo(new PageGeometry.Box(50, -30, 200, 100));
  }

  @Test
  void mediaBox_empty_isLetter() {
    PageGeometry geometry = geometry(new PDPage(new PDRectangle(7, 7, 0, 10)));
    assertThat(geometry.media()).isEqualTo(new PageGeometry.Box(0, 0, 612, 792));
  }

  /** The trim of 100 by 50 points at (60, -20) holds 200 by 100 samples, however turned. */
  @ParameterizedTest
  @CsvSource({"0, 20, 80, 220, 180", "90, 20, 20, 120, 220", "180, 180, 20, 380, 120"})
  void window_ofABox_holdsItsSamples(int rotation, int left, int top, int right, int bottom) {
    PDPage page = page();
    page.setTrimBox(new PDRectangle(60, -20, 100, 50));
    page.setRotation(rotation);
    PageGeometry geometry = geometry(page);
    PageGeometry.Window window = geometry.window(geometry.trim());
    assertThat(window).isEqualTo(new PageGeometry.Window(left, top, right, bottom));
    assertThat(window.count()).isEqualTo(20_000);
  }
}
