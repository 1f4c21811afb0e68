package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import selvage.fixture.Fixture;
import selvage.fixture.Fixtures;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.survey.Census;
import selvage.survey.PageSurvey;

/** Surveys of pages with known ink, at the default resolution. */
class SeparationAreasEndToEndTest {
  private static final double MEAN_TOLERANCE = 0.5;
  private static final double LEAST_AREA_TOLERANCE = 0.3;

  @TempDir Path folder;

  @TestFactory
  Stream<DynamicTest> survey_pageOfKnownInk_findsTintsAndAreas() {
    return Fixtures.all().stream()
        .map(fixture -> DynamicTest.dynamicTest(fixture.name(), () -> check(fixture)));
  }

  private void check(Fixture fixture) throws Exception {
    Path pdf = folder.resolve(fixture.name() + ".pdf");
    Files.write(pdf, fixture.pdf());
    List<PageSurvey> pages = new SurveyJob(SurveyJob.Request.of(pdf)).run().pages();
    assertThat(pages).hasSize(1);
    PageSurvey page = pages.get(0);
    SoftAssertions softly = new SoftAssertions();
    softly
        .assertThat(page.trimWidthMm())
        .as("trim width")
        .isCloseTo(fixture.trimWidthMm(), Offset.offset(0.01));
    softly
        .assertThat(page.trimHeightMm())
        .as("trim height")
        .isCloseTo(fixture.trimHeightMm(), Offset.offset(0.01));
    checkMeans(fixture, page.census(), softly);
    checkAreas(fixture, page.census(), softly);
    softly.assertThat(page.findings()).as("findings").isEmpty();
    softly.assertAll();
  }

  private static void checkMeans(Fixture fixture, Census census, SoftAssertions softly) {
    Map<Colorant, Double> found = new TreeMap<>();
    for (int row = 0; row < census.size(); row++) {
      double area = census.areaPercent(row);
      InkMixture mixture = census.mixture(row);
      for (Colorant colorant : mixture.units().keySet()) {
        found.merge(colorant, area * mixture.percent(colorant) / 100, Double::sum);
      }
    }
    Map<Colorant, Double> stated = fixture.meanTints();
    stated.forEach(
        (colorant, mean) ->
            softly
                .assertThat(found.getOrDefault(colorant, 0.0))
                .as("%s: mean of %s", fixture.covers(), colorant.name())
                .isCloseTo(mean, Offset.offset(MEAN_TOLERANCE)));
    softly
        .assertThat(stated.keySet())
        .as("%s: colorants", fixture.covers())
        .containsAll(found.keySet());
  }

  private static void checkAreas(Fixture fixture, Census census, SoftAssertions softly) {
    for (Fixture.Area stated : fixture.areas()) {
      double area = 0;
      for (int row = 0; row < census.size(); row++) {
        if (isAlike(stated.mixture(), census.mixture(row), fixture.tintTolerancePercent())) {
          area += census.areaPercent(row);
        }
      }
      softly
          .assertThat(area)
          .as("%s: area of %s", fixture.covers(), stated.mixture())
          .isCloseTo(
              stated.percent(),
              Offset.offset(Math.max(LEAST_AREA_TOLERANCE, stated.percent() / 100)));
    }
  }

  private static boolean isAlike(InkMixture stated, InkMixture found, double tolerance) {
    TreeMap<Colorant, Integer> colorants = new TreeMap<>(stated.units());
    colorants.putAll(found.units());
    for (Colorant colorant : colorants.keySet()) {
      if (Math.abs(stated.percent(colorant) - found.percent(colorant)) > tolerance) {
        return false;
      }
    }
    return true;
  }
}
