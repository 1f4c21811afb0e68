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
   * A row that lies d from its cell's mean may be nearer to a candidate than the mean is by d times
   * this, and a trifle. ΔE00 keeps the triangle inequality only nearly, since its weights change
   * with the pair's mean colour; they change by less than this factor. A test holds the result to
   * the full search.
   */
  private static final float STRETCH = 3f;

  private static final float TRIFLE = 0.2f;

  private final int[] nearest;
  private final float[] distance;

  /** The colours in order of their distance from a cell's mean. */
  private static final class Shortlist {
    private final int[] color;
    private final float[] distance;

    private Shortlist(int[] color, float[] distance) {
      this.color = color;
      this.distance = distance;
    }

    static Shortlist of(ColorCells cells, int cell, float[] l, float[] a, float[] b, float[] c) {
      int[] color = new int[l.length];
      float[] distance = new float[l.length];
      for (int i = 0; i < l.length; i++) {
        float de00 = cells.de00(cell, l[i], a[i], b[i], c[i]);
        int at = i;
        for (; at > 0 && distance[at - 1] > de00; at--) {
          distance[at] = distance[at - 1];
          color[at] = color[at - 1];
        }
        distance[at] = de00;
        color[at] = i;
      }
      return new Shortlist(color, distance);
    }
  }

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
    Shortlist[] shortlists = new Shortlist[cells.size()];
    int[] nearest = new int[census.size()];
    float[] distance = new float[census.size()];
    for (int row = 0; row < census.size(); row++) {
      int cell = cells.cellOf(row);
      if (cell < 0) {
        nearest[row] = -1;
        continue;
      }
      if (shortlists[cell] == null) {
        shortlists[cell] = Shortlist.of(cells, cell, l, a, b, c);
      }
      Shortlist shortlist = shortlists[cell];
      float rowL = census.lab(row, 0);
      float rowA = census.lab(row, 1);
      float rowB = census.lab(row, 2);
      float rowC = De00Kernel.chroma(rowA, rowB);
      float nearer = STRETCH * cells.de00(cell, rowL, rowA, rowB, rowC) + TRIFLE;
      float least = Float.MAX_VALUE;
      int best = -1;
      for (int rank = 0; rank < count && shortlist.distance[rank] - nearer <= least; rank++) {
        int i = shortlist.color[rank];
        float de00 = De00Kernel.de00(rowL, rowA, rowB, rowC, l[i], a[i], b[i], c[i]);
        if (de00 < least || (de00 == least && i < best)) {
          least = de00;
          best = i;
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
