package selvage.workflow;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import selvage.color.AimModel;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.draw.BenchmarkPage;
import selvage.draw.SizedSheet;
import selvage.finding.InputException;
import selvage.separation.ContentLimits;
import selvage.separation.PageGeometry;
import selvage.separation.PageSeparation;
import selvage.separation.PdfJob;
import selvage.survey.AreaKind;
import selvage.survey.Census;
import selvage.survey.CensusBuilder;
import selvage.survey.JobSurvey;

/**
 * A page in a warm process, as the hot folder has it, at 150 dpi: the whole survey, and its parts.
 * The file is opened anew each time.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 6, time = 2)
@Measurement(iterations = 8, time = 2)
public class PageBenchmark {
  private static final int DPI = 150;

  /**
   * The demo job's two pages; a page with a photograph of a megapixel and 24 flat fields, as JPEG
   * and as plain samples; a photograph of two megapixels over the whole page with eight spots on
   * it.
   */
  @Param({"demo-1", "demo-2", "photograph", "photograph-plain", "eight-spots"})
  public String page;

  private final ReferenceCondition condition = ReferenceConditions.defaultCondition();
  private Path file;
  private int number;
  private CensusBuilder taken;
  private AimModel aims;

  @Setup
  public void draw() throws IOException, InputException {
    file = Files.createTempFile("page", ".pdf");
    number = page.equals("demo-2") ? 2 : 1;
    switch (page) {
      case "photograph" -> BenchmarkPage.main(new String[] {file.toString()});
      case "photograph-plain" -> BenchmarkPage.main(new String[] {file.toString(), "plain"});
      case "eight-spots" -> SizedSheet.main(new String[] {file.toString(), "A4"});
      default -> {
        try (InputStream job = SurveyJob.class.getResourceAsStream("/demo/demo-job.pdf")) {
          Files.write(file, job.readAllBytes());
        }
      }
    }
    try (PdfJob job = PdfJob.open(file, ContentLimits.USUAL)) {
      PageGeometry geometry = job.geometry(number, DPI);
      taken = new CensusBuilder(geometry.window(geometry.trim()));
      PageSeparation separation = job.separate(number, DPI, condition, taken);
      aims = new AimModel(condition, separation.alternates());
    }
  }

  @TearDown
  public void delete() throws IOException {
    Files.delete(file);
  }

  /** Open, separate, count, find the aims. */
  @Benchmark
  public JobSurvey survey() throws IOException, InputException {
    return survey(null);
  }

  /** The same with a picture of the page. */
  @Benchmark
  public JobSurvey surveyWithPreview() throws IOException, InputException {
    Path picture = file.resolveSibling(file.getFileName() + ".png");
    try {
      return survey(picture);
    } finally {
      Files.deleteIfExists(picture);
    }
  }

  private JobSurvey survey(Path preview) throws IOException, InputException {
    return new SurveyJob(
            new SurveyJob.Request(
                file,
                null,
                String.valueOf(number),
                DPI,
                AreaKind.TRIM,
                List.of(),
                null,
                preview,
                ContentLimits.USUAL))
        .run();
  }

  /** Open and paint: content, images and compositing, nothing counted. */
  @Benchmark
  public PageSeparation separate() throws IOException, InputException {
    try (PdfJob job = PdfJob.open(file, ContentLimits.USUAL)) {
      return job.separate(number, DPI, condition, band -> {});
    }
  }

  /** Open, paint, and count the samples of each mixture. */
  @Benchmark
  public Map.Entry<PageSeparation, CensusBuilder> separateAndCount()
      throws IOException, InputException {
    try (PdfJob job = PdfJob.open(file, ContentLimits.USUAL)) {
      PageGeometry geometry = job.geometry(number, DPI);
      CensusBuilder census = new CensusBuilder(geometry.window(geometry.trim()));
      return Map.entry(job.separate(number, DPI, condition, census), census);
    }
  }

  /** From counted samples to the census: mixtures by area, each with its aim. */
  @Benchmark
  public Census buildCensus() {
    return taken.build(aims);
  }
}
