package selvage.strip;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceConditions;
import selvage.draw.BenchmarkPage;
import selvage.finding.InputException;
import selvage.separation.ContentLimits;
import selvage.separation.PageGeometry;
import selvage.separation.PageSeparation;
import selvage.separation.PdfJob;
import selvage.survey.Census;
import selvage.survey.CensusBuilder;

/**
 * The choice of 24 patches, coverage of both sets with it, beside the separation of the same page
 * in the same process: 150 dpi, warm.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 6, time = 2)
@Measurement(iterations = 8, time = 2)
public class ChoiceBenchmark {
  private static final int DPI = 150;
  private static final int PATCHES = 24;

  @Param({"demo", "photograph"})
  public String page;

  private final ReferenceCondition condition = ReferenceConditions.defaultCondition();
  private final List<Lab> standard = new ArrayList<>();
  private Path file;
  private Census census;

  @Setup
  public void draw() throws IOException, InputException {
    file = Files.createTempFile("page", ".pdf");
    if (page.equals("photograph")) {
      BenchmarkPage.main(new String[] {file.toString()});
    } else {
      try (InputStream job = JobSet.class.getResourceAsStream("/demo/demo-job.pdf")) {
        Files.write(file, job.readAllBytes());
      }
    }
    for (StandardStrip.StandardPatch patch : StandardStrip.load("full").patches()) {
      double[] cmyk = patch.mixture().cmyk();
      standard.add(condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab());
    }
    try (PdfJob job = PdfJob.open(file, ContentLimits.USUAL)) {
      CensusBuilder counted = counted(job);
      PageSeparation separation = job.separate(1, DPI, condition, counted);
      census = counted.build(new AimModel(condition, separation.alternates()));
    }
  }

  private static CensusBuilder counted(PdfJob job) throws InputException {
    PageGeometry geometry = job.geometry(1, DPI);
    return new CensusBuilder(geometry.window(geometry.trim()));
  }

  @TearDown
  public void delete() throws IOException {
    Files.delete(file);
  }

  /** Paint the page and count its mixtures. */
  @Benchmark
  public PageSeparation separate() throws IOException, InputException {
    try (PdfJob job = PdfJob.open(file, ContentLimits.USUAL)) {
      return job.separate(1, DPI, condition, counted(job));
    }
  }

  /** Choose and measure. */
  @Benchmark
  public JobSet choose() {
    return JobSet.choose(census, PATCHES, standard);
  }
}
