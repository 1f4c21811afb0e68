package selvage.strip;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import selvage.ink.Tint;
import selvage.survey.Census;

/**
 * The inked rows of a census, grouped by colour and by the inks that make it.
 *
 * <p>Two mixtures of one colour and of other inks part when a device drifts: a grey of black alone
 * stays where one of cyan, magenta and yellow turns red. So how far a patch tells of a mixture is
 * asked in a space of colour and inks: the three coordinates of {@link EvenSpace}, about one ΔE00 a
 * unit, and one coordinate a colorant, {@value #FULL_TINT} units for 100 %.
 */
final class InkCells {
  /**
   * How far a tint of 100 % of an ink lies from none of it, beside what the colours differ. Found
   * with invented drifts (docs/decisions/0025): from 20 to 30 the verdicts agreed with the truth
   * equally often.
   */
  static final float FULL_TINT = 30;

  private static final int ROWS_A_TASK = 16_384;
  private static final float A_TINT_UNIT = FULL_TINT / Tint.FULL;

  private final char[] tints;
  private final float[] rowPlaces;
  private final int[] groupOfRow;
  private final InkPlaces places;
  private final int[] inksOf; // by group: a bit for each colorant that has some tint

  private InkCells(Census census, ColorCells cells) {
    this.tints = census.tints();
    this.rowPlaces = cells.rowPlaces();
    this.groupOfRow = new int[census.size()];
    int inks = census.colorants().size();
    int[] firstOfCell = new int[cells.size()]; // group + 1
    int[] nextOfGroup = new int[Math.max(16, 2 * cells.size())];
    int[] inksOfGroup = new int[nextOfGroup.length];
    int dimensions = 3 + inks;
    double[] sums = new double[nextOfGroup.length * (dimensions + 1)];
    int groups = 0;
    Parallel.each(groupOfRow.length, ROWS_A_TASK, this::noteInks);
    for (int row = 0; row < groupOfRow.length; row++) {
      int cell = cells.cellOf(row);
      if (cell < 0) {
        groupOfRow[row] = -1;
        continue;
      }
      int present = groupOfRow[row];
      int group = firstOfCell[cell] - 1;
      while (group >= 0 && inksOfGroup[group] != present) {
        group = nextOfGroup[group] - 1;
      }
      if (group < 0) {
        if (groups == nextOfGroup.length) {
          nextOfGroup = Arrays.copyOf(nextOfGroup, 2 * groups);
          inksOfGroup = Arrays.copyOf(inksOfGroup, 2 * groups);
          sums = Arrays.copyOf(sums, 2 * sums.length);
        }
        group = groups++;
        inksOfGroup[group] = present;
        nextOfGroup[group] = firstOfCell[cell];
        firstOfCell[cell] = group + 1;
      }
      groupOfRow[row] = group;
      double samples = census.samples(row);
      int at = group * (dimensions + 1);
      sums[at] += samples;
      for (int axis = 0; axis < 3; axis++) {
        sums[at + 1 + axis] += samples * rowPlaces[3 * row + axis];
      }
      for (int c = 0; c < inks; c++) {
        sums[at + 4 + c] += samples * tints[row * inks + c] * A_TINT_UNIT;
      }
    }
    this.inksOf = Arrays.copyOf(inksOfGroup, groups);
    this.places = InkPlaces.ofSums(dimensions, groups, sums);
  }

  /**
   * Groups a census.
   *
   * @param cells its colours; rows of one group are of one cell, and have the same inks
   */
  static InkCells of(Census census, ColorCells cells) {
    return new InkCells(census, cells);
  }

  private void noteInks(int from, int to) {
    int inks = tints.length / groupOfRow.length;
    for (int row = from; row < to; row++) {
      int bits = 0;
      for (int c = 0; c < inks; c++) {
        bits |= tints[row * inks + c] > 0 ? 1 << c : 0; // past 32 colorants two share a bit
      }
      groupOfRow[row] = bits;
    }
  }

  /** Where the groups' means lie, and the samples of each. */
  InkPlaces places() {
    return places;
  }

  /** The group of a row; -1 for paper. */
  int groupOf(int row) {
    return groupOfRow[row];
  }

  /** What a tint counts, in units of the space. */
  static float coordinate(int tintUnits) {
    return tintUnits * A_TINT_UNIT;
  }

  /**
   * The square of the distance between a row and a place.
   *
   * @param coordinates of many places, as in {@link InkPlaces}
   * @param place which of them
   */
  float squared(int row, float[] coordinates, int place) {
    int dimensions = places.dimensions();
    int inks = dimensions - 3;
    int at = place * dimensions;
    float sum = EvenSpace.squared(rowPlaces, 3 * row, coordinates, at);
    for (int c = 0; c < inks; c++) {
      float apart = tints[row * inks + c] * A_TINT_UNIT - coordinates[at + 3 + c];
      sum += apart * apart;
    }
    return sum;
  }

  /**
   * The same groups, those of the same inks put together where their means lie in one cube of
   * colour.
   *
   * @param step the cubes' edge, in units of about one ΔE00
   */
  InkPlaces coarser(float step) {
    Map<RoughKey, Integer> found = new HashMap<>();
    int dimensions = places.dimensions();
    double[] sums = new double[inksOf.length * (dimensions + 1)];
    for (int group = 0; group < inksOf.length; group++) {
      int at = group * dimensions;
      float[] mean = places.coordinates();
      RoughKey key =
          new RoughKey(
              (int) Math.floor(mean[at] / step),
              (int) Math.floor(mean[at + 1] / step),
              (int) Math.floor(mean[at + 2] / step),
              inksOf[group]);
      Integer known = found.putIfAbsent(key, found.size());
      int into = (known == null ? found.size() - 1 : known) * (dimensions + 1);
      double weight = places.weight(group);
      sums[into] += weight;
      for (int d = 0; d < dimensions; d++) {
        sums[into + 1 + d] += weight * mean[at + d];
      }
    }
    return InkPlaces.ofSums(dimensions, found.size(), sums);
  }

  private record RoughKey(int l, int a, int b, int inks) {}
}
