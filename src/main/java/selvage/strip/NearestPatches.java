package selvage.strip;

import java.util.Arrays;
import java.util.List;
import selvage.color.De00Kernel;
import selvage.color.Lab;
import selvage.survey.Census;

/**
 * For every inked row of a census, how far in ΔE00 the nearest of some colours is.
 *
 * <p>Within a cell, ΔE00 to a colour is nearly in proportion to the distance in {@link EvenSpace};
 * the quotient is found at the cell's mean, with CIEDE2000 itself. A row whose distance so found
 * comes near to one of the two that coverage is told for, {@value #STRICT} and {@value #REACH}, is
 * asked with CIEDE2000 itself, so that it falls on the right side; and so is every row of large
 * area. Rows of a cell that lies beyond reach altogether are not asked one by one for the sums: the
 * mean distance of points around a place, seen from afar, is that of the place and a third of their
 * mean square over it. A test holds all to the full search. (A photograph has 200,000 rows; two
 * differences for each would take longer than all of the choice.)
 */
final class NearestPatches {
  /** The narrower distance that coverage is told for. */
  static final float STRICT = 2;

  /** The wider distance that coverage is told for. */
  static final float REACH = 3;

  private static final int CELLS_A_TASK = 1024;

  /**
   * How far, in ΔE00, an estimate within reach may be from the truth. Of 1.5 million estimates
   * between 1.4 and 4, on fifteen pages, one in a thousand was farther.
   */
  private static final float DOUBT = 0.21f;

  /** The same among blues, where CIEDE2000 turns with the direction of a difference. */
  private static final float DOUBT_OF_BLUES = 0.75f;

  /** By what share the distances from a cell's mean may mislead on which colour is nearest. */
  private static final float DOUBT_OF_RANK = 0.1f;

  private static final float DOUBT_OF_RANK_OF_BLUES = 0.35f;

  /** Nearer than this to a colour, the proportion at the cell's mean says nothing. */
  private static final float TOO_NEAR = 0.5f;

  /** Rows that cover this share of the inked area are always asked with CIEDE2000. */
  private static final double LARGE = 0.0005;

  private final Census census;
  private final ColorCells cells;
  private final int count;
  private final float[] lab; // 4 a colour, chroma last
  private final float[] places;
  private final short[][] shortlists; // by cell: the colours that may be nearest
  private final float[][] scales; // by cell: of each of these its place, and (ΔE00 / E)²
  private final float[]
      farDistance; // by cell: the mean ΔE00 of its rows where all are beyond reach
  private final float[] distance; // by row; not told in cells beyond reach
  private final Sums sums;

  private NearestPatches(Census census, ColorCells cells, List<Lab> colors) {
    this.census = census;
    this.cells = cells;
    this.count = colors.size();
    this.lab = new float[4 * count];
    this.places = new float[3 * count];
    for (int i = 0; i < count; i++) {
      Lab color = colors.get(i);
      lab[4 * i] = (float) color.l();
      lab[4 * i + 1] = (float) color.a();
      lab[4 * i + 2] = (float) color.b();
      lab[4 * i + 3] = De00Kernel.chroma(lab[4 * i + 1], lab[4 * i + 2]);
      EvenSpace.place(lab[4 * i], lab[4 * i + 1], lab[4 * i + 2], places, 3 * i);
    }
    this.shortlists = new short[cells.size()][];
    this.scales = new float[cells.size()][];
    this.farDistance = new float[cells.size()];
    this.distance = new float[census.size()];
    Parallel.each(cells.size(), CELLS_A_TASK, this::rank);
    RowParts parts = RowParts.of(distance.length);
    double[][] ofParts = new double[parts.count()][3];
    parts.each((part, from, to) -> find(from, to, ofParts[part]));
    double[] all = RowParts.added(ofParts);
    for (int cell = 0; cell < farDistance.length; cell++) {
      all[2] += cells.weight(cell) * farDistance[cell];
    }
    this.sums = new Sums(all[0], all[1], all[2]);
  }

  /**
   * Searches.
   *
   * @param colors at least one
   */
  static NearestPatches of(Census census, ColorCells cells, List<Lab> colors) {
    return new NearestPatches(census, cells, colors);
  }

