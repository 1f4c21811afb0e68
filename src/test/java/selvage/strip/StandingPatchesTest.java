package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

class StandingPatchesTest {
  /** Everything asked of everything, in double precision. */
  static double squared(InkMixture one, Lab color, InkMixture other, Lab otherColor) {
    float[] places = new float[6];
    EvenSpace.place((float) color.l(), (float) color.a(), (float) color.b(), places, 0);
    EvenSpace.place(
        (float) otherColor.l(), (float) otherColor.a(), (float) otherColor.b(), places, 3);
    double sum = EvenSpace.squared(places, 0, places, 3);
    List<Colorant> inks = new ArrayList<>(one.units().keySet());
    other.units().keySet().stream().filter(ink -> !inks.contains(ink)).forEach(inks::add);
    for (Colorant ink : inks) {
      double apart = (one.percent(ink) - other.percent(ink)) / 100 * InkCells.FULL_TINT;
      sum += apart * apart;
    }
    return sum;
  }

  @ParameterizedTest
  @CsvSource({"1, 24", "2, 3", "3, 90", "4, 1"})
  void of_randomMixtures_findsWhatTheFullSearchFinds(int seed, int count) {
    Random random = new Random(seed);
    CensusBuilder builder = new CensusBuilder();
    for (int i = 0; i < 4000; i++) {
      int samples = i % 50 == 0 ? 300 : 1 + random.nextInt(9);
      builder.add(mixture(random, i), samples, ObjectKind.IMAGE, color(random));
    }
    Census census = builder.add(InkMixture.PAPER, 700, ObjectKind.FILL).build();
    List<InkMixture> mixtures = new ArrayList<>();
    List<Lab> aims = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      mixtures.add(mixture(random, 5000 + i));
      aims.add(color(random));
    }
    InkCells groups = InkCells.of(census, ColorCells.of(census, 1.5));
    StandingPatches standing = StandingPatches.of(census, groups, mixtures, aims);
    double[] samples = new double[count];
    int large = 0;
    for (int row = 0; row < census.size(); row++) {
      if (census.isPaper(row)) {
        assertThat(standing.patch(row)).isEqualTo(-1);
        continue;
      }
      Lab lab = census.aim(row).lab();
      InkMixture mixture = census.mixture(row);
      double least = Double.MAX_VALUE;
      for (int i = 0; i < count; i++) {
        least = Math.min(least, squared(mixture, lab, mixtures.get(i), aims.get(i)));
      }
      int found = standing.patch(row);
      boolean isLarge = census.samples(row) == 300;
      large += isLarge ? 1 : 0;
      // What is farther from a row than the nearest is no nearer to its group's mean than twice
      // the row's distance from that mean allows.
      double mean = groups.squared(row, groups.places().coordinates(), groups.groupOf(row));
      double slack = isLarge ? 0 : 2 * Math.sqrt(mean);
      assertThat(Math.sqrt(squared(mixture, lab, mixtures.get(found), aims.get(found))))
          .as("seed %d, %s", seed, mixture)
          .isLessThanOrEqualTo(Math.sqrt(least) + slack + 1e-3);
      samples[found] += census.samples(row);
    }
    assertThat(large).isEqualTo(80);
    for (int i = 0; i < count; i++) {
      assertThat(standing.samples(i)).as("seed %d, patch %d", seed, i).isEqualTo(samples[i]);
    }
  }

  private static InkMixture mixture(Random random, int number) {
    return InkMixture.ofPercents(
        Map.of(
            "Cyan",
            1.0 + number % 89,
            "Magenta",
            random.nextInt(4) * 20.0,
            "Black",
            Math.max(0, random.nextInt(180) - 80.0),
            number % 3 == 0 ? "Rust" : number % 7 == 0 ? "Moss" : "Yellow",
            5.0 + number / 89 % 90));
  }

  private static Lab color(Random random) {
    return new Lab(
        20 + random.nextDouble() * 60,
        random.nextDouble() * 60 - 30,
        random.nextDouble() * 60 - 30);
  }

  /**
   * A grey of black alone does not stand for one of three inks, though it looks nearly the same.
   */
  @Test
  void of_greysOfOtherInks_standForTheirOwn() {
    InkMixture black = InkMixture.cmyk(0, 0, 0, 50);
    InkMixture three = InkMixture.cmyk(45, 35, 35, 0);
    Lab grey = new Lab(58, 0, -1);
    Lab farther = new Lab(58, 2.5, 2);
    InkMixture like = InkMixture.cmyk(48, 38, 38, 0);
    Census census =
        new CensusBuilder()
            .add(black, 40, ObjectKind.FILL, grey)
            .add(like, 30, ObjectKind.IMAGE, new Lab(57.5, 0.5, -0.5))
            .build();
    StandingPatches standing =
        StandingPatches.of(
            census,
            InkCells.of(census, ColorCells.of(census, 1.5)),
            List.of(black, three),
            List.of(grey, farther));
    assertThat(standing.patch(0)).isZero();
    assertThat(standing.patch(1)).isEqualTo(1);
    assertThat(standing.samples(0)).isEqualTo(40);
    assertThat(standing.samples(1)).isEqualTo(30);
  }
}
