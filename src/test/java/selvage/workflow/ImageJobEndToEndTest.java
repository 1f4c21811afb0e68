package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.fixture.CmykJpeg;
import selvage.fixture.TiffFixture;
import selvage.ink.InkMixture;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/** Surveys of TIFF and JPEG files of known samples. */
class ImageJobEndToEndTest {
  private static final int[][] CMYK = {
    {84, 0, 0, 0}, {0, 128, 51, 0}, {0, 0, 0, 204}, {255, 26, 179, 64}
  };
  private static final Map<InkMixture, Double> CMYK_AREAS =
      Map.of(
          mixture(255, 84, 0, 0, 0), 25.0,
          mixture(255, 0, 128, 51, 0), 25.0,
          mixture(255, 0, 0, 0, 204), 25.0,
          mixture(255, 255, 26, 179, 64), 25.0);

  @TempDir Path folder;

  private static InkMixture mixture(int most, int c, int m, int y, int k) {
    return InkMixture.cmyk(100.0 * c / most, 100.0 * m / most, 100.0 * y / most, 100.0 * k / most);
  }

  @TestFactory
  Stream<DynamicTest> survey_cmykTiffInEveryLayout_authoredTintsAndAreas() {
    Map<String, TiffFixture> layouts = new LinkedHashMap<>();
    layouts.put("strips", cmyk(TiffFixture.little()));
    layouts.put("high byte first", cmyk(TiffFixture.big()));
    layouts.put("PackBits", cmyk(TiffFixture.little()).compression(TiffFixture.PACK_BITS));
    layouts.put("Deflate", cmyk(TiffFixture.little()).compression(TiffFixture.DEFLATE));
    layouts.put(
        "differences", cmyk(TiffFixture.little()).compression(TiffFixture.DEFLATE).differenced());
    layouts.put("planes", cmyk(TiffFixture.little()).planar());
    layouts.put(
        "planes, differences",
        cmyk(TiffFixture.big()).planar().compression(TiffFixture.DEFLATE).differenced());
    layouts.put("tiles", cmyk(TiffFixture.little()).tiles(16));
    layouts.put(
        "tiles, planes",
        cmyk(TiffFixture.little()).tiles(16).planar().compression(TiffFixture.PACK_BITS));
    layouts.put(
        "alpha that no name calls an ink",
        TiffFixture.little().page(40, 20, 5, 2, extended(CMYK, 255)).shorts(338, 0));
    return layouts.entrySet().stream()
        .map(
            layout ->
                DynamicTest.dynamicTest(
                    layout.getKey(),
                    () -> assertThat(areas(page(layout.getValue()))).isEqualTo(CMYK_AREAS)));
  }

  private static TiffFixture cmyk(TiffFixture tiff) {
    return tiff.page(40, 20, 5, 2, CMYK);
  }

  private static int[][] extended(int[][] cells, int... more) {
    int[][] extended = new int[cells.length][];
    for (int i = 0; i < cells.length; i++) {
      extended[i] = Arrays.copyOf(cells[i], cells[i].length + more.length);
      System.arraycopy(more, 0, extended[i], cells[i].length, more.length);
    }
    return extended;
  }

  @TestFactory
  Stream<DynamicTest> survey_sixteenBits_tintsFinerThanEight() {
    int[] cell = {21627, 0, 655, 65535};
    return Stream.of(
            TiffFixture.little().page(20, 20, 5, 1, cell).bits(16),
            TiffFixture.big().page(20, 20, 5, 1, cell).bits(16),
            TiffFixture.little()
                .page(20, 20, 5, 1, cell)
                .bits(16)
                .compression(TiffFixture.DEFLATE)
                .differenced(),
            TiffFixture.big().page(20, 20, 5, 1, cell).bits(16).planar())
        .map(
            tiff ->
                DynamicTest.dynamicTest(
                    "16 bits",
                    () ->
                        assertThat(areas(page(tiff)))
                            .containsOnlyKeys(mixture(65535, 21627, 0, 655, 65535))));
  }

