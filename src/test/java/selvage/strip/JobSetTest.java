package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

class JobSetTest {
  private static final List<Lab> STANDARD =
      List.of(new Lab(95, 0, -2), new Lab(16, 0, 0), new Lab(48, 74, -3));

  private static InkMixture spot(String name, double percent) {
    return InkMixture.ofPercents(Map.of(name, percent));
  }

  /** A page like a flyer: a photograph of many mixtures, flat areas, two spots. */
  private static CensusBuilder flyer() {
    Random random = new Random(11);
    CensusBuilder census = new CensusBuilder();
    census.add(InkMixture.PAPER, 50_000, ObjectKind.FILL);
    census.add(spot("Dune Red", 100), 8000, ObjectKind.FILL);
    census.add(spot("Dune Red", 40), 900, ObjectKind.TEXT);
    census.add(spot("Teal", 60), 700, ObjectKind.FILL);
    census.add(InkMixture.cmyk(0, 0, 0, 100), 3000, ObjectKind.TEXT);
    census.add(InkMixture.cmyk(10, 60, 90, 5), 4000, ObjectKind.FILL);
    for (int i = 0; i < 5000; i++) {
      int tone = random.nextInt(90);
      census.add(
          InkMixture.cmyk(
              tone + random.nextInt(10),
              0.7 * tone + random.nextInt(10),
              0.6 * tone + random.nextInt(10),
              random.nextInt(6)),
          1 + random.nextInt(4),
          ObjectKind.IMAGE);
    }
    return census;
  }

  @Test
  void choose_flyer_givesTwelveMixturesOfTheJobAndSharesOfAHundred() {
    Census census = flyer().build();
    JobSet set = JobSet.choose(census, 12, STANDARD);
    Set<InkMixture> there = new HashSet<>();
    for (int row = 0; row < census.size(); row++) {
      there.add(census.mixture(row));
    }
    assertThat(set.patches()).hasSize(12).extracting(JobPatch::mixture).doesNotHaveDuplicates();
    assertThat(there).containsAll(set.patches().stream().map(JobPatch::mixture).toList());
    assertThat(set.patches().stream().mapToDouble(JobPatch::representsPercent).sum())
        .isCloseTo(100, within(1e-9));
    assertThat(set.patches()).noneMatch(patch -> patch.mixture().isPaper());
  }

  @Test
  void choose_flyer_hasSpotSolidsAndTintsInUse() {
    JobSet set = JobSet.choose(flyer().build(), 12, STANDARD);
    assertThat(set.patches())
        .filteredOn(patch -> patch.role().startsWith("spot"))
        .extracting(JobPatch::mixture)
        .contains(spot("Dune Red", 100), spot("Dune Red", 40), spot("Teal", 60));
    assertThat(set.patches())
        .filteredOn(patch -> patch.mixture().equals(spot("Dune Red", 100)))
        .extracting(JobPatch::role)
        .containsExactly("spot-solid");
  }

  /** Coverage and shares against a plain computation over every row. */
  @Test
  void choose_flyer_coverageIsThatOfAllSamples() {
    Census census = flyer().build();
    JobSet set = JobSet.choose(census, 9, STANDARD);
    double inked = 0;
    double within2 = 0;
    double within3 = 0;
    double sum = 0;
    double standard = 0;
    for (int row = 0; row < census.size(); row++) {
      if (census.isPaper(row)) {
        continue;
      }
      Lab lab = census.aim(row).lab();
      double least = 1e9;
      for (JobPatch patch : set.patches()) {
        least = Math.min(least, ColorDifference.de00(patch.aim().lab(), lab));
      }
      double leastStandard = 1e9;
      for (Lab other : STANDARD) {
        leastStandard = Math.min(leastStandard, ColorDifference.de00(other, lab));
      }
      inked += census.samples(row);
      within2 += least <= 2 ? census.samples(row) : 0;
      within3 += least <= 3 ? census.samples(row) : 0;
      sum += least * census.samples(row);
      standard += leastStandard <= 3 ? census.samples(row) : 0;
    }
    Coverage coverage = set.coverage();
    assertThat(coverage.within2Percent()).isCloseTo(100 * within2 / inked, within(0.1));
    assertThat(coverage.within3Percent()).isCloseTo(100 * within3 / inked, within(0.1));
    assertThat(coverage.meanDe00()).isCloseTo(sum / inked, within(0.005));
    assertThat(coverage.standardWithin3Percent()).isCloseTo(100 * standard / inked, within(0.1));
  }

