package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import selvage.fixture.CmykJpeg;
import selvage.fixture.TiffFixture;

/** {@code survey} and {@code stamp} of TIFF and JPEG files as a user calls them. */
class ImageJobCommandTest {
  private static final int[][] INKS = {
    {84, 0, 0, 0, 255}, {0, 128, 51, 0, 0}, {0, 0, 0, 204, 64}, {255, 26, 179, 64, 0}
  };

  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  @Test
  void survey_tiffWithSpot_jsonNamesInksAndColors() throws IOException {
    Path job = write("label.tif", label().toBytes());
    assertThat(run("survey", job, "--json", "-")).as(err.toString()).isZero();
    JsonNode page = new ObjectMapper().readTree(out.toString()).path("pages").get(0);
    assertThat(page.path("colorants").toString()).contains("\"Dune Red\"");
    assertThat(page.path("trim_mm").get(0).doubleValue()).isEqualTo(101.6);
    assertThat(page.path("colors")).hasSize(4);
    assertThat(page.path("colors").toString()).contains("image");
  }

  @Test
  void stamp_tiffWithSpot_proofKeepsSizeAndHasStrip() throws IOException {
    Path job = write("label.tif", label().toBytes());
    Path proof = folder.resolve("label.proof.pdf");
    assertThat(run("stamp", job, "-o", proof, "--time", "2026-11-25T10:00:00Z"))
        .as(err.toString())
        .isZero();
    byte[] first = Files.readAllBytes(proof);
    JsonNode strips =
        new ObjectMapper().readTree(folder.resolve("label.proof.strips.json").toFile());
    assertThat(strips.path("strips").get(0).path("patches").toString()).contains("Dune Red");
    assertThat(strips.path("job").path("file").textValue()).isEqualTo("label.tif");
    // The proof surveys like the job: the image inside the trim box is the same.
    out.getBuffer().setLength(0);
    assertThat(run("survey", proof, "--json", "-")).isZero();
    JsonNode page = new ObjectMapper().readTree(out.toString()).path("pages").get(0);
    assertThat(page.path("trim_mm").get(0).doubleValue()).isEqualTo(101.6);
    assertThat(page.path("colors")).hasSize(4);
    assertThat(run("stamp", job, "-o", proof, "--time", "2026-11-25T10:00:00Z")).isZero();
    assertThat(Files.readAllBytes(proof)).isEqualTo(first);
  }

  @Test
  void survey_inkOfTheLibrary_colorKnownAndNoWarning() throws IOException {
    Path job = write("label.tif", label().toBytes());
    assertThat(run("survey", job)).isZero();
    assertThat(out.toString()).contains("which colour the ink Dune Red has");
    Path library = folder.resolve("spots.txt");
    Files.writeString(
        library,
        """
        CGATS.17
        BEGIN_DATA_FORMAT
        SAMPLE_NAME LAB_L LAB_A LAB_B
        END_DATA_FORMAT
        BEGIN_DATA
        "Dune Red" 46.1 55.2 30.0
        END_DATA
        """);
    out.getBuffer().setLength(0);
    assertThat(run("survey", job, "--spots", library)).isZero();
    assertThat(out.toString()).contains("Dune Red").doesNotContain("which colour");
  }

  @Test
  void stamp_cmykJpeg_strip() throws IOException {
    byte[] jpeg = CmykJpeg.withAdobeMarker(CmykJpeg.of(1200, 900, 20, 200, 255, 255));
    Path job = write("photo.jpg", jpeg);
    Path proof = folder.resolve("photo.proof.pdf");
    assertThat(run("stamp", job, "-o", proof)).as(err.toString()).isZero();
    assertThat(Files.readString(folder.resolve("photo.proof.strips.json")))
        .contains("image-resolution-missing");
  }