  @Test
  void survey_namedInks_planesByTheirNames() throws Exception {
    int[][] cells = {{84, 0, 0, 0, 255, 0}, {0, 0, 0, 51, 0, 128}};
    TiffFixture tiff =
        TiffFixture.little()
            .page(40, 20, 5, 2, cells)
            .planar()
            .shorts(332, 2)
            .shorts(334, 6)
            .texts(333, "cyan", "Magenta", "Yellow", "Black", "Dune Red", "Fern");
    PageSurvey page = page(tiff);
    assertThat(areas(page))
        .isEqualTo(
            Map.of(
                InkMixture.ofPercents(Map.of("Cyan", 8400 / 255.0, "Dune Red", 100.0)), 50.0,
                InkMixture.ofPercents(Map.of("Black", 20.0, "Fern", 12800 / 255.0)), 50.0));
    assertThat(page.findings()).extracting(Finding::code).containsOnly("ink-color-unknown");
    assertThat(page.spots()).containsOnlyKeys("Dune Red", "Fern");
  }

  @Test
  void survey_inksWithoutProcessInks_noProcessPlaneUsed() throws Exception {
    TiffFixture tiff =
        TiffFixture.big()
            .page(40, 20, 5, 2, new int[] {255, 0, 9}, new int[] {51, 102, 9})
            .shorts(332, 2)
            .shorts(338, 0)
            .texts(333, "Dune Red", "Fern");
    PageSurvey page = page(tiff);
    assertThat(areas(page))
        .containsOnlyKeys(
            InkMixture.ofPercents(Map.of("Dune Red", 100.0)),
            InkMixture.ofPercents(Map.of("Dune Red", 20.0, "Fern", 40.0)));
    assertThat(page.findings()).extracting(Finding::code).contains("image-channel-ignored");
  }

  @Test
  void survey_dotRange_tintsCountedWithinIt() throws Exception {
    TiffFixture tiff =
        TiffFixture.little()
            .page(20, 20, 5, 1, new int[] {10, 110, 210, 250})
            .shorts(336, 10, 210)
            .shorts(332, 1);
    assertThat(areas(page(tiff))).containsOnlyKeys(InkMixture.cmyk(0, 50, 100, 100));
  }

  @Test
  void survey_spotChannelInRgb_overprintsTheImage() throws Exception {
    // White everywhere, the spot's channel black (solid) on the left only.
    TiffFixture tiff =
        TiffFixture.little()
            .page(40, 20, 2, 2, new int[] {255, 255, 255, 0}, new int[] {255, 255, 255, 255})
            .shorts(338, 0)
            .bytes(34377, spotRecord("Dune Red"));
    PageSurvey page = page(tiff);
    assertThat(areas(page))
        .isEqualTo(
            Map.of(InkMixture.ofPercents(Map.of("Dune Red", 100.0)), 50.0, InkMixture.PAPER, 50.0));
    assertThat(page.spots().get("Dune Red").ramp().lastEntry().getValue().l())
        .isCloseTo(46, within(0.01));
  }

  /**
   * An image resource block: one extra channel, its name, and that it is a spot of a Lab colour.
   */
  private static byte[] spotRecord(String name) {
    byte[] text = name.getBytes(StandardCharsets.UTF_16BE);
    ByteBuffer out = ByteBuffer.allocate(512);
    byte[] mark = "8BIM".getBytes(StandardCharsets.US_ASCII);
    out.put(mark).putShort((short) 1045).putShort((short) 0).putInt(4 + text.length + 2);
    out.putInt(name.length() + 1).put(text).putShort((short) 0);
    out.put(mark).putShort((short) 1077).putShort((short) 0).putInt(17).putInt(1);
    out.putShort((short) 7).putShort((short) 4600).putShort((short) -3000).putShort((short) 2800);
    out.putShort((short) 0).putShort((short) 100).put((byte) 2).put((byte) 0);
    return Arrays.copyOf(out.array(), out.position());
  }

