package selvage.strip;

import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.LongAdder;
import selvage.color.De00Kernel;
import selvage.color.Lab;
import selvage.survey.Census;

/**
 * How much of the inked area lies within a ΔE00 of any of some colours: exact for each row, and
 * quick where most of a page is out of reach.
 */
final class WithinReach {
  private static final int ROWS_A_TASK = 8192;
  private static final int STRIDE = 7;

  private WithinReach() {}

  /** Returns the share in percent. */
  static double percent(Census census, ColorCells cells, List<Lab> colors, float reach) {
    float[] places = new float[3 * colors.size()];
    for (int i = 0; i < colors.size(); i++) {
      Lab color = colors.get(i);
      EvenSpace.place((float) color.l(), (float) color.a(), (float) color.b(), places, 3 * i);
    }
    float[][] near = new float[cells.size()][]; // of each colour in reach: colour, chroma, place
    float[] list = new float[STRIDE * colors.size()];
    for (int cell = 0; cell < near.length; cell++) {
      float least = EvenSpace.leastQuotient(cells.lab(cell, 1), cells.lab(cell, 2));
      float radius = cells.radius(cell);
      float most = reach / least + radius;
      float lightness = cells.places()[3 * cell];
      int size = 0;
      for (int i = 0; i < colors.size(); i++) {
        if (Math.abs(lightness - places[3 * i]) <= EvenSpace.MOST_STEP_OF_LIGHTNESS * reach + radius
            && EvenSpace.squared(cells.places(), 3 * cell, places, 3 * i) <= most * most) {
          Lab color = colors.get(i);
          list[size] = (float) color.l();
          list[size + 1] = (float) color.a();
          list[size + 2] = (float) color.b();
          list[size + 3] = De00Kernel.chroma(list[size + 1], list[size + 2]);
          System.arraycopy(places, 3 * i, list, size + 4, 3);
          size += STRIDE;
        }
      }
      near[cell] = size == 0 ? null : Arrays.copyOf(list, size);
    }
    LongAdder within = new LongAdder();
    Parallel.each(
        census.size(),
        ROWS_A_TASK,
        (from, to) -> within.add(count(census, cells, near, reach, from, to)));
    return 100 * within.sum() / cells.total();
  }

  private static long count(
      Census census, ColorCells cells, float[][] near, float reach, int from, int to) {
    float[] labs = census.labs();
    float[] places = cells.rowPlaces();
    long within = 0;
    for (int row = from; row < to; row++) {
      int cell = cells.cellOf(row);
      if (cell < 0 || near[cell] == null) {
        continue;
      }
      float[] asked = near[cell];
      float l = labs[3 * row];
      float a = labs[3 * row + 1];
      float b = labs[3 * row + 2];
      float c = De00Kernel.chroma(a, b);
      float most = reach / EvenSpace.leastQuotient(a, b);
      for (int i = 0; i < asked.length; i += STRIDE) {
        if (Math.abs(places[3 * row] - asked[i + 4]) <= EvenSpace.MOST_STEP_OF_LIGHTNESS * reach
            && EvenSpace.squared(places, 3 * row, asked, i + 4) <= most * most
            && De00Kernel.de00(l, a, b, c, asked[i], asked[i + 1], asked[i + 2], asked[i + 3])
                <= reach) {
          within += census.samples(row);
          break;
        }
      }
    }
    return within;
  }
}
