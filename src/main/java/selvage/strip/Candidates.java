package selvage.strip;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import selvage.color.De00Kernel;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

/**
 * The census rows that may become patches: the flat mixtures of greatest area, and of the rest one
 * member for each region of colour, the one nearest to the region's mean.
 */
final class Candidates {
  static final int FLAT_BITS =
      ObjectKind.FILL.bit() | ObjectKind.STROKE.bit() | ObjectKind.TEXT.bit();

  private static final int MOST_FLAT = 160;
  private static final int MOST_REGIONS = 400;
  private static final double REGION_STEP = 2.5;

  private Candidates() {}

  /** Whether fills, strokes or text made a row. */
  static boolean isFlat(Census census, int row) {
    return (census.kindBits(row) & FLAT_BITS) != 0;
  }

  /**
   * The candidates' rows, rising; the forced ones always among them.
   *
   * @param forced rows that are taken anyway
   */
  static int[] of(Census census, List<Integer> forced) {
    BitSet rows = new BitSet();
    forced.forEach(rows::set);
    int flat = 0;
    for (int row = 0; row < census.size() && flat < MOST_FLAT; row++) {
      if (isFlat(census, row) && !census.isPaper(row)) {
        rows.set(row);
        flat++;
      }
    }
    addRegions(census, rows);
    return rows.stream().toArray();
  }

  private static void addRegions(Census census, BitSet rows) {
    ColorCells regions = ColorCells.of(census, REGION_STEP);
    int[] member = new int[regions.size()];
    float[] least = new float[regions.size()];
    java.util.Arrays.fill(least, Float.MAX_VALUE);
    for (int row = 0; row < census.size(); row++) {
      int region = regions.cellOf(row);
      if (region < 0) {
        continue;
      }
      float l = census.lab(row, 0) - regions.lab(region, 0);
      float a = census.lab(row, 1) - regions.lab(region, 1);
      float b = census.lab(row, 2) - regions.lab(region, 2);
      float squared = l * l + a * a + b * b;
      if (squared < least[region]) {
        least[region] = squared;
        member[region] = row;
      }
    }
    List<Integer> order = new ArrayList<>();
    for (int region = 0; region < regions.size(); region++) {
      order.add(region);
    }
    order.sort(Comparator.<Integer>comparingDouble(region -> -regions.weight(region)));
    for (int i = 0; i < Math.min(MOST_REGIONS, order.size()); i++) {
      rows.set(member[order.get(i)]);
    }
  }

  /** ΔE00 between two rows. */
  static float de00(Census census, int one, int other) {
    float a1 = census.lab(one, 1);
    float b1 = census.lab(one, 2);
    float a2 = census.lab(other, 1);
    float b2 = census.lab(other, 2);
    return De00Kernel.de00(
        census.lab(one, 0),
        a1,
        b1,
        De00Kernel.chroma(a1, b1),
        census.lab(other, 0),
        a2,
        b2,
        De00Kernel.chroma(a2, b2));
  }
}