  @ParameterizedTest
  @CsvSource({
    "0, 8, 51, 20",
    "1, 8, 51, 80",
    "1, 16, 13107, 80",
    "0, 4, 3, 20",
    "1, 2, 1, 66.6667",
    "0, 1, 1, 100",
    "1, 1, 0, 100"
  })
  void survey_grayTiff_isBlackInk(int photometric, int bits, int value, double black)
      throws Exception {
    TiffFixture tiff =
        TiffFixture.little().page(37, 20, photometric, 1, new int[] {value}).bits(bits);
    PageSurvey page = page(tiff);
    assertThat(areas(page)).hasSize(1);
    assertThat(page.census().mixture(0).cmyk()[3]).isCloseTo(black, within(0.001));
  }

  @Test
  void survey_rgbInSeveralForms_sameMixtures() throws Exception {
    int[][] cells = {{255, 255, 255}, {200, 30, 40}, {0, 0, 0}, {20, 90, 180}};
    Map<InkMixture, Double> plain = rounded(page(TiffFixture.little().page(40, 20, 2, 2, cells)));
    assertThat(plain).hasSize(4).containsKey(InkMixture.PAPER);
    assertThat(rounded(page(TiffFixture.big().page(40, 20, 2, 2, cells).planar())))
        .isEqualTo(plain);
    int[] map = new int[48];
    for (int i = 0; i < 4; i++) {
      for (int c = 0; c < 3; c++) {
        map[16 * c + i] = cells[i][c] * 257;
      }
    }
    int[][] indices = {{0}, {1}, {2}, {3}};
    assertThat(
            rounded(
                page(TiffFixture.little().page(40, 20, 3, 2, indices).bits(4).shorts(320, map))))
        .isEqualTo(plain);
    assertThat(
            rounded(
                page(TiffFixture.little().page(40, 20, 2, 2, extended(cells, 255)).shorts(338, 2))))
        .isEqualTo(plain);
  }

  @Test
  void survey_transparentHalf_isPaper() throws Exception {
    TiffFixture tiff =
        TiffFixture.little()
            .page(40, 20, 1, 2, new int[] {0, 255}, new int[] {0, 0})
            .shorts(338, 2);
    assertThat(areas(page(tiff)))
        .isEqualTo(Map.of(InkMixture.cmyk(0, 0, 0, 100), 50.0, InkMixture.PAPER, 50.0));
  }

  @ParameterizedTest
  @CsvSource({
    // orientation, where the stored upper left corner lies as displayed: right?, down?, turned?
    "1, false, false, false", "2, true, false, false", "3, true, true, false",
    "4, false, true, false", "5, false, false, true", "6, true, false, true",
    "7, true, true, true", "8, false, true, true"
  })
  void survey_orientation_turnsThePage(int orientation, boolean right, boolean down, boolean turned)
      throws Exception {
    int[][] cells = {{255}, {0}, {0}, {0}, {0}, {0}, {0}, {0}}; // black in the corner
    TiffFixture tiff = TiffFixture.little().page(60, 30, 0, 4, cells).shorts(274, orientation);
    Path planes = Files.createTempDirectory(folder, "planes");
    PageSurvey page = survey(write(tiff.toBytes(), "turned.tif"), planes).pages().get(0);
    assertThat(page.trimWidthMm()).isCloseTo((turned ? 30 : 60) / 150.0 * 25.4, within(0.01));
    BufferedImage black = ImageIO.read(planes.resolve("p001.Black.png").toFile());
    int x = right ? black.getWidth() - 2 : 1;
    int y = down ? black.getHeight() - 2 : 1;
    assertThat(black.getRaster().getSample(x, y, 0)).isZero();
    assertThat(page.census().inkedPercent()).isCloseTo(12.5, within(1e-6));
  }

