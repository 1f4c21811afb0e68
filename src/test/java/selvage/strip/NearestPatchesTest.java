package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

class NearestPatchesTest {
  /** The quick search against the plain search over all colours. */
  @ParameterizedTest
  @CsvSource({"1, 100, 128, 3", "2, 60, 40, 24", "3, 100, 20, 60", "4, 30, 100, 24"})
  void of_randomColors_fallsOnTheSideOfTwoAndThreeWhereTheFullSearchFalls(
      int seed, double lightness, double spread, int count) {
    Random random = new Random(seed);
    CensusBuilder builder = new CensusBuilder();
    for (int i = 0; i < 6000; i++) {
      InkMixture mixture =
          InkMixture.cmyk(1 + i % 97, i / 97 % 89, random.nextInt(100), random.nextInt(100));
      builder.add(mixture, 1, ObjectKind.IMAGE, color(random, lightness, spread));
    }
    Census census = builder.build();
    List<Lab> colors = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      colors.add(color(random, lightness, spread));
    }
    NearestPatches nearest = NearestPatches.of(census, ColorCells.of(census, 1.5), colors);
    double error = 0;
    double sum = 0;
    for (int row = 0; row < census.size(); row++) {
      Lab lab = census.aim(row).lab();
      double least = Double.MAX_VALUE;
      for (Lab color : colors) {
        least = Math.min(least, ColorDifference.de00(lab, color));
      }
      for (double limit : new double[] {2, 3}) {
        if (Math.abs(least - limit) > 0.004) {
          assertThat(nearest.de00(row) <= limit)
              .as("seed %d, %s: %f, found %f", seed, lab, least, nearest.de00(row))
              .isEqualTo(least <= limit);
        }
      }
      double doubt = 0.15 + 0.4 * least;
      assertThat((double) nearest.de00(row))
          .as("seed %d, %s", seed, lab)
          .isCloseTo(least, within(doubt));
      error += Math.abs(nearest.de00(row) - least);
      sum += least;
    }
    assertThat(error / sum).as("seed %d: mean error", seed).isLessThan(0.02);
  }

  private static Lab color(Random random, double lightness, double spread) {
    return new Lab(
        random.nextDouble() * lightness,
        (random.nextDouble() * 2 - 1) * spread,
        (random.nextDouble() * 2 - 1) * spread);
  }

  @Test
  void of_paper_isAtNoDistanceAndNotCounted() {
    Census census =
        new CensusBuilder()
            .add(InkMixture.PAPER, 5, ObjectKind.FILL)
            .add(InkMixture.cmyk(0, 0, 0, 50), 3, ObjectKind.FILL)
            .build();
    NearestPatches nearest =
        NearestPatches.of(census, ColorCells.of(census, 1.5), List.of(new Lab(50, 0, 0)));
    assertThat(nearest.de00(0)).isZero();
    double apart = ColorDifference.de00(census.aim(1).lab(), new Lab(50, 0, 0));
    assertThat((double) nearest.de00(1)).isCloseTo(apart, within(0.01));
    assertThat(nearest.sums().distance()).isCloseTo(3 * apart, within(0.03));
  }
}