  @Test
  void choose_twice_givesTheSame() {
    assertThat(JobSet.choose(flyer().build(), 20, STANDARD))
        .isEqualTo(JobSet.choose(flyer().build(), 20, STANDARD));
  }

  @Test
  void choose_fewMixtures_takesAllOfThemAndNoMore() {
    Census census =
        new CensusBuilder()
            .add(InkMixture.PAPER, 100, ObjectKind.FILL)
            .add(InkMixture.cmyk(0, 100, 0, 0), 10, ObjectKind.FILL)
            .add(InkMixture.cmyk(100, 0, 0, 0), 5, ObjectKind.FILL)
            .build();
    JobSet set = JobSet.choose(census, 24, STANDARD);
    assertThat(set.patches()).hasSize(2);
    assertThat(set.coverage().within2Percent()).isCloseTo(100, within(1e-9));
    assertThat(set.coverage().meanDe00()).isZero();
  }

  @Test
  void choose_nothingInked_isEmpty() {
    Census census = new CensusBuilder().add(InkMixture.PAPER, 100, ObjectKind.FILL).build();
    assertThat(JobSet.choose(census, 24, STANDARD).patches()).isEmpty();
  }

  @Test
  void choose_tinySpotSolid_isNotLost() {
    Census census = flyer().add(spot("Gold Leaf", 100), 2, ObjectKind.FILL).build();
    assertThat(JobSet.choose(census, 8, STANDARD).patches())
        .extracting(JobPatch::mixture)
        .contains(spot("Gold Leaf", 100));
  }

  @Test
  void choose_spotOnlyUnderOtherInks_isRepresentedByItsLargestMixture() {
    InkMixture overprint = InkMixture.ofPercents(Map.of("Gold Leaf", 100.0, "Black", 30.0));
    Census census = flyer().add(overprint, 40, ObjectKind.FILL).build();
    assertThat(JobSet.choose(census, 8, STANDARD).patches())
        .filteredOn(patch -> patch.mixture().equals(overprint))
        .extracting(JobPatch::role)
        .containsExactly("spot-overprint");
  }

  @Test
  void choose_moreTintsThanRoom_takesTheMostUsedAndSaysSo() {
    CensusBuilder builder = flyer();
    for (int tint = 2; tint < 100; tint += 2) {
      builder.add(spot("Teal", tint), 200 + tint, ObjectKind.FILL);
    }
    JobSet set = JobSet.choose(builder.build(), 10, STANDARD);
    assertThat(set.patches()).hasSize(10);
    assertThat(set.findings()).extracting(Finding::code).contains("spot-tints-thinned");
    assertThat(set.patches()).extracting(JobPatch::mixture).contains(spot("Teal", 98));
  }

  @Test
  void choose_flatAndPhotographAlike_takesTheFlatMixture() {
    CensusBuilder builder = new CensusBuilder();
    builder.add(InkMixture.PAPER, 100, ObjectKind.FILL);
    InkMixture flat = InkMixture.cmyk(30, 40, 50, 0);
    builder.add(flat, 30, ObjectKind.FILL, new Lab(60, 10, 20));
    for (int i = 0; i < 40; i++) {
      builder.add(
          InkMixture.cmyk(30 + i * 0.1, 40, 50, 0),
          1,
          ObjectKind.IMAGE,
          new Lab(60 + 0.002 * i, 10, 20));
    }
    JobSet set = JobSet.choose(builder.build(), 1, STANDARD);
    assertThat(set.patches()).extracting(JobPatch::mixture).containsExactly(flat);
  }