  @Test
  void survey_severalImages_pageEachButNotForSmallCopies() throws Exception {
    TiffFixture tiff =
        TiffFixture.little()
            .page(20, 20, 0, 1, new int[] {255})
            .page(10, 10, 0, 1, new int[] {255})
            .longs(254, 1)
            .page(30, 20, 0, 1, new int[] {0});
    JobSurvey survey = survey(write(tiff.toBytes(), "two.tif"), null);
    assertThat(survey.job().pages()).isEqualTo(2);
    assertThat(survey.pages())
        .extracting(page -> page.census().inkedPercent())
        .containsExactly(100.0, 0.0);
  }

  @Test
  void survey_noResolution_threeHundredAndSaysSo() throws Exception {
    TiffFixture tiff = TiffFixture.little().page(300, 150, 0, 1, new int[] {255});
    PageSurvey page = page(tiff.without(282));
    assertThat(page.trimWidthMm()).isCloseTo(25.4, within(0.01));
    assertThat(page.findings()).extracting(Finding::code).contains("image-resolution-missing");
  }

  @Test
  void survey_resolutionPerCentimetre_rightSize() throws Exception {
    TiffFixture tiff = TiffFixture.little().page(100, 50, 0, 1, new int[] {255}).shorts(296, 3);
    PageSurvey page = page(tiff.rational(282, 100).rational(283, 50));
    assertThat(page.trimWidthMm()).isCloseTo(10, within(0.01));
    assertThat(page.trimHeightMm()).isCloseTo(10, within(0.01));
    assertThat(page.findings()).isEmpty();
  }

  @Test
  void survey_imageOfSeveralBands_noRowLostBetweenThem() throws Exception {
    // 30 MB of samples: more than one band; sampled at its own resolution.
    TiffFixture tiff =
        TiffFixture.little()
            .page(2500, 3000, 5, 1, new int[] {255, 0, 0, 51})
            .compression(TiffFixture.PACK_BITS);
    assertThat(areas(page(tiff))).isEqualTo(Map.of(InkMixture.cmyk(100, 0, 0, 20), 100.0));
  }

  @TestFactory
  Stream<DynamicTest> survey_bilevelTiffOfAnotherWriter_sameArea() {
    return Stream.of("CCITT RLE", "CCITT T.4", "CCITT T.6", "LZW", "PackBits", "Deflate")
        .map(
            compression ->
                DynamicTest.dynamicTest(
                    compression,
                    () -> {
                      Path file =
                          write(
                              tiffOf(disc(BufferedImage.TYPE_BYTE_BINARY), compression),
                              "other.tif");
                      PageSurvey page = survey(file, null).pages().get(0);
                      assertThat(page.census().inkedPercent()).isCloseTo(50.27, within(0.5));
                      assertThat(areas(page))
                          .containsOnlyKeys(InkMixture.PAPER, InkMixture.cmyk(0, 0, 0, 100));
                    }));
  }

  @TestFactory
  Stream<DynamicTest> survey_colorTiffOfAnotherWriter_sameArea() {
    return Stream.of("LZW", "JPEG", "Deflate")
        .map(
            compression ->
                DynamicTest.dynamicTest(
                    compression,
                    () -> {
                      Path file =
                          write(tiffOf(disc(BufferedImage.TYPE_INT_RGB), compression), "rgb.tif");
                      PageSurvey page = survey(file, null).pages().get(0);
                      double dark = 0;
                      for (int row = 0; row < page.census().size(); row++) {
                        dark += page.census().lab(row, 0) < 50 ? page.census().areaPercent(row) : 0;
                      }
                      assertThat(dark).isCloseTo(50.27, within(0.5));
                    }));
  }

  /** A black disc of half the area: the square of the radius over that of the side, times pi. */
  private static BufferedImage disc(int type) {
    BufferedImage image = new BufferedImage(203, 203, type);
    for (int y = 0; y < 203; y++) {
      for (int x = 0; x < 203; x++) {
        boolean in = Math.hypot(x - 101, y - 101) < 0.4 * 203;
        image.setRGB(x, y, in ? 0xff000000 : 0xffffffff);
      }
    }
    return image;
  }

