package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.strip.BoxMm;
import selvage.strip.JobPatch;
import selvage.strip.JobSet;
import selvage.strip.PageColors;
import selvage.strip.PatchPlace;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/** Where patches say that their colour lies, against pages whose areas are known. */
class PatchPlacesEndToEndTest {
  private static final double MM = 25.4 / 72;

  @TempDir Path folder;

  private List<PageColors> survey(String... contents) throws Exception {
    Path file = folder.resolve("areas.pdf");
    Files.writeString(file, pdf(contents), StandardCharsets.ISO_8859_1);
    List<PageSurvey> pages = new SurveyJob(SurveyJob.Request.of(file)).run().pages();
    return pages.stream()
        .map(page -> new PageColors(page.page(), page.dpi(), page.census()))
        .toList();
  }

  /** Pages of 300 by 200 points. */
  private static String pdf(String... contents) {
    StringBuilder text = new StringBuilder("%PDF-1.4\n");
    text.append("1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[");
    for (int i = 0; i < contents.length; i++) {
      text.append(3 + 2 * i).append(" 0 R ");
    }
    text.append("]/Count ").append(contents.length).append(">>endobj\n");
    for (int i = 0; i < contents.length; i++) {
      text.append(3 + 2 * i)
          .append(" 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 300 200]/Contents ")
          .append(4 + 2 * i)
          .append(" 0 R>>endobj\n")
          .append(4 + 2 * i)
          .append(" 0 obj<</Length ")
          .append(contents[i].length())
          .append(">>stream\n")
          .append(contents[i])
          .append("\nendstream endobj\n");
    }
    return text.append("trailer<</Root 1 0 R>>\n%%EOF\n").toString();
  }

  private static PatchPlace of(JobSet set, InkMixture mixture) {
    Optional<PatchPlace> place =
        set.patches().stream()
            .filter(patch -> patch.mixture().equals(mixture))
            .map(JobPatch::where)
            .findFirst()
            .orElseThrow();
    return place.orElseThrow();
  }

  private static void assertBox(BoxMm box, double x, double y, double width, double height) {
    double places = 4 * 25.4 / 150 + 0.01;
    assertThat(box.xMm()).isCloseTo(x * MM, within(places));
    assertThat(box.yMm()).isCloseTo(y * MM, within(places));
    assertThat(box.widthMm()).isCloseTo(width * MM, within(2 * places));
    assertThat(box.heightMm()).isCloseTo(height * MM, within(2 * places));
  }

  @Test
  void located_flatAreas_areTheLargestConnectedOnes() throws Exception {
    List<PageColors> pages =
        survey(
            "1 0 0 0 k 20 30 100 50 re f 200 100 30 30 re f 0 1 0 0 k 150 20 40 60 re f"
                + " 0 0 0 1 k 280 180 0.8 0.8 re f");
    JobSet set = JobSet.choose(pages.get(0).census(), 8, List.of()).located(pages);
    assertBox(of(set, InkMixture.of(Colorant.CYAN, 100)).box(), 20, 30, 100, 50);
    assertBox(of(set, InkMixture.of(Colorant.MAGENTA, 100)).box(), 150, 20, 40, 60);
    assertBox(of(set, InkMixture.of(Colorant.BLACK, 100)).box(), 280, 180, 0.8, 0.8);
    assertThat(set.pages()).hasSize(1);
    assertThat(set.pages().get(0).inkedSharePercent()).isCloseTo(100, within(1e-9));
  }

  @Test
  void located_mapOfEverySample_isAsWithTheUsualMap() throws Exception {
    String areas =
        "1 0 0 0 k 20 30 101 53 re f 0 1 0 0 k 151 21 43 61 re f 0 0 0 1 k 280 180 0.8 0.8 re f"
            + " 0 0 1 0 k 3 90 17 50 re f";
    List<PageColors> usual = survey(areas);
    List<PageColors> fine =
        new SurveyJob(SurveyJob.Request.of(folder.resolve("areas.pdf")).withMapStep(1))
            .run().pages().stream()
                .map(page -> new PageColors(page.page(), page.dpi(), page.census()))
                .toList();
    assertThat(fine.get(0).census().map().orElseThrow().columns()).isEqualTo(625);
    JobSet set = JobSet.choose(usual.get(0).census(), 8, List.of());
    assertThat(set.located(fine)).isEqualTo(set.located(usual));
  }

  @Test
  void run_severalPages_handsEachOverBeforeTheNextIsRead() throws Exception {
    survey("1 0 0 0 k 20 30 10 10 re f", "0 1 0 0 k 40 50 20 15 re f");
    List<String> told = new ArrayList<>();
    JobSurvey survey =
        new SurveyJob(
                SurveyJob.Request.of(folder.resolve("areas.pdf")),
                page -> told.add("reads " + page),
                (condition, page) -> told.add(condition.name() + " has " + page.page()))
            .run();
    String name = survey.condition().name();
    assertThat(told).containsExactly("reads 1", name + " has 1", "reads 2", name + " has 2");
  }

  @Test
  void located_severalPages_namesThePageOfTheLargestAreaAndSharesOutTheInk() throws Exception {
    List<PageColors> pages =
        survey("1 0 0 0 k 20 30 10 10 re f", "1 0 0 0 k 40 50 20 15 re f 0 0 1 0 k 0 0 20 5 re f");
    JobSet set =
        JobSet.choose(
                selvage.strip.MergedCensus.of(pages.stream().map(PageColors::census).toList()),
                8,
                List.of())
            .located(pages);
    assertThat(of(set, InkMixture.of(Colorant.CYAN, 100)).page()).isEqualTo(2);
    assertBox(of(set, InkMixture.of(Colorant.CYAN, 100)).box(), 40, 50, 20, 15);
    assertThat(set.pages()).hasSize(2);
    assertThat(set.pages().get(0).inkedSharePercent()).isCloseTo(20, within(1.5));
    assertThat(set.pages().get(1).within3Percent()).isCloseTo(100, within(1e-9));
  }
}
