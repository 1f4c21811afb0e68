package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

class StripLayoutTest {
  /** Letters half an em wide. */
  private static final TextWidth WIDTH = (text, sizePt) -> text.length() * sizePt * 0.176;

  private static StripContent content(String standardName, String sha256, int page)
      throws Exception {
    CensusBuilder builder = new CensusBuilder();
    builder.add(InkMixture.PAPER, 1000, ObjectKind.FILL);
    builder.add(InkMixture.cmyk(0, 0, 0, 100), 90, ObjectKind.TEXT);
    builder.add(InkMixture.ofPercents(Map.of("Dune Red", 100.0)), 300, ObjectKind.FILL);
    for (int i = 0; i < 40; i++) {
      builder.add(InkMixture.cmyk(2 * i, 90 - 2 * i, i, 0), 20, ObjectKind.FILL);
    }
    Census census = builder.build();
    StandardStrip standard = StandardStrip.load(standardName);
    JobSet set = JobSet.choose(census, 24, List.of(new Lab(95, 0, -2)));
    StripLabel label =
        new StripLabel(
            "a-job-whose-name-is-far-too-long-for-any-line-of-a-small-strip-".repeat(3) + ".pdf",
            "page 1 of 1",
            "FOGRA39",
            "2026-11-25 10:03 UTC",
            List.of(new StripLabel.Item("Substrate", "")));
    return StripContent.of(sha256, page, census, set, standard, new PlainCondition(), label);
  }

  @ParameterizedTest
  @CsvSource({
    "handheld-spot, 60",
    "handheld-spot, 210",
    "handheld-spot, 900",
    "handheld-scan, 210",
    "strip-feeder, 297",
    "xy-table, 120"
  })
  void of_anyReaderAndLength_keepsPatchesApartInsideAndInRows(String name, double lengthMm)
      throws Exception {
    ReaderGeometry reader = ReaderGeometry.load(name);
    StripLayout layout =
        StripLayout.of(content("full", "ab".repeat(32), 1), reader, lengthMm, WIDTH);
    assertThat(layout.widthMm()).isLessThanOrEqualTo(lengthMm + 1e-9);
    List<StripLayout.Placed> placed = layout.placed();
    Set<Integer> rowsWithPaper = new HashSet<>();
    Set<Integer> rows = new HashSet<>();
    for (int i = 0; i < placed.size(); i++) {
      BoxMm box = placed.get(i).box();
      assertThat(box.widthMm()).isEqualTo(reader.patchWidthMm());
      assertThat(box.xMm()).isGreaterThanOrEqualTo(4 + reader.leaderMm() - 1e-3);
      assertThat(box.xMm() + box.widthMm())
          .isLessThanOrEqualTo(layout.widthMm() - 4 - reader.trailerMm() + 1e-3);
      assertThat(box.yMm()).isPositive();
      assertThat(box.yMm() + box.heightMm()).isLessThan(layout.heightMm());
      rows.add(placed.get(i).row());
      if (placed.get(i).patch().mixture().isPaper()) {
        rowsWithPaper.add(placed.get(i).row());
      }
      for (int j = 0; j < i; j++) {
        BoxMm other = placed.get(j).box();
        boolean apart =
            box.xMm() >= other.xMm() + other.widthMm() + reader.dividerMm() - 1e-3
                || other.xMm() >= box.xMm() + box.widthMm() + reader.dividerMm() - 1e-3
                || box.yMm() >= other.yMm() + other.heightMm() + 2
                || other.yMm() >= box.yMm() + box.heightMm() + 2;
        assertThat(apart).isTrue();
      }
    }
    assertThat(rowsWithPaper).isEqualTo(rows);
    for (StripDrawing.Text text : layout.drawing().texts()) {
      assertThat(text.xMm() + WIDTH.mm(text.text(), text.sizePt()))
          .isLessThanOrEqualTo(layout.widthMm());
    }
  }

  @Test
  void patches_strip_haveIdsInReadingOrderAndStandInTheirSets() throws Exception {
    StripLayout layout =
        StripLayout.of(
            content("full", "ab".repeat(32), 1), ReaderGeometry.load("handheld-spot"), 210, WIDTH);
    List<Patch> patches = layout.patches(false);
    List<String> jobIds = new ArrayList<>();
    for (Patch patch : patches) {
      if (patch.set() == PatchSet.JOB) {
        jobIds.add(patch.id());
      }
    }
    assertThat(jobIds).hasSize(24).startsWith("J01", "J02").endsWith("J24");
    assertThat(patches)
        .filteredOn(patch -> patch.mixture().equals(InkMixture.cmyk(0, 0, 0, 100)))
        .extracting(Patch::set)
        .containsExactly(PatchSet.JOB, PatchSet.STANDARD);
    assertThat(patches.stream().mapToDouble(Patch::representsPercent).sum())
        .isCloseTo(100, within(1e-6));
  }

  @Test
  void patches_turned_areAQuarterTurnOfTheSameStrip() throws Exception {
    StripLayout layout =
        StripLayout.of(
            content("basic", "ab".repeat(32), 1), ReaderGeometry.load("handheld-spot"), 210, WIDTH);
    Patch lying = layout.patches(false).get(3);
    Patch upright = layout.patches(true).get(3);
    assertThat(upright.id()).isEqualTo(lying.id());
    assertThat(upright.box().yMm()).isEqualTo(lying.box().xMm());
    assertThat(upright.box().widthMm()).isEqualTo(lying.box().heightMm());
    assertThat(upright.box().xMm())
        .isCloseTo(layout.heightMm() - lying.box().yMm() - lying.box().heightMm(), within(1e-9));
  }

  @Test
  void stripId_strip_dependsOnJobPageAndPatchesOnly() throws Exception {
    ReaderGeometry reader = ReaderGeometry.load("handheld-spot");
    String id = StripLayout.of(content("full", "ab".repeat(32), 1), reader, 210, WIDTH).stripId();
    assertThat(id).matches("[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}");
    assertThat(StripLayout.of(content("full", "ab".repeat(32), 1), reader, 210, WIDTH).stripId())
        .isEqualTo(id);
    assertThat(StripLayout.of(content("full", "cd".repeat(32), 1), reader, 210, WIDTH).stripId())
        .isNotEqualTo(id);
    assertThat(StripLayout.of(content("full", "ab".repeat(32), 2), reader, 210, WIDTH).stripId())
        .isNotEqualTo(id);
    assertThat(StripLayout.of(content("basic", "ab".repeat(32), 1), reader, 210, WIDTH).stripId())
        .isNotEqualTo(id);
  }

  @Test
  void drawing_strip_carriesIdConditionLabelItemsAndCaution() throws Exception {
    StripLayout layout =
        StripLayout.of(
            content("none", "ab".repeat(32), 1), ReaderGeometry.load("handheld-spot"), 210, WIDTH);
    String all =
        String.join(" | ", layout.drawing().texts().stream().map(StripDrawing.Text::text).toList());
    assertThat(all)
        .contains(layout.stripId(), "FOGRA39", "page 1 of 1", "2026-11-25 10:03 UTC")
        .contains("Substrate: not stated")
        .contains("does not replace")
        .contains("a-job-whose")
        .contains("…");
  }
}
