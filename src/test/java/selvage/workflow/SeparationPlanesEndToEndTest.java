package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.InputStream;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.assertj.core.api.SoftAssertions;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.fixture.Fixture;
import selvage.fixture.Fixtures;
import selvage.fixture.Ghostscript;
import selvage.fixture.PlaneAgreement;
import selvage.fixture.TintPlane;
import selvage.ink.Colorant;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;

/** Ink planes of whole pages beside an independent renderer's. */
class SeparationPlanesEndToEndTest {
  private static final int DPI = 150;
  private static final double MEAN_TOLERANCE = 0.5;

  /** Public PDFs of other projects' test suites; not part of this project. */
  private static final Path PUBLIC_FILES = Path.of("..", "shared", "pdfs");

  /** Files on which two independent renderers disagree with each other, or which none opens. */
  private static final Set<String> NOT_COMPARED =
      Set.of(
          "itext-java__inlineImageDeviceNColorSpace.pdf",
          "itext-java__separation8bitDeviceCMYKExtGState.pdf",
          "pdf.js__blendmode.pdf",
          "pdf.js__endchar.pdf",
          "pdf.js__function_based_shading_cmyk.pdf",
          "pdf.js__knockout_nonisolated_sparse.pdf",
          "pdf.js__smask_luminosity_oob_transfer.pdf",
          "pdfium__bug_555784.pdf",
          "pdfium__encrypted_hello_world_r6.pdf",
          "serenity__shade-tensor.pdf");

  @TempDir Path folder;

  @Test
  void names_ofKnownPages_differ() {
    assertThat(Fixtures.all().stream().map(Fixture::name)).doesNotHaveDuplicates();
  }

  @TestFactory
  Stream<DynamicTest> planes_ofKnownPages_agree() throws IOException {
    assumeTrue(Ghostscript.isInstalled(), "Ghostscript is not installed");
    List<Fixture> fixtures =
        Fixtures.all().stream().filter(fixture -> fixture.ghostscriptDiffers().isEmpty()).toList();
    List<Path> files = new ArrayList<>();
    for (Fixture fixture : fixtures) {
      files.add(Files.write(folder.resolve(fixture.name() + ".pdf"), fixture.pdf()));
    }
    Path references = Files.createDirectory(folder.resolve("references"));
    Ghostscript.separate(files, DPI, references);
    return IntStream.range(0, files.size())
        .mapToObj(
            i ->
                DynamicTest.dynamicTest(
                    fixtures.get(i).name(),
                    () ->
                        check(
                            fixtures.get(i), files.get(i), Ghostscript.planes(references, i + 1))));
  }

  /** The reference's planes bear the fixture's figures out, and ours agree with them. */
  private void check(Fixture fixture, Path pdf, Map<String, TintPlane> media) throws Exception {
    String text = new String(fixture.pdf(), StandardCharsets.ISO_8859_1);
    boolean trimmed = text.contains("/TrimBox");
    boolean cropped = text.contains("/CropBox");
    if (trimmed || cropped) {
      String option = trimmed ? "-dUseTrimBox" : "-dUseCropBox";
      assertMeans(fixture, Ghostscript.planes(pdf, 1, DPI, option));
    } else {
      assertMeans(fixture, media);
    }
    if (!cropped) { // Ghostscript cuts the media's content to the crop box
      PlaneAgreement agreement = PlaneAgreement.of(media, planes(pdf, 1));
      assertThat(agreement.agrees()).as("%s: %s", fixture.covers(), agreement).isTrue();
    }
  }

  private static void assertMeans(Fixture fixture, Map<String, TintPlane> planes) {
    Map<Colorant, Double> stated = fixture.meanTints();
    SoftAssertions softly = new SoftAssertions();
    stated.forEach(
        (colorant, mean) -> {
          TintPlane plane = planes.get(colorant.name());
          softly
              .assertThat(plane == null ? 0 : plane.meanPercent())
              .as("the reference's mean of %s: %s", colorant.name(), fixture.covers())
              .isCloseTo(mean, Offset.offset(MEAN_TOLERANCE));
        });
    planes.forEach(
        (name, plane) -> {
          if (!stated.containsKey(Colorant.named(name))) {
            softly.assertThat(plane.max()).as("a plane that should not be: " + name).isZero();
          }
        });
    softly.assertAll();
  }

  @Test
  void planes_ofTheDemoJob_agree() throws Exception {
    assumeTrue(Ghostscript.isInstalled(), "Ghostscript is not installed");
    Path pdf = folder.resolve("demo-job.pdf");
    try (InputStream job = SurveyJob.class.getResourceAsStream("/demo/demo-job.pdf")) {
      Files.copy(job, pdf);
    }
    assertAgrees(pdf, 1);
    assertAgrees(pdf, 2);
  }

  @TestFactory
  Stream<DynamicTest> planes_ofPublicFiles_agree() throws IOException {
    assumeTrue(Ghostscript.isInstalled(), "Ghostscript is not installed");
    if (!Files.isDirectory(PUBLIC_FILES)) {
      return Stream.of(DynamicTest.dynamicTest("no public PDFs beside the project", () -> {}));
    }
    List<Path> files;
    try (Stream<Path> list = Files.list(PUBLIC_FILES)) {
      files = list.filter(file -> file.toString().endsWith(".pdf")).sorted().toList();
    }
    return files.stream()
        .filter(file -> !NOT_COMPARED.contains(file.getFileName().toString()))
        .map(
            file ->
                DynamicTest.dynamicTest(
                    file.getFileName().toString(), () -> assertAgrees(file, 1)));
  }

  private void assertAgrees(Path pdf, int page) throws Exception {
    PlaneAgreement agreement =
        PlaneAgreement.of(Ghostscript.planes(pdf, page, DPI), planes(pdf, page));
    assertThat(agreement.agrees()).as("%s: %s", pdf.getFileName(), agreement).isTrue();
  }

  private Map<String, TintPlane> planes(Path pdf, int page) throws InputException, IOException {
    Path planes = Files.createTempDirectory(folder, "planes");
    new SurveyJob(
            new SurveyJob.Request(
                pdf,
                null,
                String.valueOf(page),
                DPI,
                AreaKind.MEDIA,
                List.of(),
                planes,
                null,
                ContentLimits.USUAL))
        .run();
    Map<String, TintPlane> found = new TreeMap<>();
    try (Stream<Path> files = Files.list(planes)) {
      for (Path file : files.toList()) {
        String name = file.getFileName().toString();
        String encoded = name.substring("pNNN.".length(), name.length() - ".png".length());
        found.put(URLDecoder.decode(encoded, StandardCharsets.UTF_8), read(file));
      }
    }
    return found;
  }

  private static TintPlane read(Path png) throws IOException {
    BufferedImage image = ImageIO.read(png.toFile());
    int width = image.getWidth();
    int height = image.getHeight();
    byte[] tints = new byte[width * height];
    int[] row = new int[width];
    for (int y = 0; y < height; y++) {
      image.getRaster().getSamples(0, y, width, 1, 0, row);
      for (int x = 0; x < width; x++) {
        tints[y * width + x] = (byte) (255 - row[x]);
      }
    }
    return new TintPlane(width, height, tints);
  }
}