  /** For each cell, the colours that may be the nearest of any of its rows. */
  private void rank(int from, int to) {
    float[] even = new float[count];
    float[] de00 = new float[count];
    short[] list = new short[count];
    for (int cell = from; cell < to; cell++) {
      float nearestEven = Float.MAX_VALUE;
      for (int i = 0; i < count; i++) {
        even[i] = EvenSpace.squared(cells.places(), 3 * cell, places, 3 * i);
        nearestEven = Math.min(nearestEven, even[i]);
      }
      float radius = cells.radius(cell);
      boolean blue = EvenSpace.isBlue(cells.lab(cell, 1), cells.lab(cell, 2));
      float most = ((float) Math.sqrt(nearestEven) + 2 * radius) * (blue ? 3 : 1.6f);
      float least = Float.MAX_VALUE;
      int size = 0;
      for (int i = 0; i < count; i++) {
        if (even[i] <= most * most) {
          int at = 4 * i;
          de00[i] = cells.de00(cell, lab[at], lab[at + 1], lab[at + 2], lab[at + 3]);
          least = Math.min(least, de00[i]);
          list[size++] = (short) i;
        }
      }
      int kept = 0;
      for (int at = 0; at < size; at++) {
        int i = list[at];
        if (de00[i]
            <= (least + 2.6f * radius) * (1 + (blue ? DOUBT_OF_RANK_OF_BLUES : DOUBT_OF_RANK))) {
          list[kept++] = (short) i;
        }
      }
      shortlists[cell] = Arrays.copyOf(list, kept);
      float[] scale = new float[4 * kept];
      for (int at = 0; at < kept; at++) {
        float distance = (float) Math.sqrt(even[list[at]]);
        float quotient = distance < 0.02f ? 1 : de00[list[at]] / distance;
        if (distance < TOO_NEAR) {
          quotient = Math.max(0.9f, Math.min(1.2f, quotient));
        }
        System.arraycopy(places, 3 * list[at], scale, 4 * at, 3);
        scale[4 * at + 3] = quotient * quotient;
      }
      scales[cell] = scale;
      if (least > REACH + DOUBT + (blue ? 1.8f : 1.4f) * radius) {
        farDistance[cell] = least + cells.spread(cell) / (3 * least);
      }
    }
  }

  /** Finds the distances of some rows, and adds up: within 2, within 3, and the distances. */
  private void find(int from, int to, double[] sums) {
    float[] estimates = new float[count];
    double large = cells.total() * LARGE;
    double within2 = 0;
    double within3 = 0;
    double distances = 0;
    for (int row = from; row < to; row++) {
      int cell = cells.cellOf(row);
      if (cell >= 0 && farDistance[cell] == 0) {
        double samples = census.samples(row);
        float de00 = find(row, cell, samples >= large, estimates);
        distance[row] = de00;
        within2 += de00 <= STRICT ? samples : 0;
        within3 += de00 <= REACH ? samples : 0;
        distances += samples * de00;
      }
    }
    sums[0] = within2;
    sums[1] = within3;
    sums[2] = distances;
  }

  private float find(int row, int cell, boolean isLarge, float[] estimates) {
    float[] labs = census.labs();
    float estimate = (float) Math.sqrt(estimate(row, cell, estimates));
    float a = labs[3 * row + 1];
    float b = labs[3 * row + 2];
    float doubt = EvenSpace.isBlue(a, b) ? DOUBT_OF_BLUES : DOUBT;
    if (isLarge || Math.abs(estimate - STRICT) < doubt || Math.abs(estimate - REACH) < doubt) {
      float most = (estimate + 2 * doubt) * (estimate + 2 * doubt);
      return findAmong(shortlists[cell], estimates, most, labs[3 * row], a, b);
    }
    return estimate;
  }

  /** The least of the estimated squares of ΔE00, each of which is put into an array. */
  private float estimate(int row, int cell, float[] estimates) {
    float[] scale = scales[cell];
    float[] rowPlaces = cells.rowPlaces();
    float least = Float.MAX_VALUE;
    for (int at = 0; 4 * at < scale.length; at++) {
      float squared = scale[4 * at + 3] * EvenSpace.squared(rowPlaces, 3 * row, scale, 4 * at);
      estimates[at] = squared;
      least = Math.min(least, squared);
    }
    return least;
  }

  private float findAmong(short[] asked, float[] estimates, float most, float l, float a, float b) {
    float c = De00Kernel.chroma(a, b);
    float least = Float.MAX_VALUE;
    for (int at = 0; at < asked.length; at++) {
      if (estimates[at] <= most) {
        least = Math.min(least, de00(l, a, b, c, asked[at]));
      }
    }
    return least;
  }

  private float de00(float l, float a, float b, float c, int color) {
    int i = 4 * color;
    return De00Kernel.de00(l, a, b, c, lab[i], lab[i + 1], lab[i + 2], lab[i + 3]);
  }

  /**
   * What the rows come to.
   *
   * @param within2 samples within {@value #STRICT} of a colour
   * @param within3 samples within {@value #REACH}
   * @param distance Σ samples · ΔE00
   */
  record Sums(double within2, double within3, double distance) {}

  /** What all rows come to. */
  Sums sums() {
    return sums;
  }

  /** The ΔE00 of a row to the nearest colour; 0 for paper. */
  float de00(int row) {
    int cell = cells.cellOf(row);
    return cell < 0 || farDistance[cell] == 0
        ? distance[row]
        : find(row, cell, census.samples(row) >= cells.total() * LARGE, new float[count]);
  }
}
