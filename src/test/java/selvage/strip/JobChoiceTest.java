package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.Severity;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

class JobChoiceTest {
  private static final List<Lab> STANDARD = List.of(new Lab(95, 0, -2), new Lab(16, 0, 0));
  private static final InkMixture RED = InkMixture.ofPercents(Map.of("Dune Red", 100.0));
  private static final InkMixture RED_TINT = InkMixture.ofPercents(Map.of("Dune Red", 40.0));
  private static final InkMixture TEAL = InkMixture.ofPercents(Map.of("Teal", 60.0));
  private static final InkMixture BLACK = InkMixture.cmyk(0, 0, 0, 100);
  private static final InkMixture SPECK = InkMixture.cmyk(3, 91, 2, 0);

  private static final Census CENSUS = flyer();
  private static final JobChoice CHOICE = new JobChoice(CENSUS, STANDARD);

  /** A page like a flyer: a photograph of many mixtures, flat areas, two spots. */
  private static Census flyer() {
    Random random = new Random(11);
    CensusBuilder census = new CensusBuilder();
    census.add(InkMixture.PAPER, 50_000, ObjectKind.FILL);
    census.add(RED, 8000, ObjectKind.FILL);
    census.add(RED_TINT, 900, ObjectKind.TEXT);
    census.add(TEAL, 700, ObjectKind.FILL);
    census.add(BLACK, 3000, ObjectKind.TEXT);
    census.add(InkMixture.cmyk(10, 60, 90, 5), 4000, ObjectKind.FILL);
    census.add(SPECK, 2, ObjectKind.FILL);
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
    return census.build();
  }

  private static ChosenPatch taken(InkMixture mixture) {
    return new ChosenPatch(mixture, Reason.OPERATOR);
  }

  private static List<ChosenPatch> patches(JobSet set) {
    return set.patches().stream()
        .map(patch -> new ChosenPatch(patch.mixture(), patch.reason()))
        .toList();
  }

  private static List<InkMixture> mixtures(JobSet set) {
    return set.patches().stream().map(JobPatch::mixture).toList();
  }

  private static List<Finding> doubts(JobSet set, String code) {
    return set.findings().stream().filter(finding -> finding.code().equals(code)).toList();
  }

  @ParameterizedTest
  @ValueSource(ints = {JobSet.AUTO, 1, 2, 7, 12, 24, 60})
  void choose_noWish_isTheUsualChoice(int count) {
    assertThat(CHOICE.choose(count, Wishes.NONE)).isEqualTo(JobSet.choose(CENSUS, count, STANDARD));
  }

  @ParameterizedTest
  @ValueSource(ints = {JobSet.AUTO, 1, 4, 12, 24})
  void choose_kept_areTakenFirstAndNeverLeftOut(int count) {
    List<InkMixture> kept = List.of(SPECK, BLACK, RED_TINT, InkMixture.cmyk(10, 60, 90, 5));
    JobSet set = CHOICE.choose(count, new Wishes(kept, Set.of()));
    assertThat(mixtures(set)).startsWith(kept.toArray(InkMixture[]::new)).doesNotHaveDuplicates();
    if (count != JobSet.AUTO) {
      assertThat(set.patches()).hasSize(Math.max(count, 4));
    }
    assertThat(set.patches().get(0).reason()).isEqualTo(Reason.OPERATOR);
  }

  @Test
  void choose_keptThatIsForcedAnyway_keepsItsReason() {
    JobSet set = CHOICE.choose(12, new Wishes(List.of(TEAL, RED_TINT, SPECK), Set.of()));
    assertThat(set.patches().subList(0, 3))
        .extracting(JobPatch::reason)
        .containsExactly(Reason.SPOT, Reason.SPOT_TINT, Reason.OPERATOR);
    assertThat(mixtures(set)).contains(RED);
  }

  @ParameterizedTest
  @ValueSource(ints = {JobSet.AUTO, 1, 4, 12, 24})
  void choose_dropped_areNeverTaken(int count) {
    Set<InkMixture> dropped = new HashSet<>();
    for (int turn = 0; turn < 5; turn++) {
      JobSet set = CHOICE.choose(count, new Wishes(List.of(), dropped));
      assertThat(mixtures(set)).isNotEmpty().noneMatch(dropped::contains);
      dropped.addAll(mixtures(set));
    }
  }

