package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.color.ReferenceWhite;
import selvage.color.Xyz;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.score.Cause.Kind;

/** One cause at a time on a press of straight lines, by hand. */
class PrintModelTest {
  private static final PrintModel MODEL = StraightPress.model();

  @Test
  void causes_sixInks_inTheirOrderWithTheirParameters() {
    assertThat(MODEL.inks()).extracting(Colorant::name).isEqualTo(ProofFixture.INKS);
    List<Cause> causes = MODEL.causes();
    assertThat(causes)
        .extracting(Cause::kind)
        .startsWith(Kind.TONE)
        .endsWith(Kind.PAPER, Kind.CAST, Kind.HUE, Kind.RECIPE, Kind.RECIPE);
    assertThat(causes).hasSize(17);
    assertThat(causes.get(5)).isEqualTo(new Cause(Kind.TONE, "Night Pine"));
    assertThat(causes.get(6)).isEqualTo(new Cause(Kind.DENSITY, "Cyan"));
    assertThat(causes.get(15)).isEqualTo(new Cause(Kind.RECIPE, "Dune Red"));
    int[] offsets = {0, 5, 6, 11, 12, 15, 18, 19, 22};
    int[] positions = {0, 5, 6, 11, 12, 13, 14, 15, 16};
    for (int i = 0; i < offsets.length; i++) {
      assertThat(MODEL.offset(positions[i])).isEqualTo(offsets[i]);
    }
    assertThat(MODEL.parameters()).isEqualTo(25);
    assertThat(MODEL.inkOf(causes.get(6))).isZero();
    assertThat(MODEL.inkOf(causes.get(16))).isEqualTo(5);
    assertThat(MODEL.inkOf(causes.get(13))).isEqualTo(-1);
  }

  @Test
  void tints_twoMixtures_fractionsRowByRow() {
    assertThat(
            MODEL.tints(
                List.of(
                    InkMixture.cmyk(10, 20, 0, 40),
                    InkMixture.ofPercents(Map.of("Black", 5.0, "Night Pine", 60.0)))))
        .containsExactly(
            new double[] {0.1, 0.2, 0, 0.4, 0, 0, 0, 0, 0, 0.05, 0, 0.6}, within(1e-12));
  }

  @Test
  void print_noCause_theAims() {
    assertLab(print("sound", new double[25], InkMixture.PAPER), 95, 0, -2);
    assertLab(print("sound", new double[25], StraightPress.one("Cyan", 50)), 75, -17.5, -24.5);
    assertLab(print("sound", new double[25], StraightPress.one("Dune Red", 100)), 45, 60, 38);
  }

  /** A tint t becomes t + 4dt(1 − t): 50 % becomes 60 % with d of 10 %, 25 % becomes 32.5 %. */
  @ParameterizedTest
  @CsvSource({
    "0.1, 50, 60",
    "0.1, 25, 32.5",
    "-0.1, 50, 40",
    "0.1, 100, 100",
    "-0.1, 100, 100",
    "0.5, 50, 100",
    "0.6, 60, 100",
    "-0.6, 40, 0"
  })
  void print_tone_tintMoved(double change, double tint, double becomes) {
    double[] tone = StraightPress.at(MODEL, Kind.TONE, "Magenta", change);
    double part = becomes / 100;
    assertLab(
        print("tone", tone, StraightPress.one("Magenta", tint)), 95 - 45 * part, 70 * part, -2);
    assertLab(print("other ink", tone, StraightPress.one("Black", 50)), 56.5, 0, -1);
    assertLab(print("paper", tone, InkMixture.PAPER), 95, 0, -2);
  }

  @Test
  void print_toneOfTwoInks_eachByItsOwn() {
    double[] tone = StraightPress.at(MODEL, Kind.TONE, "Cyan", 0.1);
    tone[2] = -0.1;
    double[] lab = print("tone", tone, InkMixture.cmyk(50, 0, 50, 0));
    assertLab(lab, 95 - 0.6 * 40 - 0.4 * 6, -0.6 * 35 - 0.4 * 5, -2 - 0.6 * 45 + 0.4 * 90);
  }

