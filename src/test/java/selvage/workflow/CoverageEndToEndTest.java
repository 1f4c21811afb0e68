package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.fixture.Ghostscript;
import selvage.fixture.TintPlane;
import selvage.ink.Colorant;
import selvage.ink.Tint;
import selvage.separation.ContentLimits;
import selvage.separation.PageGeometry;
import selvage.separation.PdfJob;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;
import selvage.survey.AreaKind;
import selvage.survey.JobSurvey;

/**
 * The coverage that stands in the strips file, against one counted from Ghostscript's planes: every
 * sample of the trim box, its colour by the aim model, and CIEDE2000 to every patch.
 */
class CoverageEndToEndTest {
  private static final Path DEMO = Path.of("testdata/demo-job.pdf");
  private static final Path SPOTS = Path.of("testdata/demo-spots.txt");
  private static final int DPI = 72;
  private static final double POINTS = 2;

  @TempDir Path folder;

  /** How often each mixture of a page is found, as tints of 0 to 255 in the colorants' order. */
  private record Mixtures(List<Colorant> colorants, Map<String, Integer> samples) {}

  private static Mixtures mixtures(int page, PageGeometry.Window trim) throws Exception {
    Map<String, TintPlane> planes = Ghostscript.planes(DEMO, page, DPI);
    List<Colorant> colorants = new ArrayList<>();
    List<TintPlane> ordered = new ArrayList<>();
    planes.forEach(
        (name, plane) -> {
          colorants.add(Colorant.named(name));
          ordered.add(plane);
        });
    Map<String, Integer> samples = new HashMap<>();
    char[] mixture = new char[ordered.size()];
    for (int y = trim.top(); y < trim.bottom(); y++) {
      for (int x = trim.left(); x < trim.right(); x++) {
        int sum = 0;
        for (int i = 0; i < mixture.length; i++) {
          mixture[i] = (char) ordered.get(i).at(x, y);
          sum += mixture[i];
        }
        if (sum > 0) {
          samples.merge(new String(mixture), 1, Integer::sum);
        }
      }
    }
    return new Mixtures(colorants, samples);
  }

  /** Shares of the inked samples within ΔE00 2 and 3 of the nearest patch, and the mean of it. */
  private static double[] coverage(Mixtures mixtures, AimModel aims, List<Patch> patches) {
    int columns = mixtures.colorants().size();
    List<String> keys = List.copyOf(mixtures.samples().keySet());
    char[] tints = new char[keys.size() * columns];
    for (int row = 0; row < keys.size(); row++) {
      for (int i = 0; i < columns; i++) {
        tints[row * columns + i] = (char) Tint.ofFraction(keys.get(row).charAt(i) / 255.0);
      }
    }
    float[] lab = new float[3 * keys.size()];
    aims.aims(mixtures.colorants(), tints, lab, new AimSource[keys.size()]);
    double all = 0;
    double within2 = 0;
    double within3 = 0;
    double sum = 0;
    for (int row = 0; row < keys.size(); row++) {
      Lab color = new Lab(lab[3 * row], lab[3 * row + 1], lab[3 * row + 2]);
      double nearest = Double.MAX_VALUE;
      for (Patch patch : patches) {
        nearest = Math.min(nearest, ColorDifference.de00(patch.aim().lab(), color));
      }
      int count = mixtures.samples().get(keys.get(row));
      all += count;
      within2 += nearest <= 2 ? count : 0;
      within3 += nearest <= 3 ? count : 0;
      sum += nearest * count;
    }
    return new double[] {100 * within2 / all, 100 * within3 / all, sum / all};
  }

  @Test
  void coverage_demoJob_agreesWithGhostscriptsPlanes() throws Exception {
    assumeTrue(Ghostscript.isInstalled(), "gs is not there: nothing to hold the coverage against");
    JobSurvey survey =
        new SurveyJob(
                new SurveyJob.Request(
                    DEMO,
                    null,
                    null,
                    DPI,
                    AreaKind.TRIM,
                    List.of(SPOTS),
                    null,
                    null,
                    ContentLimits.USUAL))
            .run();
    StampOptions options =
        new StampOptions(
            24,
            "full",
            "handheld-spot",
            Optional.empty(),
            false,
            Optional.empty(),
            List.of(),
            Instant.parse("2026-11-25T10:03:00Z"));
    StampJob.Result result = StampJob.run(DEMO, survey, folder.resolve("demo.proof.pdf"), options);
    assertThat(result.strips().strips()).hasSameSizeAs(survey.pages());
    try (PdfJob job = PdfJob.open(DEMO, ContentLimits.USUAL)) {
      for (int i = 0; i < survey.pages().size(); i++) {
        Strip strip = result.strips().strips().get(i);
        PageGeometry geometry = job.geometry(i + 1, DPI);
        Mixtures mixtures = mixtures(i + 1, geometry.window(geometry.trim()));
        AimModel aims = new AimModel(survey.condition(), survey.pages().get(i).spots());
        double[] job24 = coverage(mixtures, aims, strip.patches(PatchSet.JOB));
        double[] standard = coverage(mixtures, aims, strip.patches(PatchSet.STANDARD));
        String page = "page " + (i + 1) + ": " + strip.coverage() + " against ";
        assertThat(strip.coverage().within2Percent())
            .as(page + job24[0] + " within 2")
            .isCloseTo(job24[0], within(POINTS));
        assertThat(strip.coverage().within3Percent())
            .as(page + job24[1] + " within 3")
            .isCloseTo(job24[1], within(POINTS));
        assertThat(strip.coverage().meanDe00())
            .as(page + job24[2] + " on average")
            .isCloseTo(job24[2], within(0.2));
        assertThat(strip.coverage().standardWithin3Percent())
            .as(page + standard[1] + " of the standard set")
            .isCloseTo(standard[1], within(POINTS));
      }
    }
  }
}