  @Test
  void choose_droppedSpot_isADoubt() {
    JobSet set = CHOICE.choose(12, new Wishes(List.of(), Set.of(RED)));
    List<Finding> doubts = doubts(set, "spot-dropped");
    assertThat(doubts).hasSize(1);
    assertThat(doubts.get(0).severity()).isEqualTo(Severity.WARNING);
    assertThat(doubts.get(0).text())
        .contains("an operator left out Dune Red 100", "1 other patch of the strip has this ink");
    assertThat(doubts(set, "spots-left-out")).isEmpty();
    JobSet none = CHOICE.choose(12, new Wishes(List.of(), Set.of(TEAL)));
    assertThat(doubts(none, "spot-dropped").get(0).text()).contains("Teal 60", "no other patch");
  }

  @Test
  void choose_keptThatTheJobDoesNotHave_isRefused() {
    Wishes wishes = new Wishes(List.of(InkMixture.cmyk(1, 2, 3, 99)), Set.of());
    assertThatThrownBy(() -> CHOICE.choose(12, wishes))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Cyan 1 + Magenta 2 + Yellow 3 + Black 99");
    assertThatThrownBy(() -> CHOICE.choose(201, Wishes.NONE))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("1 to 200");
    Wishes other = new Wishes(List.of(), Set.of(InkMixture.ofPercents(Map.of("Moss", 4.0))));
    assertThat(CHOICE.choose(12, other)).isEqualTo(CHOICE.choose(12, Wishes.NONE));
  }