  /** The density over paper of a solid, −lg of X, Y and Z, is one and a tenth of what it was. */
  @ParameterizedTest
  @CsvSource({"Cyan, 0.1", "Black, -0.2", "Night Pine, 0.05"})
  void print_densityOfSolid_densitiesInProportion(String ink, double change) {
    double[] before = densities(print("sound", new double[25], StraightPress.one(ink, 100)));
    double[] after =
        densities(
            print(
                "dense",
                StraightPress.at(MODEL, Kind.DENSITY, ink, change),
                StraightPress.one(ink, 100)));
    for (int axis = 0; axis < 3; axis++) {
      assertThat(after[axis]).isCloseTo((1 + change) * before[axis], within(1e-4));
    }
  }

  /** Murray and Davies: a tint of 40 % reflects 0.6 of the paper and 0.4 of the solid. */
  @Test
  void print_densityOfTint_murrayDavies() {
    double[] denser = StraightPress.at(MODEL, Kind.DENSITY, "Magenta", 0.1);
    InkMixture both = InkMixture.cmyk(30, 40, 0, 0);
    Xyz paper = xyz(print("sound", new double[25], InkMixture.PAPER));
    Xyz solid = xyz(print("sound", new double[25], StraightPress.one("Magenta", 100)));
    Xyz sound = xyz(print("sound", new double[25], both));
    Xyz found = xyz(print("dense", denser, both));
    double r = solid.y() / paper.y();
    double factor = (0.6 + 0.4 * Math.pow(r, 1.1)) / (0.6 + 0.4 * r);
    assertThat(found.y() / sound.y()).isCloseTo(factor, within(1e-4));
    r = solid.x() / paper.x();
    factor = (0.6 + 0.4 * Math.pow(r, 1.1)) / (0.6 + 0.4 * r);
    assertThat(found.x() / sound.x()).isCloseTo(factor, within(1e-4));
    assertLab(print("other ink", denser, StraightPress.one("Black", 50)), 56.5, 0, -1);
  }

  /** Two inks thicker at once: their factors multiply. */
  @Test
  void print_densityOfTwoInks_factorsMultiply() {
    double[] denser = StraightPress.at(MODEL, Kind.DENSITY, "Magenta", 0.1);
    denser[6] = 0.2;
    InkMixture both = InkMixture.cmyk(100, 100, 0, 0);
    double sound = xyz(print("sound", new double[25], both)).y();
    double found = xyz(print("dense", denser, both)).y();
    double paper = xyz(print("sound", new double[25], InkMixture.PAPER)).y();
    double cyan = xyz(print("sound", new double[25], StraightPress.one("Cyan", 100))).y() / paper;
    double magenta =
        xyz(print("sound", new double[25], StraightPress.one("Magenta", 100))).y() / paper;
    assertThat(found / sound).isCloseTo(Math.pow(cyan, 0.2) * Math.pow(magenta, 0.1), within(1e-4));
  }

  @ParameterizedTest
  @CsvSource({"-3, 0, 0", "0, 1.5, 0", "0, 0, 4", "-2, 1, 3"})
  void print_paper_xyzOfAllMultiplied(double l, double a, double b) {
    double[] sheet = StraightPress.at(MODEL, Kind.PAPER, "", l, a, b);
    assertLab(print("paper", sheet, InkMixture.PAPER), 95 + l, a, -2 + b);
    InkMixture cyan = StraightPress.one("Cyan", 50);
    Xyz before = xyz(new double[] {95, 0, -2});
    Xyz after = xyz(new double[] {95 + l, a, -2 + b});
    Xyz sound = xyz(print("sound", new double[25], cyan));
    Xyz found = xyz(print("paper", sheet, cyan));
    assertThat(found.x() / sound.x()).isCloseTo(after.x() / before.x(), within(1e-6));
    assertThat(found.y() / sound.y()).isCloseTo(after.y() / before.y(), within(1e-6));
    assertThat(found.z() / sound.z()).isCloseTo(after.z() / before.z(), within(1e-6));
  }

