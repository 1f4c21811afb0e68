package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.fixture.CmykJpeg;
import selvage.fixture.Fixture;
import selvage.fixture.Fixtures;
import selvage.fixture.PdfMutator;
import selvage.fixture.TiffFixture;
import selvage.report.SurveyJson;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.survey.JobSurvey;

/**
 * Surveys of spoiled files: each ends in a survey or in an {@link InputException}, within its time.
 * The system properties {@code selvage.mutants} and {@code selvage.seed} ask for more of them, or
 * for others; a mutant that failed is repeated with {@code selvage.mutant}, its number.
 */
class MutatedPdfTest {
  private static final int MUTANTS = Integer.getInteger("selvage.mutants", 400);
  private static final long SEED = Long.getLong("selvage.seed", 20_260_101L);
  private static final int ONLY = Integer.getInteger("selvage.mutant", -1);

  private static final double DPI = 36;
  private static final ContentLimits LIMITS =
      new ContentLimits(3, 4_000_000L, 32L << 20, 16L << 20);

  /** Far beyond the limit, since a build machine may be slow; a hang lasts longer. */
  private static final int HARD_LIMIT_SECONDS = 30;

  private static final Path PUBLIC_FILES = Path.of("..", "shared", "pdfs");

  private static final Pattern NO_NUMBER = Pattern.compile("[:,\\[]\"?(NaN|-?Infinity)\"?[,\\]}]");

  @TempDir Path folder;

  @Test
  void survey_spoiledFiles_endsInFindingsOrRefusal() throws Exception {
    List<byte[]> seeds = seeds();
    List<String> failures = new ArrayList<>();
    Map<String, Integer> outcomes = new TreeMap<>();
    long slowest = 0;
    for (int i = 0; i < MUTANTS; i++) {
      if (ONLY >= 0 && i != ONLY) {
        continue;
      }
      long seed = SEED * 1_000_003 + i;
      PdfMutator.Mutant mutant =
          PdfMutator.mutate(seeds.get(Math.floorMod(seed * 31 + i, seeds.size())), seed);
      Path file = folder.resolve("mutant.pdf");
      Files.write(file, mutant.pdf());
      long start = System.nanoTime();
      String outcome = outcome(file);
      long milliseconds = (System.nanoTime() - start) / 1_000_000;
      slowest = Math.max(slowest, milliseconds);
      outcomes.merge(outcome.lines().findFirst().orElse(""), 1, Integer::sum);
      if (!outcome.equals("surveyed") && !outcome.equals("refused")) {
        failures.add(
            "mutant " + i + " (" + milliseconds + " ms): " + mutant.how() + "\n" + outcome);
      }
    }
    System.out.printf(
        "%d mutants of %d files, seed %d: %s; slowest %d ms%n",
        MUTANTS, seeds.size(), SEED, outcomes, slowest);
    assertThat(failures).isEmpty();
  }

  private static List<byte[]> seeds() throws IOException {
    List<byte[]> seeds = new ArrayList<>();
    for (Fixture fixture : Fixtures.all()) {
      seeds.add(fixture.pdf());
    }
    seeds.addAll(images());
    if (Files.isDirectory(PUBLIC_FILES)) {
      try (Stream<Path> files = Files.list(PUBLIC_FILES)) {
        for (Path file : files.sorted().toList()) {
          if (file.toString().endsWith(".pdf") && Files.size(file) < 60_000) {
            seeds.add(Files.readAllBytes(file));
            if (!file.toString().contains("encrypted")) {
              seeds.add(PdfMutator.unpacked(Files.readAllBytes(file)));
            }
          }
        }
      }
    }
    return seeds;
  }

  /** Images as jobs: every layout and packing that a TIFF is read in, and a JPEG. */
  private static List<byte[]> images() throws IOException {
    List<byte[]> images = new ArrayList<>();
    int[][] cells = {{255, 0, 0, 64}, {0, 255, 128, 0}};
    for (int compression :
        new int[] {TiffFixture.NONE, TiffFixture.DEFLATE, TiffFixture.PACK_BITS}) {
      images.add(TiffFixture.little().page(40, 20, 5, 2, cells).compression(compression).toBytes());
      images.add(
          TiffFixture.big()
              .page(40, 20, 5, 2, cells)
              .tiles(16)
              .planar()
              .compression(compression)
              .toBytes());
      images.add(
          TiffFixture.little()
              .page(40, 20, 5, 2, cells)
              .bits(16)
              .compression(compression)
              .differenced()
              .toBytes());
    }
    images.add(CmykJpeg.withAdobeMarker(CmykJpeg.of(40, 24, 255, 0, 128, 30)));
    return images;
  }

  /** {@code surveyed} or {@code refused} as it should be; else what went wrong. */
  private static String outcome(Path file) throws InterruptedException {
    AtomicReference<String> outcome = new AtomicReference<>();
    CountDownLatch done = new CountDownLatch(1);
    Thread thread =
        new Thread(
            () -> {
              outcome.set(survey(file));
              done.countDown();
            },
            "mutant");
    thread.setDaemon(true);
    thread.start();
    if (!done.await(HARD_LIMIT_SECONDS, TimeUnit.SECONDS)) {
      return "hangs\n" + stack(thread.getStackTrace());
    }
    return outcome.get();
  }

  private static String survey(Path file) {
    try {
      JobSurvey survey =
          new SurveyJob(
                  new SurveyJob.Request(
                      file, null, "1", DPI, AreaKind.MEDIA, List.of(), null, null, LIMITS))
              .run();
      StringWriter json = new StringWriter();
      try (JsonGenerator out = new JsonFactory().createGenerator(json)) {
        SurveyJson.write(survey, 64, out);
      }
      if (NO_NUMBER.matcher(json.toString()).find()) {
        return "no number in the result\n" + json;
      }
      for (Finding finding : survey.pages().get(0).findings()) {
        if (finding.text().length() > 600) {
          return "a finding of " + finding.text().length() + " characters\n" + finding.text();
        }
      }
      return "surveyed";
    } catch (InputException e) {
      return hidesFault(e) ? "a fault taken for bad input\n" + trace(e.getCause()) : "refused";
    } catch (Throwable e) {
      return e.getClass().getSimpleName() + "\n" + trace(e);
    }
  }

  /** Whether the program's own code stumbled and the file got the blame. */
  private static boolean hidesFault(InputException e) {
    Throwable cause = e.getCause();
    return cause instanceof Error
        || (cause instanceof RuntimeException
            && !cause.getClass().getName().startsWith("selvage.")
            && cause.getStackTrace().length > 0
            && cause.getStackTrace()[0].getClassName().startsWith("selvage."));
  }

  private static String trace(Throwable e) {
    return e + "\n" + stack(e.getStackTrace());
  }

  private static String stack(StackTraceElement[] frames) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < Math.min(24, frames.length); i++) {
      text.append("    ").append(frames[i]).append('\n');
    }
    return text.toString();
  }
}
