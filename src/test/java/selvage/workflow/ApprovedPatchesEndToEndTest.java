package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.report.StripSvg;
import selvage.strip.ChosenPatch;
import selvage.strip.ChosenSet;
import selvage.strip.JobChoice;
import selvage.strip.JobSet;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Reason;
import selvage.strip.StandardStrip;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.survey.Census;
import selvage.survey.JobFile;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/** The demo job stamped with patches that an operator approved. */
class ApprovedPatchesEndToEndTest {
  private static final Instant TIME = Instant.parse("2026-11-25T10:03:00Z");

  @TempDir static Path folder;
  private static Path job;
  private static JobSurvey survey;

  @BeforeAll
  static void survey() throws Exception {
    job = folder.resolve("demo-job.pdf");
    try (InputStream in = SurveyJob.class.getResourceAsStream("/demo/demo-job.pdf")) {
      Files.write(job, in.readAllBytes());
    }
    survey = new SurveyJob(SurveyJob.Request.of(job).withMapStep(1)).run();
  }

  private static StampOptions options(int patches, String reader) {
    return new StampOptions(
        patches, "full", reader, Optional.empty(), false, Optional.empty(), List.of(), TIME);
  }

  private static List<ChosenPatch> usual(int page, int count) {
    Census census = survey.pages().get(page - 1).census();
    return JobSet.choose(census, count, List.of()).patches().stream()
        .map(patch -> new ChosenPatch(patch.mixture(), patch.reason()))
        .toList();
  }

  private static StampJob.Result stamp(String name, StampOptions options) throws Exception {
    Path target = Files.createDirectories(folder.resolve(name)).resolve("proof.pdf");
    return StampJob.run(job, survey, target, options);
  }

  private static Map<String, byte[]> bytes(String name) throws IOException {
    Map<String, byte[]> bytes = new HashMap<>();
    try (Stream<Path> files = Files.list(folder.resolve(name))) {
      for (Path file : files.toList()) {
        bytes.put(file.getFileName().toString(), Files.readAllBytes(file));
      }
    }
    return bytes;
  }

  /** The largest mixture of the page that the usual choice does not take. */
  private static InkMixture another(int page, List<ChosenPatch> taken) {
    Census census = survey.pages().get(page - 1).census();
    List<InkMixture> known = taken.stream().map(ChosenPatch::mixture).toList();
    for (int row = 0; ; row++) {
      if (!census.isPaper(row) && !known.contains(census.mixture(row))) {
        return census.mixture(row);
      }
    }
  }

  private static List<Lab> standardAims() throws InputException {
    List<Lab> aims = new ArrayList<>();
    for (StandardStrip.StandardPatch patch : StandardStrip.load("full").patches()) {
      double[] cmyk = patch.mixture().cmyk();
      aims.add(survey.condition().aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab());
    }
    return aims;
  }

  private static List<InkMixture> mixtures(Strip strip, PatchSet set) {
    return strip.patches(set).stream().map(Patch::mixture).toList();
  }

  @Test
  void run_approvedAsChosen_givesTheSameBytesAsWithoutAnOperator() throws Exception {
    JobSurvey usualMap = new SurveyJob(SurveyJob.Request.of(job)).run();
    Path target = Files.createDirectories(folder.resolve("plain")).resolve("proof.pdf");
    StampJob.run(job, usualMap, target, options(24, "handheld-spot"));
    List<ChosenPatch> turned = new ArrayList<>(usual(2, 24));
    Collections.reverse(turned);
    Map<Integer, ChosenSet> chosen =
        Map.of(1, new ChosenSet(usual(1, 24), false), 2, new ChosenSet(turned, false));
    stamp("approved", options(24, "handheld-spot").withChosen(chosen));
    Map<String, byte[]> plain = bytes("plain");
    assertThat(plain.keySet())
        .containsExactlyInAnyOrder(
            "proof.pdf", "proof.strips.json", "proof.strip-p001.txt", "proof.strip-p002.txt");
    Map<String, byte[]> approved = bytes("approved");
    assertThat(approved.keySet()).isEqualTo(plain.keySet());
    for (String name : plain.keySet()) {
      assertThat(approved.get(name)).as(name).isEqualTo(plain.get(name));
    }
  }

