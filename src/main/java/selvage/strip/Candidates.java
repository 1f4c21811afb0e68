package selvage.strip;

import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import selvage.color.De00Kernel;
import selvage.separation.ObjectKind;
import selvage.survey.Census;

/**
 * The census rows that may become patches: the flat mixtures of greatest area, one member of each
 * cell of colour in the regions where the page's colours lie densest, or of every cell where there
 * are few, and one of each large cube of colour, so that no region is without any.
 */
final class Candidates {
  static final int FLAT_BITS =
      ObjectKind.FILL.bit() | ObjectKind.STROKE.bit() | ObjectKind.TEXT.bit();

  private static final int MOST_FLAT = 160;
  private static final int MOST_CELLS = 320;

  /** Up to so many cells of colour, each has a member among the candidates. */
  private static final int FEW_CELLS = 1000;

  /** The large cubes' edge, in units of about one ΔE00. */
  private static final float CUBE = 6;

  private Candidates() {}

  /** Whether fills, strokes or text made a row. */
  static boolean isFlat(Census census, int row) {
    return (census.kindBits(row) & FLAT_BITS) != 0;
  }

  /** The candidates' rows that a census has by itself. */
  static BitSet of(Census census, ColorCells cells) {
    BitSet rows = new BitSet();
    int flat = 0;
    for (int row = 0; row < census.size() && flat < MOST_FLAT; row++) {
      if (isFlat(census, row) && !census.isPaper(row)) {
        rows.set(row);
        flat++;
      }
    }
    double[] around = new double[cells.size()];
    for (int cell = 0; cell < around.length; cell++) {
      around[cell] = cells.weightAround(cell);
    }
    double least = 0;
    if (around.length > FEW_CELLS) {
      double[] sorted = around.clone();
      Arrays.sort(sorted);
      least = sorted[around.length - MOST_CELLS];
    }
    for (int cell = 0; cell < around.length; cell++) {
      if (around[cell] >= least) {
        rows.set(cells.member(cell));
      }
    }
    for (int cell : densestOfCubes(cells, around)) {
      rows.set(cells.member(cell));
    }
    return rows;
  }

  /** Of each large cube of colour, the cell around which it lies densest. */
  private static Collection<Integer> densestOfCubes(ColorCells cells, double[] around) {
    Map<Integer, Integer> densest = new HashMap<>();
    float[] places = cells.places();
    for (int cell = 0; cell < around.length; cell++) {
      int l = (int) Math.floor(places[3 * cell] / CUBE);
      int a = (int) Math.floor(places[3 * cell + 1] / CUBE);
      int b = (int) Math.floor(places[3 * cell + 2] / CUBE);
      densest.merge(
          (l * 64 + a) * 64 + b, cell, (one, other) -> around[other] > around[one] ? other : one);
    }
    return densest.values();
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
