package selvage.strip;

import java.util.Arrays;
import java.util.BitSet;
import org.apache.commons.math3.util.KthSelector;
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

  /** So many of them along each axis: 96 units in either direction, past which none lies. */
  private static final int CUBES = 32;

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
    double least = 0;
    if (cells.size() > FEW_CELLS) {
      double[] around = new double[cells.size()];
      Arrays.setAll(around, cells::weightAround);
      least = new KthSelector().select(around, null, around.length - MOST_CELLS);
    }
    for (int cell = 0; cell < cells.size(); cell++) {
      if (cells.weightAround(cell) >= least) {
        rows.set(cells.member(cell));
      }
    }
    addDensestOfCubes(cells, rows);
    return rows;
  }

  /** Adds of each large cube of colour the member of the cell around which it lies densest. */
  private static void addDensestOfCubes(ColorCells cells, BitSet rows) {
    int[] densest = new int[CUBES * CUBES * CUBES]; // cell + 1
    float[] places = cells.places();
    for (int cell = 0; cell < cells.size(); cell++) {
      int cube = 0;
      for (int axis = 0; axis < 3; axis++) {
        int at = (int) Math.floor(places[3 * cell + axis] / CUBE) + CUBES / 2;
        cube = cube * CUBES + Math.max(0, Math.min(CUBES - 1, at));
      }
      int known = densest[cube] - 1;
      if (known < 0 || cells.weightAround(cell) > cells.weightAround(known)) {
        densest[cube] = cell + 1;
      }
    }
    for (int cell : densest) {
      if (cell > 0) {
        rows.set(cells.member(cell - 1));
      }
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