  @Test
  void run_changedSet_stampsExactlyItAndTellsTheReasons() throws Exception {
    List<ChosenPatch> usual = usual(1, 16);
    InkMixture added = another(1, usual);
    List<ChosenPatch> patches = new ArrayList<>(usual.subList(1, 12));
    patches.add(new ChosenPatch(added, Reason.OPERATOR));
    stamp(
        "changed",
        options(16, "handheld-spot").withChosen(Map.of(1, new ChosenSet(patches, false))));
    StripsFile record = StripsJson.read(folder.resolve("changed/proof.strips.json"));
    Strip strip = record.strips().get(0);
    assertThat(mixtures(strip, PatchSet.JOB))
        .containsExactlyInAnyOrderElementsOf(patches.stream().map(ChosenPatch::mixture).toList());
    for (Patch patch : strip.patches(PatchSet.JOB)) {
      Reason expected =
          patches.stream()
              .filter(wanted -> wanted.mixture().equals(patch.mixture()))
              .findFirst()
              .orElseThrow()
              .reason();
      assertThat(patch.reason()).contains(expected);
    }
    assertThat(mixtures(record.strips().get(1), PatchSet.JOB))
        .as("page 2 is chosen as usual")
        .containsExactlyInAnyOrderElementsOf(
            usual(2, 16).stream().map(ChosenPatch::mixture).toList());
  }

  @Test
  void run_droppedSpot_standsAsADoubtInTheStripsFile() throws Exception {
    List<ChosenPatch> usual = usual(1, 16);
    ChosenPatch spot =
        usual.stream().filter(patch -> patch.reason() == Reason.SPOT).findFirst().orElseThrow();
    List<ChosenPatch> patches =
        usual.stream().filter(patch -> !patch.mixture().equals(spot.mixture())).toList();
    StampJob.Result result =
        stamp(
            "dropped",
            options(16, "handheld-spot").withChosen(Map.of(1, new ChosenSet(patches, false))));
    assertThat(result.findings())
        .filteredOn(finding -> finding.code().equals("spot-dropped"))
        .singleElement()
        .satisfies(
            finding ->
                assertThat(finding.text()).startsWith("page 1: ").contains(spot.mixture() + ""));
    assertThat(Files.readString(folder.resolve("dropped/proof.strips.json")))
        .contains("spot-dropped");
  }

  @Test
  void run_inThisOrder_fillsTheJobsRowsInIt() throws Exception {
    List<ChosenPatch> patches = new ArrayList<>(usual(1, 40));
    Collections.rotate(patches, 7);
    StampJob.Result result =
        stamp(
            "ordered",
            options(40, "handheld-spot").withChosen(Map.of(1, new ChosenSet(patches, true))));
    Strip strip = result.strips().strips().get(0);
    List<InkMixture> standard = mixtures(strip, PatchSet.STANDARD);
    List<InkMixture> own =
        patches.stream()
            .map(ChosenPatch::mixture)
            .filter(mixture -> !standard.contains(mixture))
            .toList();
    List<Patch> printed =
        strip.patches(PatchSet.JOB).stream()
            .filter(patch -> !standard.contains(patch.mixture()))
            .toList();
    assertThat(printed).extracting(Patch::mixture).isEqualTo(own);
    Map<Integer, Integer> lengths = new HashMap<>();
    printed.forEach(patch -> lengths.merge(patch.row(), 1, Integer::sum));
    assertThat(lengths.size()).isGreaterThan(1);
    assertThat(Collections.max(lengths.values()) - Collections.min(lengths.values()))
        .isLessThanOrEqualTo(1);
    for (int row : lengths.keySet()) {
      assertThat(strip.patches())
          .filteredOn(patch -> patch.row() == row && patch.column() == 1)
          .extracting(Patch::role)
          .containsExactly("substrate");
    }
  }

  @Test
  void run_orderThatReadsAlikeBackwards_isADoubt() throws Exception {
    List<ChosenPatch> all = usual(1, 24);
    Census census = survey.pages().get(0).census();
    // The lightest alone in its row, beside the substrate: the same from either end.
    ChosenPatch lightest = all.get(0);
    double most = 0;
    for (int row = 0; row < census.size(); row++) {
      if (!census.isPaper(row) && census.lab(row, 0) > most) {
        most = census.lab(row, 0);
        lightest = new ChosenPatch(census.mixture(row), Reason.OPERATOR);
      }
    }
    StampOptions ordered =
        options(24, "handheld-scan").withChosen(Map.of(1, new ChosenSet(List.of(lightest), true)));
    StripPreview preview = StripPreview.of(job, survey, 1, ordered);
    assertThat(preview.layout().rowsAlikeBackwards()).containsExactly(1);
    assertThat(preview.findings())
        .extracting(Finding::code)
        .contains("row-alike-backwards", "neighbours-alike");
    StampOptions arranged =
        options(24, "handheld-scan").withChosen(Map.of(1, new ChosenSet(all, false)));
    assertThat(StripPreview.of(job, survey, 1, arranged).findings())
        .extracting(Finding::code)
        .doesNotContain("row-alike-backwards");
  }

