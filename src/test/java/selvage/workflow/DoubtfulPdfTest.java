package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import selvage.fixture.DoubtfulFixtures;
import selvage.fixture.DoubtfulFixtures.Doubtful;
import selvage.ink.InkMixture;
import selvage.separation.ContentLimits;
import selvage.survey.AreaKind;
import selvage.survey.Census;
import selvage.survey.PageSurvey;

/** Whatever is left out or changed has a finding that names page and object. */
class DoubtfulPdfTest {
  private static final ContentLimits LIMITS =
      new ContentLimits(30, 4_000_000L, 64L << 20, 32L << 20);

  @TempDir Path folder;

  @TestFactory
  Stream<DynamicTest> survey_pageWithFault_saysWhatAndWhere() {
    return DoubtfulFixtures.all().stream()
        .map(fixture -> DynamicTest.dynamicTest(fixture.name(), () -> check(fixture)));
  }

  private void check(Doubtful fixture) throws Exception {
    Path file = Files.write(folder.resolve(fixture.name() + ".pdf"), fixture.pdf());
    PageSurvey page =
        new SurveyJob(
                new SurveyJob.Request(
                    file, null, "1", 72, AreaKind.MEDIA, List.of(), null, null, LIMITS))
            .run()
            .pages()
            .get(0);
    assertThat(page.findings())
        .anySatisfy(
            finding -> {
              assertThat(finding.code()).isEqualTo(fixture.code());
              assertThat(finding.text()).contains(fixture.words());
              assertThat(finding.text()).containsAnyOf("page 1", "the document");
            });
    assertThat(blackPercent(page.census())).as("the square beside it").isGreaterThan(3.9);
  }

  private static double blackPercent(Census census) {
    double black = 0;
    for (int row = 0; row < census.size(); row++) {
      if (census.mixture(row).equals(InkMixture.ofPercents(Map.of("Black", 100.0)))) {
        black += census.areaPercent(row);
      }
    }
    return black;
  }
}
