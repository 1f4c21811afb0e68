package selvage.sheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.fixture.Ghostscript;
import selvage.fixture.TintPlane;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.strip.CensusBuilder;
import selvage.strip.JobSet;
import selvage.strip.Patch;
import selvage.strip.PlainCondition;
import selvage.strip.ReaderGeometry;
import selvage.strip.StandardStrip;
import selvage.strip.StripContent;
import selvage.strip.StripLabel;
import selvage.survey.Census;

/** A hand-built job, stamped, and what an independent renderer makes of it. */
final class StampedSheet {
  static final int DPI = 144;
  private static final double MM_PER_INCH = 25.4;

  final Path job;
  final Path proof;
  final StampedStrip strip;
  final List<Finding> findings = new ArrayList<>();

  private StampedSheet(Path job, Path proof, StampedStrip strip) {
    this.job = job;
    this.proof = proof;
    this.strip = strip;
    findings.addAll(strip.findings());
  }

  /** A census with two spots, tints, overprints and process builds in exact tints. */
  static Census census() {
    CensusBuilder census = new CensusBuilder();
    census.add(InkMixture.PAPER, 40_000, ObjectKind.FILL);
    census.add(InkMixture.ofPercents(Map.of("Dune Red", 100.0)), 9000, ObjectKind.FILL);
    census.add(InkMixture.ofPercents(Map.of("Dune Red", 33.0)), 4000, ObjectKind.FILL);
    census.add(InkMixture.ofPercents(Map.of("Teal", 100.0)), 7000, ObjectKind.FILL);
    census.add(
        InkMixture.ofPercents(Map.of("Dune Red", 80.0, "Black", 20.0)), 3000, ObjectKind.FILL);
    census.add(
        InkMixture.ofPercents(Map.of("Dune Red", 50.0, "Teal", 70.0)), 2500, ObjectKind.FILL);
    census.add(
        InkMixture.ofPercents(Map.of("Teal", 60.0, "Cyan", 12.5, "Yellow", 40.0)),
        2000,
        ObjectKind.FILL);
    census.add(InkMixture.cmyk(0, 0, 0, 100), 1500, ObjectKind.TEXT);
    census.add(InkMixture.cmyk(71.3, 12.2, 5.5, 3.1), 1200, ObjectKind.FILL);
    census.add(InkMixture.cmyk(4, 92, 88, 0), 1100, ObjectKind.FILL);
    for (int i = 0; i < 30; i++) {
      census.add(InkMixture.cmyk(3 * i, 60, 90 - 3 * i, i), 400, ObjectKind.IMAGE);
    }
    return census.build();
  }

  /** A census with so many colours that a strip of them is very long. */
  static Census manyColors() {
    CensusBuilder census = new CensusBuilder();
    census.add(InkMixture.PAPER, 40_000, ObjectKind.FILL);
    census.add(InkMixture.ofPercents(Map.of("Dune Red", 100.0)), 9000, ObjectKind.FILL);
    census.add(
        InkMixture.ofPercents(Map.of("Dune Red", 50.0, "Teal", 70.0)), 2500, ObjectKind.FILL);
    for (int i = 0; i < 200; i++) {
      InkMixture mixture = InkMixture.cmyk(i * 7 % 100, i * 13 % 95, i * 29 % 90, i % 30);
      census.add(mixture, 100 + i, ObjectKind.FILL);
    }
    return census.build();
  }

  static StripContent content(int page, int patches, String standardName) throws Exception {
    return content(page, census(), patches, standardName);
  }

  static StripContent content(int page, Census census, int patches, String standardName)
      throws Exception {
    PlainCondition condition = new PlainCondition();
    StandardStrip standard = StandardStrip.load(standardName);
    List<Lab> aims =
        standard.patches().stream().map(patch -> PlainCondition.color(patch.mixture())).toList();
    JobSet set = JobSet.choose(census, patches, aims);
    StripLabel label =
        new StripLabel(
            "flyer – überall.pdf",
            "page " + page + " of 2",
            "FOGRA39",
            "2026-11-25 10:03 UTC",
            List.of(
                new StripLabel.Item("Evaluated as", ""),
                new StripLabel.Item("Proofing system", ""),
                new StripLabel.Item("Ink set", ""),
                new StripLabel.Item("Substrate", "semi-matt 250 g/m²"),
                new StripLabel.Item("Simulation profile", "")));
    return StripContent.of("ab".repeat(32), page, census, set, standard, condition, label);
  }

  static StampedSheet of(Path folder, JobPdf pdf, Optional<Edge> edge) throws Exception {
    return of(folder, pdf, edge, InkOccupancy.UNKNOWN, "full", "handheld-spot");
  }

  static StampedSheet of(
      Path folder,
      JobPdf pdf,
      Optional<Edge> edge,
      InkOccupancy occupancy,
      String standard,
      String reader)
      throws Exception {
    return of(folder, pdf, edge, occupancy, content(1, 24, standard), reader);
  }

  static StampedSheet of(
      Path folder,
      JobPdf pdf,
      Optional<Edge> edge,
      InkOccupancy occupancy,
      StripContent content,
      String reader)
      throws Exception {
    Path job = folder.resolve("job.pdf");
    Path proof = folder.resolve("proof.pdf");
    Files.write(job, pdf.bytes());
    try (ProofDocument document = ProofDocument.open(job)) {
      StampedStrip strip =
          document.stamp(1, content, ReaderGeometry.load(reader), Map.of(), edge, occupancy);
      try (OutputStream out = Files.newOutputStream(proof)) {
        document.write(out, Instant.parse("2026-11-25T10:03:00Z"), 7);
      }
      StampedSheet sheet = new StampedSheet(job, proof, strip);
      sheet.findings.addAll(document.findings());
      return sheet;
    }
  }