  @Test
  void run_patchesThatDoNotFit_areRefusedAndNothingIsWritten() throws Exception {
    ChosenSet foreign =
        new ChosenSet(
            List.of(new ChosenPatch(InkMixture.cmyk(1, 2, 3, 97), Reason.OPERATOR)), false);
    assertThatThrownBy(
            () -> stamp("foreign", options(24, "handheld-spot").withChosen(Map.of(1, foreign))))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("demo-job.pdf")
        .hasMessageContaining("page 1")
        .hasMessageContaining("does not have");
    assertThat(bytes("foreign")).isEmpty();
    assertThatThrownBy(
            () -> stamp("nowhere", options(24, "handheld-spot").withChosen(Map.of(9, foreign))))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("page 9")
        .hasMessageContaining("[1, 2]");
  }

  @Test
  void preview_eachPage_isWhatIsStamped() throws Exception {
    StampOptions options = options(24, "handheld-scan");
    StampJob.Result result = stamp("stamped", options);
    for (PageSurvey page : survey.pages()) {
      StripPreview preview = StripPreview.of(job, survey, page.page(), options);
      assertThat(preview.strip()).isEqualTo(result.strips().strips().get(page.page() - 1));
      JobChoice choice = new JobChoice(page.census(), standardAims());
      assertThat(StripPreview.of(job, survey, page.page(), options, choice).strip())
          .isEqualTo(preview.strip());
      assertThat(preview.layout().stripId()).isEqualTo(preview.strip().stripId());
      assertThat(preview.patches()).isEqualTo(preview.strip().patches());
      assertThat(result.findings()).containsAll(preview.findings());
    }
    assertThatThrownBy(() -> StripPreview.of(job, survey, 3, options))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("page 3");
  }

  @Test
  void svg_preview_hasEveryPatchInItsPlaceAndNothingThatAStrictPolicyForbids() throws Exception {
    JobFile named = new JobFile("Dune & <Red>.pdf", survey.job().sha256(), 2);
    JobSurvey other = new JobSurvey(named, survey.condition(), survey.pages());
    StripPreview preview = StripPreview.of(job, other, 1, options(24, "handheld-scan"));
    String svg = StripSvg.of(preview.layout());
    Document document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(svg)));
    Element root = document.getDocumentElement();
    assertThat(root.getAttribute("width")).endsWith("mm");
    assertThat(root.getAttribute("viewBox")).startsWith("0 0 ");
    NodeList all = document.getElementsByTagName("*");
    Map<String, Element> groups = new HashMap<>();
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      assertThat(List.of("svg", "g", "rect", "path", "text", "title"))
          .contains(element.getTagName());
      for (int a = 0; a < element.getAttributes().getLength(); a++) {
        assertThat(element.getAttributes().item(a).getNodeName())
            .isNotEqualTo("style")
            .doesNotStartWith("on")
            .doesNotContain("href");
      }
      if (element.hasAttribute("data-patch")) {
        groups.put(element.getAttribute("data-patch"), element);
      }
    }
    double height = preview.layout().heightMm();
    for (Patch patch : preview.layout().patches(false)) {
      if (patch.set() == PatchSet.JOB) {
        Element group = groups.get(patch.id());
        assertThat(group.getElementsByTagName("title").item(0).getTextContent())
            .startsWith(patch.id());
        Element rect = (Element) group.getElementsByTagName("rect").item(0);
        assertThat(Double.parseDouble(rect.getAttribute("x")))
            .isCloseTo(patch.box().xMm(), within(1e-3));
        assertThat(Double.parseDouble(rect.getAttribute("y")))
            .isCloseTo(height - patch.box().yMm() - patch.box().heightMm(), within(1e-3));
        assertThat(rect.getAttribute("fill")).matches("#[0-9a-f]{6}");
      }
    }
    assertThat(groups).hasSize(preview.layout().placed().size());
    assertThat(root.getTextContent()).contains("Dune & <Red>.pdf");
  }
}
