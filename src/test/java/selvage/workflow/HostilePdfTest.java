package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.fixture.HostileFixtures;
import selvage.ink.InkMixture;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.survey.Census;
import selvage.survey.JobSurvey;

/** Surveys of files made to hurt, with a gigabyte at most and a few seconds a page. */
class HostilePdfTest {
  private static final ContentLimits LIMITS =
      new ContentLimits(30, 4_000_000L, 64L << 20, 32L << 20);
  private static final ContentLimits SHORT_LIMITS =
      new ContentLimits(1, 4_000_000L, 64L << 20, 32L << 20);
  private static final Duration HARD_LIMIT = Duration.ofSeconds(60);

  /** What a page is made of that has nothing to complain of, or complains of it elsewhere. */
  private static final Set<String> WITHOUT_FINDING =
      Set.of(
          "image-bomb",
          "path-of-many-crossings",
          "pattern-step-tiny",
          "pattern-step-tiniest",
          "names-long",
          "actions-and-outer-files",
          "visibility-in-itself");

  private static final Set<String> READABLE =
      Set.of("pages-a-thousand-million", "pages-less-than-none", "media-box-beyond-numbers");

  private static final Set<String> EITHER =
      Set.of("nonsense-50-megabytes", "content-bomb", "objects-deep", "parents-in-a-ring");

  @TempDir Path folder;

  @TestFactory
  Stream<DynamicTest> survey_pageWithHostileObject_keepsTheRest() {
    return HostileFixtures.pages().entrySet().stream()
        .map(entry -> DynamicTest.dynamicTest(entry.getKey(), () -> checkPage(entry)));
  }

  private void checkPage(Map.Entry<String, Supplier<byte[]>> entry) throws Exception {
    JobSurvey survey = survey(entry, LIMITS);
    Census census = survey.pages().get(0).census();
    double black = 0;
    for (int row = 0; row < census.size(); row++) {
      if (census.mixture(row).equals(InkMixture.ofPercents(Map.of("Black", 100.0)))) {
        black += census.areaPercent(row);
      }
    }
    assertThat(black).as("the square beside it").isCloseTo(4, Offset.offset(0.2));
    List<Finding> findings = survey.pages().get(0).findings();
    if (!WITHOUT_FINDING.contains(entry.getKey())) {
      assertThat(findings).as("findings").isNotEmpty();
    }
    assertThat(findings).allSatisfy(f -> assertThat(f.text()).hasSizeLessThan(500));
  }

  @TestFactory
  Stream<DynamicTest> survey_hostileFile_endsInTime() {
    return HostileFixtures.files().entrySet().stream()
        .map(entry -> DynamicTest.dynamicTest(entry.getKey(), () -> checkFile(entry)));
  }

  private void checkFile(Map.Entry<String, Supplier<byte[]>> entry) {
    if (READABLE.contains(entry.getKey())) {
      assertThatCode(() -> survey(entry, LIMITS)).doesNotThrowAnyException();
      return;
    }
    try {
      survey(entry, SHORT_LIMITS);
      assertThat(EITHER).contains(entry.getKey());
    } catch (InputException e) {
      assertThat(e.getMessage()).contains(".pdf").hasSizeLessThan(500);
      assertThat(e.getCause() instanceof Error).as("an error of the machine").isFalse();
    } catch (Exception e) {
      throw new AssertionError("expected a survey or a refusal", e);
    }
  }

  private JobSurvey survey(Map.Entry<String, Supplier<byte[]>> entry, ContentLimits limits)
      throws Exception {
    Path file = folder.resolve(entry.getKey() + ".pdf");
    Files.write(file, entry.getValue().get());
    return assertTimeoutPreemptively(
        HARD_LIMIT,
        () ->
            new SurveyJob(
                    new SurveyJob.Request(
                        file, null, "1", 72, AreaKind.MEDIA, List.of(), null, null, limits))
                .run());
  }
}
