package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.fixture.CmykJpeg;
import selvage.fixture.Ghostscript;
import selvage.fixture.TiffFixture;
import selvage.fixture.TintPlane;

/** The document that an image becomes, as an independent renderer separates it. */
class WrappedImagePlanesTest {
  private static final int DPI = 150;

  @TempDir Path folder;

  @BeforeAll
  static void needsGhostscript() {
    assumeTrue(Ghostscript.isInstalled(), "gs is missing: install ghostscript to compare planes");
  }

  @Test
  void open_tiffOfSixInks_planesAreItsSamples() throws Exception {
    int[][] cells = {{84, 0, 0, 0, 255, 0}, {0, 0, 0, 51, 0, 128}};
    Map<String, TintPlane> planes =
        planes(
            TiffFixture.little()
                .page(80, 40, 5, 2, cells)
                .compression(TiffFixture.DEFLATE)
                .shorts(332, 2)
                .shorts(334, 6)
                .texts(333, "Cyan", "Magenta", "Yellow", "Black", "Dune Red", "Fern")
                .toBytes());
    assertHalves(planes, "Cyan", 84, 0);
    assertHalves(planes, "Black", 0, 51);
    assertHalves(planes, "Dune Red", 255, 0);
    assertHalves(planes, "Fern", 0, 128);
    assertHalves(planes, "Yellow", 0, 0);
  }

  @Test
  void open_cmykTiffOfSeveralBands_planesAreItsSamples() throws Exception {
    int[][] cells = {{84, 0, 26, 0}, {0, 179, 0, 51}};
    Map<String, TintPlane> planes =
        planes(
            TiffFixture.big()
                .page(2400, 2800, 5, 2, cells)
                .compression(TiffFixture.PACK_BITS)
                .rational(282, 1200)
                .rational(283, 1200)
                .toBytes());
    assertHalves(planes, "Cyan", 84, 0);
    assertHalves(planes, "Magenta", 0, 179);
    assertHalves(planes, "Yellow", 26, 0);
    assertHalves(planes, "Black", 0, 51);
  }

  @Test
  void open_adobeCmykJpeg_planesAreInvertedSamples() throws Exception {
    byte[] jpeg = CmykJpeg.withAdobeMarker(CmykJpeg.of(80, 40, 255 - 84, 255, 255, 255 - 51));
    Map<String, TintPlane> planes = planes(jpeg);
    assertHalves(planes, "Cyan", 84, 84);
    assertHalves(planes, "Magenta", 0, 0);
    assertHalves(planes, "Black", 51, 51);
  }

  private Map<String, TintPlane> planes(byte[] image) throws Exception {
    Path file = Files.write(folder.resolve("job"), image);
    Path pdf = folder.resolve("wrapped.pdf");
    try (JobDocument job = JobDocument.open(file, true)) {
      job.document().save(pdf.toFile());
    }
    return Ghostscript.planes(pdf, 1, DPI);
  }

  /** Tints in the middle of the left and the right half, and over the plane. */
  private static void assertHalves(
      Map<String, TintPlane> planes, String name, int left, int right) {
    TintPlane plane = planes.get(name);
    assertThat(plane).as(name).isNotNull();
    int y = plane.height() / 2;
    assertThat(plane.at(plane.width() / 4, y)).as(name).isCloseTo(left, within(1));
    assertThat(plane.at(plane.width() * 3 / 4, y)).as(name).isCloseTo(right, within(1));
    assertThat(plane.meanPercent()).as(name).isCloseTo((left + right) / 2.0 / 2.55, within(0.6));
  }
}