  @Test
  void choose_manySpotsAndTints_leavesHalfOfTheStripToCoverage() {
    CensusBuilder builder = flyer();
    for (int spot = 0; spot < 6; spot++) {
      for (int tint = 10; tint <= 100; tint += 10) {
        builder.add(spot("Ink " + spot, tint), 300, ObjectKind.FILL);
      }
    }
    JobSet set = JobSet.choose(builder.build(), 24, STANDARD);
    assertThat(set.patches())
        .filteredOn(patch -> patch.reason() == Reason.SPOT)
        .hasSize(8)
        .allMatch(patch -> patch.mixture().hasSpot());
    assertThat(set.patches()).filteredOn(patch -> patch.reason() != Reason.COVERAGE).hasSize(12);
    assertThat(set.patches()).hasSize(24);
  }

  @Test
  void choose_flatOverprintOfASpot_isTakenFromHalfAPercentOn() {
    InkMixture large = InkMixture.ofPercents(Map.of("Dune Red", 100.0, "Black", 60.0));
    InkMixture small = InkMixture.ofPercents(Map.of("Teal", 60.0, "Magenta", 80.0));
    Census census =
        flyer().add(large, 600, ObjectKind.FILL).add(small, 20, ObjectKind.FILL).build();
    assertThat(JobSet.choose(census, 24, STANDARD).patches())
        .filteredOn(patch -> patch.reason() == Reason.OVERPRINT)
        .extracting(JobPatch::mixture)
        .containsExactly(large);
  }

  /** Two tints of a spot that nobody tells apart take one place. */
  @Test
  void choose_tintsOfASpotThatLookAlike_takesTheLarger() {
    Census census = flyer().add(spot("Teal", 60.4), 690, ObjectKind.FILL).build();
    assertThat(JobSet.choose(census, 12, STANDARD).patches())
        .filteredOn(patch -> patch.reason() != Reason.COVERAGE)
        .extracting(JobPatch::mixture)
        .contains(spot("Teal", 60))
        .doesNotContain(spot("Teal", 60.4));
  }

  @Test
  void choose_twelvePatches_haveOneNearTheDarkestTheLightestAndTheMostInk() {
    CensusBuilder builder = flyer();
    builder.add(InkMixture.cmyk(80, 70, 70, 90), 400, ObjectKind.IMAGE);
    builder.add(InkMixture.cmyk(0, 3, 2, 0), 400, ObjectKind.IMAGE);
    JobSet set = JobSet.choose(builder.build(), 12, STANDARD);
    assertThat(set.patches())
        .anyMatch(patch -> patch.mixture().equals(InkMixture.cmyk(80, 70, 70, 90)))
        .anyMatch(
            patch ->
                ColorDifference.de00(
                        patch.aim().lab(), PlainCondition.color(InkMixture.cmyk(0, 3, 2, 0)))
                    < 3);
    assertThat(set.patches()).extracting(JobPatch::reason).contains(Reason.LIGHTEST);
  }

  /**
   * Three dense clouds, each of more colours than four patches cover, and a thin one far from them:
   * the thin one gets no patch for what it covers, but one for being far.
   */
  @Test
  void choose_moreColoursThanPatches_leavesNoRegionFarFromAPatch() {
    CensusBuilder builder = new CensusBuilder();
    Random random = new Random(11);
    for (int i = 0; i < 4500; i++) {
      Lab middle =
          List.of(new Lab(70, 20, 30), new Lab(50, -20, 10), new Lab(35, 5, -25)).get(i % 3);
      builder.add(
          InkMixture.cmyk(1 + i % 97, 2 + i / 97, 30, 0),
          60,
          ObjectKind.IMAGE,
          around(middle, 12, random));
    }
    for (int i = 0; i < 300; i++) {
      builder.add(
          InkMixture.cmyk(0, 60 + i % 30, 60 + i / 30, 0),
          20,
          ObjectKind.IMAGE,
          around(new Lab(55, 65, 50), 5, random));
    }
    JobSet set = JobSet.choose(builder.build(), 11, STANDARD);
    assertThat(set.coverage().within3Percent()).isBetween(20.0, 60.0);
    assertThat(set.patches()).anyMatch(patch -> patch.aim().lab().a() > 45);
  }