  @Test
  void wishes_mixtureKeptAndDropped_isRefused() {
    assertThatThrownBy(() -> new Wishes(List.of(RED), Set.of(RED)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Dune Red 100");
    assertThatThrownBy(() -> new Wishes(List.of(RED, RED), Set.of()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("twice");
  }

  @Test
  void of_whatWasChosen_isTheSameButForTheDoubts() {
    JobSet chosen = CHOICE.choose(24, Wishes.NONE);
    JobSet set = CHOICE.of(patches(chosen));
    assertThat(set.patches()).isEqualTo(chosen.patches());
    assertThat(set.coverage()).isEqualTo(chosen.coverage());
    assertThat(doubts(set, "spot-dropped")).isEmpty();
  }

  /** Against a plain sum over every row. */
  @Test
  void of_someSets_haveTheCoverageOfAnIndependentSum() {
    List<ChosenPatch> all = new ArrayList<>(patches(CHOICE.choose(24, Wishes.NONE)));
    all.add(taken(SPECK));
    Random random = new Random(5);
    for (int size : new int[] {1, 3, 11, 25}) {
      Collections.shuffle(all, random);
      JobSet set = CHOICE.of(all.subList(0, size));
      assertThat(patches(set)).isEqualTo(all.subList(0, size));
      double inked = 0;
      double within2 = 0;
      double within3 = 0;
      double sum = 0;
      double[] shares = new double[size];
      for (int row = 0; row < CENSUS.size(); row++) {
        if (CENSUS.isPaper(row)) {
          continue;
        }
        double least = Double.MAX_VALUE;
        double leastSquared = Double.MAX_VALUE;
        int standing = -1;
        for (int i = 0; i < size; i++) {
          JobPatch patch = set.patches().get(i);
          Lab lab = CENSUS.aim(row).lab();
          least = Math.min(least, ColorDifference.de00(lab, patch.aim().lab()));
          double squared =
              StandingPatchesTest.squared(
                  CENSUS.mixture(row), lab, patch.mixture(), patch.aim().lab());
          if (squared < leastSquared) {
            leastSquared = squared;
            standing = i;
          }
        }
        inked += CENSUS.samples(row);
        within2 += least <= 2 ? CENSUS.samples(row) : 0;
        within3 += least <= 3 ? CENSUS.samples(row) : 0;
        sum += CENSUS.samples(row) * least;
        shares[standing] += CENSUS.samples(row);
      }
      assertThat(set.coverage().within2Percent()).isCloseTo(100 * within2 / inked, within(0.01));
      assertThat(set.coverage().within3Percent()).isCloseTo(100 * within3 / inked, within(0.01));
      assertThat(set.coverage().meanDe00()).isCloseTo(sum / inked, within(0.05 * sum / inked));
      for (int i = 0; i < size; i++) {
        assertThat(set.patches().get(i).representsPercent())
            .isCloseTo(100 * shares[i] / inked, within(0.5));
      }
    }
  }

  @Test
  void of_whatMayNotBe_isRefused() {
    assertRefused(List.of(), "no patches");
    assertRefused(List.of(taken(RED), taken(BLACK), taken(RED)), "Dune Red 100 stands twice");
    assertRefused(List.of(taken(InkMixture.PAPER)), "paper");
    assertRefused(List.of(taken(InkMixture.cmyk(0, 0, 0, 99))), "does not have Black 99");
    assertRefused(List.of(taken(InkMixture.ofPercents(Map.of("Moss", 5.0)))), "Moss 5");
    List<ChosenPatch> many = new ArrayList<>();
    for (int row = 0; many.size() < 201; row++) {
      if (!CENSUS.isPaper(row)) {
        many.add(taken(CENSUS.mixture(row)));
      }
    }
    assertRefused(many, "at most 200");
  }

  private static void assertRefused(List<ChosenPatch> patches, String reason) {
    assertThatThrownBy(() -> CHOICE.of(patches))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(reason);
  }

  @Test
  void of_setWithoutASpot_saysSoAndCountsTints() {
    JobSet set = CHOICE.of(List.of(taken(RED), taken(BLACK)));
    assertThat(doubts(set, "spot-dropped"))
        .singleElement()
        .satisfies(doubt -> assertThat(doubt.text()).contains("Teal 60"));
    assertThat(doubts(set, "spot-tints-thinned"))
        .singleElement()
        .satisfies(doubt -> assertThat(doubt.text()).contains("uses 1 flat tints", "0 of them"));
    assertThat(set.patches()).extracting(JobPatch::reason).containsOnly(Reason.OPERATOR);
  }

  @Test
  void reach_someRows_isThatOfThePatchNearby() {
    JobSet set = CHOICE.choose(12, Wishes.NONE);
    PatchReach reach = CHOICE.reach(set.patches());
    for (int i = 0; i < set.patches().size(); i++) {
      int row = CHOICE.row(set.patches().get(i).mixture()).orElseThrow();
      assertThat(reach.de00(row)).isCloseTo(0f, within(0.05f));
    }
    int speck = CHOICE.row(SPECK).orElseThrow();
    Lab near = set.patches().get(reach.patch(speck)).aim().lab();
    assertThat((double) reach.de00(speck))
        .isCloseTo(ColorDifference.de00(CENSUS.aim(speck).lab(), near), within(2.0));
    int paper = CHOICE.row(InkMixture.PAPER).orElseThrow();
    assertThat(CENSUS.isPaper(paper)).isTrue();
    assertThat(reach.patch(paper)).isEqualTo(-1);
    JobSet other = CHOICE.of(List.of(taken(SPECK)));
    assertThat(CHOICE.reach(other.patches()).patch(speck)).isZero();
  }

  @Test
  void row_everyMixture_isFoundWhereItStands() {
    for (int row = 0; row < CENSUS.size(); row += 7) {
      InkMixture mixture = CENSUS.mixture(row);
      int found = CHOICE.row(mixture).orElseThrow();
      assertThat(found).isLessThanOrEqualTo(row);
      assertThat(CENSUS.mixture(found)).isEqualTo(mixture);
    }
    assertThat(CHOICE.row(InkMixture.cmyk(0, 0, 0, 99))).isEmpty();
    assertThat(CHOICE.row(InkMixture.ofPercents(Map.of("Moss", 5.0)))).isEmpty();
  }

  @Test
  void choose_blankPage_givesNothing() {
    Census blank = new CensusBuilder().add(InkMixture.PAPER, 100, ObjectKind.FILL).build();
    JobChoice choice = new JobChoice(blank, STANDARD);
    assertThat(choice.choose(24, Wishes.NONE)).isEqualTo(JobSet.choose(blank, 24, STANDARD));
    assertThat(choice.choose(24, Wishes.NONE).patches()).isEmpty();
  }

  @Test
  void choose_severalThreads_giveWhatOneGives() throws Exception {
    List<ChosenPatch> patches = patches(CHOICE.choose(24, Wishes.NONE));
    List<JobSet> expected = new ArrayList<>();
    for (int size = 1; size <= 24; size++) {
      expected.add(new JobChoice(CENSUS, STANDARD).of(patches.subList(0, size)));
    }
    JobChoice shared = new JobChoice(CENSUS, STANDARD);
    ExecutorService threads = Executors.newFixedThreadPool(6);
    try {
      List<Callable<JobSet>> tasks = new ArrayList<>();
      for (int size = 1; size <= 24; size++) {
        List<ChosenPatch> some = patches.subList(0, size);
        tasks.add(() -> shared.of(some));
      }
      List<JobSet> found = new ArrayList<>();
      for (Future<JobSet> task : threads.invokeAll(tasks)) {
        found.add(task.get());
      }
      assertThat(found).isEqualTo(expected);
    } finally {
      threads.shutdown();
    }
  }
}