  /** Over another paper and with a thicker ink a solid is both at once. */
  @Test
  void print_paperAndDensity_factorsMultiply() {
    double[] both = StraightPress.at(MODEL, Kind.PAPER, "", -3, 0, 0);
    both[6] = 0.1;
    InkMixture cyan = StraightPress.one("Cyan", 100);
    double paper = xyz(new double[] {92, 0, -2}).y() / xyz(new double[] {95, 0, -2}).y();
    double r = xyz(print("sound", new double[25], cyan)).y() / xyz(new double[] {95, 0, -2}).y();
    double sound = xyz(print("sound", new double[25], cyan)).y();
    assertThat(xyz(print("both", both, cyan)).y() / sound)
        .isCloseTo(paper * Math.pow(r, 0.1), within(1e-6));
  }

  @Test
  void print_cast_added() {
    double[] cast = StraightPress.at(MODEL, Kind.CAST, "", 1, 2, -3);
    assertLab(print("cast", cast, InkMixture.PAPER), 96, 2, -5);
    assertLab(print("cast", cast, StraightPress.one("Cyan", 50)), 76, -15.5, -27.5);
  }

  /** A quarter turn brings +a* to +b*; a cast is laid over what is turned. */
  @Test
  void print_hue_turnedAboutTheNeutralAxis() {
    double[] quarter = StraightPress.at(MODEL, Kind.HUE, "", Math.PI / 2);
    assertLab(print("turned", quarter, StraightPress.one("Cyan", 50)), 75, 24.5, -17.5);
    double[] third = StraightPress.at(MODEL, Kind.HUE, "", Math.PI / 6);
    double cos = Math.sqrt(3) / 2;
    third[15] = 1;
    third[16] = -2;
    third[17] = 3;
    assertLab(
        print("turned", third, StraightPress.one("Cyan", 50)),
        76,
        -17.5 * cos + 24.5 / 2 - 2,
        -17.5 / 2 - 24.5 * cos + 3);
  }

  /** A solid moves by the whole shift, a tint by its part; other inks stay. */
  @Test
  void print_recipe_solidMovesTintsInProportion() {
    double[] recipe = StraightPress.at(MODEL, Kind.RECIPE, "Dune Red", 2, -4, 6);
    assertLab(print("solid", recipe, StraightPress.one("Dune Red", 100)), 47, 56, 44);
    assertLab(print("half", recipe, StraightPress.one("Dune Red", 50)), 71, 28, 21);
    assertLab(print("other", recipe, StraightPress.one("Night Pine", 100)), 35, -25, -6);
    assertLab(print("process", recipe, StraightPress.one("Cyan", 50)), 75, -17.5, -24.5);
    double[] last = StraightPress.at(MODEL, Kind.RECIPE, "Night Pine", -50, 0, 5);
    assertLab(print("black at most", last, StraightPress.one("Night Pine", 100)), 0, -25, -1);
    for (int axis = 0; axis < 3; axis++) {
      double[] shift = new double[3];
      shift[axis] = 3;
      double[] moved =
          print(
              "axis " + axis,
              StraightPress.at(MODEL, Kind.RECIPE, "Dune Red", shift),
              StraightPress.one("Dune Red", 100));
      assertLab(moved, 45 + shift[0], 60 + shift[1], 38 + shift[2]);
    }
  }

  /** The second of two rows, so that rows are told apart. */
  private static double[] print(String what, double[] parameters, InkMixture mixture) {
    double[] labs =
        MODEL.print(
            parameters,
            MODEL.tints(List.of(InkMixture.ofPercents(Map.of("Yellow", 35.0)), mixture)));
    assertThat(labs).as(what).hasSize(6);
    return Arrays.copyOfRange(labs, 3, 6);
  }

  private static double[] densities(double[] lab) {
    Xyz paper = xyz(new double[] {95, 0, -2});
    Xyz color = xyz(lab);
    return new double[] {
      -Math.log10(color.x() / paper.x()),
      -Math.log10(color.y() / paper.y()),
      -Math.log10(color.z() / paper.z())
    };
  }

  private static Xyz xyz(double[] lab) {
    return ReferenceWhite.ISO_13655.toXyz(new Lab(lab[0], lab[1], lab[2]));
  }

  /** Within a tint's rounding. */
  private static void assertLab(double[] found, double l, double a, double b) {
    assertThat(found).containsExactly(new double[] {l, a, b}, within(0.002));
  }
}