  private static Lab around(Lab middle, double spread, Random random) {
    return new Lab(
        middle.l() + spread * random.nextGaussian() / 2,
        middle.a() + spread * random.nextGaussian() / 2,
        middle.b() + spread * random.nextGaussian() / 2);
  }

  /** A spot's tint of a photograph's colour stands for itself, not for the photograph. */
  @Test
  void choose_spotTintOfAPhotographsColour_standsForItsOwnAreaOnly() {
    CensusBuilder builder = new CensusBuilder();
    builder.add(spot("Teal", 100), 500, ObjectKind.FILL, new Lab(45, -40, -10));
    builder.add(spot("Teal", 40), 500, ObjectKind.FILL, new Lab(75, -15, -5));
    Random random = new Random(3);
    for (int i = 0; i < 2000; i++) {
      builder.add(
          InkMixture.cmyk(25 + i % 20, 5 + i / 200, 10 + i / 20 % 10, 1),
          2,
          ObjectKind.IMAGE,
          around(new Lab(75, -14, -5), 3, random));
    }
    JobSet set = JobSet.choose(builder.build(), 6, STANDARD);
    assertThat(set.patches())
        .filteredOn(patch -> patch.mixture().equals(spot("Teal", 40)))
        .singleElement()
        .satisfies(patch -> assertThat(patch.representsPercent()).isCloseTo(10, within(0.001)));
  }

  @Test
  void choose_auto_stopsWhereAPatchAddsLessThanHalfAPercent() {
    Census census = flyer().build();
    JobSet auto = JobSet.choose(census, JobSet.AUTO, STANDARD);
    int count = auto.patches().size();
    assertThat(count).isBetween(6, 96);
    double more = JobSet.choose(census, count + 3, STANDARD).coverage().within3Percent();
    assertThat(more - auto.coverage().within3Percent()).isLessThan(3 * 0.9); // by exchange more
    double less = JobSet.choose(census, count - 3, STANDARD).coverage().within3Percent();
    assertThat(auto.coverage().within3Percent() - less).isGreaterThan(0.5);
  }

  @Test
  void choose_photograph_findsAtLeastWhatNineRandomChoicesAndAPlainGreedyOneFind() {
    Census census = flyer().build();
    double found = JobSet.choose(census, 16, STANDARD).coverage().within3Percent();
    Random random = new Random(5);
    for (int trial = 0; trial < 9; trial++) {
      List<Lab> any = new java.util.ArrayList<>();
      for (int i = 0; i < 16; i++) {
        any.add(census.aim(random.nextInt(census.size())).lab());
      }
      assertThat(WithinReach.percent(census, ColorCells.of(census, 1.5), any, 3)).isLessThan(found);
    }
    assertThat(found).isGreaterThan(plainGreedy(census, 16) - 1);
  }

  /** The area within ΔE00 3 that a greedy choice among all rows reaches, nothing forced. */
  private static double plainGreedy(Census census, int count) {
    boolean[] covered = new boolean[census.size()];
    double inked = 0;
    double sum = 0;
    for (int row = 0; row < census.size(); row++) {
      inked += census.isPaper(row) ? 0 : census.samples(row);
    }
    for (int step = 0; step < count; step++) {
      int best = -1;
      double most = 0;
      for (int row = 0; row < census.size(); row += 7) {
        double gain = 0;
        for (int other = 0; other < census.size(); other++) {
          boolean near = !covered[other] && !census.isPaper(other) && !census.isPaper(row);
          gain += near && Candidates.de00(census, row, other) <= 3 ? census.samples(other) : 0;
        }
        if (gain > most) {
          most = gain;
          best = row;
        }
      }
      sum += most;
      for (int other = 0; best >= 0 && other < census.size(); other++) {
        covered[other] |= Candidates.de00(census, best, other) <= 3;
      }
    }
    return 100 * sum / inked;
  }
}
