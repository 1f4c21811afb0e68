package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

class AimModelTest {
  private static final Colorant DUNE = Colorant.named("Dune Red");
  private static final Colorant FERN = Colorant.named("Fern");
  private static final Lab DUNE_SOLID = new Lab(46, 55, 30);
  private static final Lab DUNE_HALF = new Lab(68, 30, 14);
  private static final Lab FERN_SOLID = new Lab(50, -40, 20);

  private final ReferenceCondition condition = ReferenceConditions.defaultCondition();
  private final AimModel model =
      new AimModel(
          condition,
          Map.of(
              "Dune Red",
              new SpotInk(
                  "Dune Red",
                  new TreeMap<>(Map.of(50.0, DUNE_HALF, 100.0, DUNE_SOLID)),
                  AimSource.LIBRARY),
              "Fern",
              SpotInk.ofSolid("Fern", FERN_SOLID, AimSource.ALTERNATE)));

  private Aim aim(Map<String, Double> percents) {
    return model.aim(InkMixture.ofPercents(percents));
  }

  @Test
  void aim_paper_isTheConditions() {
    assertThat(model.aim(InkMixture.PAPER))
        .isEqualTo(new Aim(new Lab(95, 0, -2), AimSource.CONDITION_NODE));
  }

  @Test
  void aim_processTint_isTheConditions() {
    assertThat(aim(Map.of("Cyan", 33.0)).source()).isEqualTo(AimSource.CONDITION);
    assertThat(aim(Map.of("Cyan", 33.0))).isEqualTo(condition.aim(33, 0, 0, 0));
  }

  @Test
  void aim_knownSpotTints_areTheLibrarys() {
    assertThat(aim(Map.of("Dune Red", 100.0))).isEqualTo(new Aim(DUNE_SOLID, AimSource.LIBRARY));
    assertThat(aim(Map.of("Dune Red", 50.0))).isEqualTo(new Aim(DUNE_HALF, AimSource.LIBRARY));
    assertThat(aim(Map.of("Fern", 100.0))).isEqualTo(new Aim(FERN_SOLID, AimSource.ALTERNATE));
  }

  @Test
  void aim_otherSpotTint_hasThatSpotColorToneValue() {
    Aim aim = aim(Map.of("Fern", 30.0));
    assertThat(aim.source()).isEqualTo(AimSource.PREDICTED);
    assertThat(toneValue(aim.lab(), condition.paper(), FERN_SOLID)).isCloseTo(30, within(1e-6));
  }

  @Test
  void aim_spotTintBetweenKnownOnes_liesBetweenThem() {
    Aim aim = aim(Map.of("Dune Red", 75.0));
    assertThat(aim.source()).isEqualTo(AimSource.PREDICTED);
    assertThat(aim.lab().l()).isCloseTo(57, within(1e-9));
    assertThat(aim.lab().a()).isCloseTo(42.5, within(1e-9));
  }

  @Test
  void aim_alternatesOtherTints_arePredicted() {
    AimModel stated =
        new AimModel(
            condition,
            Map.of(
                "Fern",
                new SpotInk(
                    "Fern",
                    new TreeMap<>(Map.of(50.0, DUNE_HALF, 100.0, FERN_SOLID)),
                    AimSource.ALTERNATE)));
    assertThat(stated.aim(InkMixture.of(FERN, 50)))
        .isEqualTo(new Aim(DUNE_HALF, AimSource.PREDICTED));
  }

  @Test
  void aim_spotOverBlack_isDarkerThanBoth() {
    Aim aim = aim(Map.of("Dune Red", 100.0, "Black", 60.0));
    assertThat(aim.source()).isEqualTo(AimSource.PREDICTED);
    Xyz paper = ReferenceWhite.ISO_13655.toXyz(condition.paper());
    Xyz black = ReferenceWhite.ISO_13655.toXyz(condition.aim(0, 0, 0, 60).lab());
    Xyz dune = ReferenceWhite.ISO_13655.toXyz(DUNE_SOLID);
    Xyz printed = ReferenceWhite.ISO_13655.toXyz(aim.lab());
    assertThat(printed.y()).isCloseTo(black.y() * dune.y() / paper.y(), within(1e-9));
    assertThat(printed.z()).isCloseTo(black.z() * dune.z() / paper.z(), within(1e-9));
  }

  @Test
  void aim_twoSpots_areMultiplied() {
    Aim aim = aim(Map.of("Dune Red", 100.0, "Fern", 100.0));
    assertThat(aim.source()).isEqualTo(AimSource.PREDICTED);
    assertThat(aim.lab().l()).isLessThan(46);
  }

  @Test
  void aim_unknownSpot_isTheCallersFault() {
    assertThatThrownBy(() -> aim(Map.of("Unheard", 100.0)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Unheard");
  }

  @Test
  void aims_manyRows_equalSingleAims() {
    List<Colorant> colorants = new ArrayList<>(List.of(FERN, Colorant.BLACK, DUNE, Colorant.CYAN));
    Random random = new Random(12);
    int rows = 500;
    char[] tints = new char[rows * 4];
    for (int i = 0; i < tints.length; i++) {
      int kind = random.nextInt(4);
      tints[i] = (char) (kind < 2 ? 0 : kind == 2 ? Tint.FULL : Tint.FULL / 2);
      if (random.nextInt(5) == 0) {
        tints[i] = (char) random.nextInt(Tint.FULL + 1);
      }
    }
    float[] lab = new float[3 * rows];
    AimSource[] sources = new AimSource[rows];
    model.aims(colorants, tints, lab, sources);
    for (int row = 0; row < rows; row++) {
      TreeMap<Colorant, Integer> units = new TreeMap<>();
      for (int i = 0; i < 4; i++) {
        units.put(colorants.get(i), (int) tints[4 * row + i]);
      }
      Aim single = model.aim(InkMixture.ofUnits(units));
      assertThat(sources[row]).as("source of %s", units).isEqualTo(single.source());
      assertThat((double) lab[3 * row]).isCloseTo(single.lab().l(), within(1e-3));
      assertThat((double) lab[3 * row + 1]).isCloseTo(single.lab().a(), within(1e-3));
      assertThat((double) lab[3 * row + 2]).isCloseTo(single.lab().b(), within(1e-3));
    }
  }

  @Test
  void aims_processOnly_takesTheColumnsAsTheyAre() {
    char[] tints = {Tint.FULL, 0, 0, 0};
    float[] lab = new float[3];
    AimSource[] sources = new AimSource[1];
    model.aims(Colorant.PROCESS, tints, lab, sources);
    assertThat(sources[0]).isEqualTo(AimSource.CONDITION_NODE);
    assertThat(lab).containsExactly(55, -37, -50);
  }

  @Test
  void aims_columnsOfUnequalLength_isTheCallersFault() {
    assertThatThrownBy(
            () -> model.aims(Colorant.PROCESS, new char[4], new float[6], new AimSource[2]))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** SCTV as ISO 20654 defines it. */
  private static double toneValue(Lab tint, Lab paper, Lab solid) {
    return 100 * distance(tint, paper) / distance(solid, paper);
  }

  private static double distance(Lab first, Lab second) {
    double[] v = new double[3];
    v[0] = first.l() + 116 * first.a() / 500 - second.l() - 116 * second.a() / 500;
    v[1] = first.l() - second.l();
    v[2] = first.l() - 116 * first.b() / 200 - second.l() + 116 * second.b() / 200;
    return Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  }
}