  @TestFactory
  @Timeout(60)
  Stream<DynamicTest> survey_badImage_statusThreeAndWhatIsWrong() throws IOException {
    byte[] tiff = label().compression(TiffFixture.DEFLATE).toBytes();
    byte[] plain = label().toBytes();
    byte[] jpeg = CmykJpeg.of(400, 300, 1, 2, 3, 4);
    return Stream.of(
        refused(Arrays.copyOf(tiff, tiff.length * 2 / 3), "cut off"),
        refused(Arrays.copyOf(plain, plain.length / 2), "cut off"),
        refused(Arrays.copyOf(plain, 30), "cut off"),
        refused(Arrays.copyOf(jpeg, jpeg.length * 2 / 3), "cut off"),
        refused(label().longs(256, 2_000_000).longs(257, 2_000_000).toBytes(), "at most"),
        refused(label().longs(257, 60_000).toBytes(), "strips or tiles"),
        refused(label().compression(6).toBytes(), "compression"),
        refused(label().shorts(339, 3, 3, 3, 3, 3).toBytes(), "without sign"),
        refused(label().shorts(262, 32803).toBytes(), "photometric interpretation 32803"),
        refused(label().shorts(277, 70).toBytes(), "samples a pixel"),
        refused(withSize(jpeg, 20_000, 9_000), "cut off"),
        refused(withSize(jpeg, 65_535, 65_535), "at most"));
  }

  private DynamicTest refused(byte[] image, String why) {
    return DynamicTest.dynamicTest(
        why,
        () -> {
          Path job = write("bad.img", image);
          err.getBuffer().setLength(0);
          Path proof = folder.resolve("bad.proof.pdf");
          assertThat(run("stamp", job, "-o", proof)).isEqualTo(ExitStatus.INPUT);
          assertThat(err.toString()).contains("bad.img").contains(why).doesNotContain("\tat ");
          assertThat(proof).doesNotExist();
        });
  }

  @Test
  void survey_jpegWithCodedDataMissing_warns() throws IOException {
    byte[] jpeg = CmykJpeg.of(400, 300, 10, 200, 30, 40);
    // A stretch within the coded data is gone, the end mark stays.
    byte[] damaged = Arrays.copyOf(jpeg, jpeg.length - 1000);
    System.arraycopy(jpeg, jpeg.length - 500, damaged, damaged.length - 500, 500);
    assertThat(run("survey", write("damaged.jpg", damaged))).isZero();
    assertThat(out.toString()).contains("JPEG data that are damaged");
    assertThat(run("survey", write("whole.jpg", jpeg), "--json", "-")).isZero();
    assertThat(out.toString()).doesNotContain("image-damaged");
  }

  @Test
  void survey_directoriesInACircle_statusThree() throws IOException {
    byte[] tiff = label().toBytes();
    // The place of the next directory follows the entries; it is made to point to the first.
    int entries = tiff[8] & 0xff;
    tiff[8 + 2 + 12 * entries] = 8;
    assertThat(run("survey", write("circle.tif", tiff))).isEqualTo(ExitStatus.INPUT);
    assertThat(err.toString()).contains("circle.tif").contains("circle");
  }

  private static TiffFixture label() {
    return TiffFixture.little()
        .page(600, 400, 5, 2, INKS)
        .shorts(332, 2)
        .texts(333, "Cyan", "Magenta", "Yellow", "Black", "Dune Red");
  }

  private static byte[] withSize(byte[] jpeg, int width, int height) {
    byte[] changed = jpeg.clone();
    int at = 2;
    while ((changed[at + 1] & 0xff) != 0xc0) {
      at += 2 + ((changed[at + 2] & 0xff) << 8 | (changed[at + 3] & 0xff));
    }
    changed[at + 5] = (byte) (height >> 8);
    changed[at + 6] = (byte) height;
    changed[at + 7] = (byte) (width >> 8);
    changed[at + 8] = (byte) width;
    return changed;
  }

  private Path write(String name, byte[] bytes) throws IOException {
    return Files.write(folder.resolve(name), bytes);
  }

  private int run(Object... words) {
    String[] args = Stream.of(words).map(Object::toString).toArray(String[]::new);
    return Main.run(args, new PrintWriter(out, true), new PrintWriter(err, true));
  }
}