  private static byte[] tiffOf(BufferedImage image, String compression) throws IOException {
    Iterator<ImageWriter> writers = ImageIO.getImageWritersByFormatName("TIFF");
    while (writers.hasNext()) {
      ImageWriter writer = writers.next();
      ImageWriteParam param = writer.getDefaultWriteParam();
      if (Arrays.asList(param.getCompressionTypes()).contains(compression)) {
        param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        param.setCompressionType(compression);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (var stream = ImageIO.createImageOutputStream(out)) {
          writer.setOutput(stream);
          writer.write(null, new IIOImage(image, null, null), param);
        } finally {
          writer.dispose();
        }
        return out.toByteArray();
      }
    }
    throw new IOException("no writer for " + compression);
  }

  @Test
  void survey_cmykJpegWithAdobeMarker_isInverted() throws Exception {
    byte[] jpeg = CmykJpeg.of(64, 64, 255 - 84, 255, 255, 255 - 51);
    PageSurvey inverted =
        survey(write(CmykJpeg.withAdobeMarker(jpeg), "a.jpg"), null).pages().get(0);
    assertThat(inverted.census().mixture(0)).isEqualTo(mixture(255, 84, 0, 0, 51));
    PageSurvey plain =
        survey(write(CmykJpeg.of(64, 64, 84, 0, 0, 51), "b.jpg"), null).pages().get(0);
    assertThat(plain.census().mixture(0)).isEqualTo(mixture(255, 84, 0, 0, 51));
  }

  @Test
  void survey_grayJpegNamedOtherwise_toldByItsBytes() throws Exception {
    BufferedImage gray = new BufferedImage(300, 150, BufferedImage.TYPE_BYTE_GRAY);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(gray, "jpeg", out);
    PageSurvey page = survey(write(out.toByteArray(), "photo.pdf"), null).pages().get(0);
    assertThat(areas(page)).isEqualTo(Map.of(InkMixture.cmyk(0, 0, 0, 100), 100.0));
    assertThat(page.trimWidthMm()).isCloseTo(25.4, within(0.01));
    assertThat(page.findings()).extracting(Finding::code).contains("image-resolution-missing");
  }

  private PageSurvey page(TiffFixture tiff) throws Exception {
    return survey(write(tiff.toBytes(), "job.tif"), null).pages().get(0);
  }

  private Path write(byte[] bytes, String name) throws IOException {
    return Files.write(Files.createTempDirectory(folder, "job").resolve(name), bytes);
  }

  private static JobSurvey survey(Path file, Path planes) throws InputException, IOException {
    return new SurveyJob(
            new SurveyJob.Request(
                file,
                null,
                null,
                150,
                AreaKind.MEDIA,
                List.of(),
                planes,
                null,
                ContentLimits.USUAL))
        .run();
  }

  /** Tints to a whole percent: conversions may interpolate. */
  private static Map<InkMixture, Double> rounded(PageSurvey page) {
    Map<InkMixture, Double> areas = new LinkedHashMap<>();
    areas(page)
        .forEach(
            (mixture, area) -> {
              double[] cmyk = mixture.cmyk();
              areas.merge(
                  InkMixture.cmyk(
                      Math.rint(cmyk[0]),
                      Math.rint(cmyk[1]),
                      Math.rint(cmyk[2]),
                      Math.rint(cmyk[3])),
                  area,
                  Double::sum);
            });
    return areas;
  }

  private static Map<InkMixture, Double> areas(PageSurvey page) {
    Map<InkMixture, Double> areas = new LinkedHashMap<>();
    for (int row = 0; row < page.census().size(); row++) {
      areas.merge(page.census().mixture(row), page.census().areaPercent(row), Double::sum);
    }
    return areas;
  }
}
