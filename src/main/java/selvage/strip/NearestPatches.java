package selvage.strip;

import java.util.List;
import selvage.color.De00Kernel;
import selvage.color.Lab;
import selvage.survey.Census;

/**
 * For every inked row of a census, which of some colours is nearest in ΔE00 and how far. Exact for
 * each row: a cell's colours only decide which candidates a row need not ask.
 */
final class NearestPatches {
  /**
   * How much nearer than its cell's mean a row may lie to a candidate, in ΔE00, beyond what the
   * cell's best candidate has. Twice the widest cell (step 1.5) with room to spare, since ΔE00
   * keeps the triangle inequality only nearly; a test holds the result to the full search.
   */
  private static final float MARGIN = 8f;

  private final int[] nearest;
  private final float[] distance;

  private NearestPatches(int[] nearest, float[] distance) {
    this.nearest = nearest;
    this.distance = distance;
  }

  /**
   * Searches.
   *
   * @param colors at least one
   */
  static NearestPatches of(Census census, ColorCells cells, List<Lab> colors) {
    int count = colors.size();
    float[] l = new float[count];
    float[] a = new float[count];
    float[] b = new float[count];
    float[] c = new float[count];
    for (int i = 0; i < count; i++) {
      l[i] = (float) colors.get(i).l();
      a[i] = (float) colors.get(i).a();
      b[i] = (float) colors.get(i).b();
      c[i] = De00Kernel.chroma(a[i], b[i]);
    }
    int[][] candidates = new int[cells.size()][];
    float[] toCell = new float[count];
    int[] kept = new int[count];
    int[] nearest = new int[census.size()];
    float[] distance = new float[census.size()];
    for (int row = 0; row < census.size(); row++) {
      int cell = cells.cellOf(row);
      if (cell < 0) {
        nearest[row] = -1;
        continue;
      }
      if (candidates[cell] == null) {
        float least = Float.MAX_VALUE;
        for (int i = 0; i < count; i++) {
          toCell[i] = cells.de00(cell, l[i], a[i], b[i], c[i]);
          least = Math.min(least, toCell[i]);
        }
        int size = 0;
        for (int i = 0; i < count; i++) {
          if (toCell[i] <= least + MARGIN) {
            kept[size++] = i;
          }
        }
        candidates[cell] = java.util.Arrays.copyOf(kept, size);
      }
      float rowL = census.lab(row, 0);
      float rowA = census.lab(row, 1);
      float rowB = census.lab(row, 2);
      float rowC = De00Kernel.chroma(rowA, rowB);
      float least = Float.MAX_VALUE;
      int best = -1;
      for (int i : candidates[cell]) {
        if (De00Kernel.atLeast(rowL, l[i]) < least) {
          float de00 = De00Kernel.de00(rowL, rowA, rowB, rowC, l[i], a[i], b[i], c[i]);
          if (de00 < least) {
            least = de00;
            best = i;
          }
        }
      }
      nearest[row] = best;
      distance[row] = least;
    }
    return new NearestPatches(nearest, distance);
  }

  /** The index of the nearest colour of a row, the first of equals; -1 for paper. */
  int nearest(int row) {
    return nearest[row];
  }

  /** Its ΔE00; 0 for paper. */
  float de00(int row) {
    return distance[row];
  }
}