  /** Asserts that every patch of the proof has its tints, within 1 % of a solid. */
  void assertPatchesPrintAsTold() throws IOException {
    Map<String, TintPlane> planes = Ghostscript.planes(proof, strip.place().proofPage(), DPI);
    TreeSet<String> inks = new TreeSet<>(planes.keySet());
    Frame frame = frame();
    for (Patch patch : strip.patches()) {
      double left = frame.stripLeftMm + patch.box().xMm();
      double bottom = frame.stripBottomMm + patch.box().yMm();
      double inset = 0.4;
      for (Colorant colorant : patch.mixture().units().keySet()) {
        assertThat(inks).contains(colorant.name());
      }
      for (String ink : inks) {
        TintPlane plane = planes.get(ink);
        int x0 = pixel(left + inset);
        int x1 = pixel(left + patch.box().widthMm() - inset);
        int y0 = plane.height() - pixel(bottom + patch.box().heightMm() - inset);
        int y1 = plane.height() - pixel(bottom + inset);
        TintPlane part = plane.part(x0, y0, x1 - x0, y1 - y0);
        double expected = patch.mixture().percent(Colorant.named(ink));
        for (int y = 0; y < part.height(); y++) {
          for (int x = 0; x < part.width(); x++) {
            double found = part.at(x, y) / 2.55;
            if (Math.abs(found - expected) > 1) {
              assertThat(found)
                  .as("%s %s of %s at %d, %d", patch.id(), ink, patch.mixture(), x, y)
                  .isCloseTo(expected, org.assertj.core.api.Assertions.within(1.0));
            }
          }
        }
      }
    }
  }

  /** Where the strip lies in the rendered media box, from its lower left corner as displayed. */
  private record Frame(double stripLeftMm, double stripBottomMm) {}

  private Frame frame() throws IOException {
    try (PDDocument document = Loader.loadPDF(proof.toFile())) {
      PageFrame frame = PageFrame.of(document.getPage(strip.place().proofPage() - 1));
      double x = strip.place().xPt();
      double y = strip.place().yPt();
      Rectangle box =
          frame.displayed(
              new Rectangle(x, y, x + strip.place().widthPt(), y + strip.place().heightPt()));
      return new Frame(box.llx(), box.lly());
    }
  }

  /** The strip's box in samples from the lower left corner, a sample wider on each side. */
  private Rectangle stripInSamples() throws IOException {
    Frame frame = frame();
    boolean upright = strip.upright();
    double width = upright ? strip.layout().heightMm() : strip.layout().widthMm();
    double height = upright ? strip.layout().widthMm() : strip.layout().heightMm();
    return new Rectangle(
        pixel(frame.stripLeftMm) - 1,
        pixel(frame.stripBottomMm) - 1,
        pixel(frame.stripLeftMm + width) + 1,
        pixel(frame.stripBottomMm + height) + 1);
  }

  private static int pixel(double mm) {
    return (int) Math.round(mm / MM_PER_INCH * DPI);
  }

  /** Asserts that the old media's planes are the same before and after, but for the strip. */
  void assertPageIsUntouched() throws IOException {
    Map<String, TintPlane> before = Ghostscript.planes(job, 1, DPI);
    Map<String, TintPlane> after = Ghostscript.planes(proof, 1, DPI);
    Rectangle old;
    Rectangle box = stripInSamples();
    try (PDDocument document = Loader.loadPDF(job.toFile());
        PDDocument stamped = Loader.loadPDF(proof.toFile())) {
      Rectangle media = PageFrame.of(document.getPage(0)).media();
      old = PageFrame.of(stamped.getPage(0)).displayed(media);
    }
    for (Map.Entry<String, TintPlane> entry : before.entrySet()) {
      TintPlane one = entry.getValue();
      TintPlane other = after.get(entry.getKey());
      assertThat(other).as("plane %s", entry.getKey()).isNotNull();
      int x0 = pixel(old.llx());
      int y0 = other.height() - pixel(old.lly()) - one.height();
      long differing = 0;
      for (int y = 2; y < one.height() - 2; y++) {
        for (int x = 2; x < one.width() - 2; x++) {
          boolean covered =
              !strip.place().ownPage()
                  && x0 + x >= box.llx()
                  && x0 + x <= box.urx()
                  && other.height() - (y0 + y) >= box.lly()
                  && other.height() - (y0 + y) <= box.ury();
          differing += covered || one.at(x, y) == other.at(x0 + x, y0 + y) ? 0 : 1;
        }
      }
      assertThat(differing).as("differing samples of %s", entry.getKey()).isZero();
    }
  }

  /** Asserts that an independent checker has no complaint. */
  void assertFileIsSound() throws Exception {
    Process process =
        new ProcessBuilder("qpdf", "--check", proof.toString()).redirectErrorStream(true).start();
    try (InputStream in = process.getInputStream()) {
      String said = new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
      assertThat(process.waitFor()).as(said).isZero();
      assertThat(said).doesNotContain("WARNING");
    }
  }

  static boolean hasTools() {
    try {
      new ProcessBuilder("qpdf", "--version").start().waitFor();
      return Ghostscript.isInstalled();
    } catch (IOException e) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }
}
