package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import selvage.color.ColorDifference;
import selvage.color.Lab;

class PatchOrderTest {
  private static final Lab PAPER = new Lab(95, 0, -2);

  @RepeatedTest(5)
  void arrange_variedColors_neighboursDifferAndNoRowReadsTheSameBackwards(RepetitionInfo info) {
    Random random = new Random(info.getCurrentRepetition());
    List<Lab> colors = new ArrayList<>(List.of(PAPER, PAPER, PAPER));
    for (int i = 0; i < 42; i++) {
      colors.add(
          new Lab(
              20 + 70 * random.nextDouble(),
              80 * (random.nextDouble() - 0.5),
              90 * (random.nextDouble() - 0.5)));
    }
    List<List<Integer>> rows = PatchOrder.arrange(colors, 3);
    List<Integer> all = new ArrayList<>();
    for (List<Integer> row : rows) {
      all.addAll(row);
      assertThat(row).hasSize(15);
      assertThat(row.stream().filter(i -> i < 3)).hasSize(1);
      double reversal = 0;
      for (int i = 0; i < row.size(); i++) {
        Lab here = colors.get(row.get(i));
        if (i > 0) {
          assertThat(ColorDifference.de76(colors.get(row.get(i - 1)), here)).isGreaterThan(20);
        }
        Lab mirrored = colors.get(row.get(row.size() - 1 - i));
        reversal = Math.max(reversal, ColorDifference.de76(here, mirrored));
      }
      assertThat(reversal).isGreaterThan(PatchOrder.LEAST_REVERSAL);
    }
    assertThat(all).doesNotHaveDuplicates().hasSize(45);
  }

  @Test
  void arrange_twoTwinsAndPaper_paperIsNotInTheMiddle() {
    Lab red = new Lab(50, 60, 30);
    Lab twin = new Lab(50.5, 60, 30);
    List<Integer> row = PatchOrder.arrange(List.of(PAPER, red, twin), 1).get(0);
    assertThat(row.get(1)).isNotZero();
  }

  private static double weakest(List<List<Integer>> rows, List<Lab> colors) {
    double weakest = Double.POSITIVE_INFINITY;
    for (List<Integer> row : rows) {
      for (int i = 1; i < row.size(); i++) {
        weakest =
            Math.min(
                weakest, ColorDifference.de76(colors.get(row.get(i - 1)), colors.get(row.get(i))));
      }
    }
    return weakest;
  }

  @RepeatedTest(5)
  void arrange_fewColors_comesNearToTheBestOfAllOrders(RepetitionInfo info) {
    Random random = new Random(100 + info.getCurrentRepetition());
    List<Lab> colors = new ArrayList<>(List.of(PAPER));
    for (int i = 0; i < 7; i++) {
      colors.add(
          new Lab(
              20 + 70 * random.nextDouble(),
              80 * (random.nextDouble() - 0.5),
              90 * (random.nextDouble() - 0.5)));
    }
    double best = best(new ArrayList<>(), colors);
    double found = weakest(PatchOrder.arrange(colors, 1), colors);
    assertThat(found).isBetween(0.9 * best, best);
    assertThat(PatchOrder.bound(colors, 1)).isGreaterThanOrEqualTo(best);
  }

  /** The strongest weakest pair over all orders, by trying each. */
  private static double best(List<Integer> begun, List<Lab> colors) {
    if (begun.size() == colors.size()) {
      return weakest(List.of(begun), colors);
    }
    double best = 0;
    for (int i = 0; i < colors.size(); i++) {
      if (!begun.contains(i)) {
        begun.add(i);
        best = Math.max(best, best(begun, colors));
        begun.remove(begun.size() - 1);
      }
    }
    return best;
  }

  @Test
  void bound_threeColours_isThePairsThatTheMiddleHas() {
    // One row of three: each order has two of the three pairs, 20, 40 and 60 apart.
    List<Lab> colors = List.of(new Lab(50, 0, 0), new Lab(50, 20, 0), new Lab(50, 60, 0));
    assertThat(PatchOrder.bound(colors, 1)).isEqualTo(40);
    assertThat(weakest(PatchOrder.arrange(colors, 1), colors)).isEqualTo(40);
    assertThat(PatchOrder.bound(colors.subList(0, 1), 1)).isInfinite();
  }
}
