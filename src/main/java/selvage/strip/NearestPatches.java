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
 * area. A test holds all to the full search. (A photograph has 200,000 rows; two differences for
 * each would take longer than all of the choice.)
 */
final class NearestPatches {
  /** The narrower distance that coverage is told for. */
  static final float STRICT = 2;

  /** The wider distance that coverage is told for. */
  static final float REACH = 3;

  private static final int CHUNK = 8192;

  /** How wrong the proportion may be, as a share of the distance. */
  private static final float DOUBT = 0.1f;

  /** The same among blues, where CIEDE2000 turns with the direction of a difference. */
  private static final float DOUBT_OF_BLUES = 0.35f;

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
  private final float[] distance;

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
    this.distance = new float[census.size()];
  }

  /**
   * Searches.
   *
   * @param colors at least one
   */
  static NearestPatches of(Census census, ColorCells cells, List<Lab> colors) {
    NearestPatches search = new NearestPatches(census, cells, colors);
    Parallel.each(cells.size(), CHUNK / 8, search::rank);
    Parallel.each(census.size(), CHUNK, search::find);
    return search;
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
        if (de00[i] <= (least + 2.6f * radius) * (1 + (blue ? DOUBT_OF_BLUES : DOUBT))) {
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
    }
  }

  private void find(int from, int to) {
    float[] labs = census.labs();
    float[] rowPlaces = cells.rowPlaces();
    float[] estimates = new float[count];
    double large = cells.total() * LARGE;
    for (int row = from; row < to; row++) {
      int cell = cells.cellOf(row);
      if (cell < 0) {
        continue;
      }
      short[] asked = shortlists[cell];
      float[] scale = scales[cell];
      float least = Float.MAX_VALUE;
      for (int at = 0; 4 * at < scale.length; at++) {
        float squared = scale[4 * at + 3] * EvenSpace.squared(rowPlaces, 3 * row, scale, 4 * at);
        estimates[at] = squared;
        least = Math.min(least, squared);
      }
      float estimate = (float) Math.sqrt(least);
      distance[row] = estimate;
      float a = labs[3 * row + 1];
      float b = labs[3 * row + 2];
      float doubt = EvenSpace.isBlue(a, b) ? DOUBT_OF_BLUES : DOUBT;
      if (census.samples(row) >= large
          || Math.abs(estimate - STRICT) < doubt * STRICT
          || Math.abs(estimate - REACH) < doubt * REACH) {
        float most = (estimate * (1 + 2 * doubt)) * (estimate * (1 + 2 * doubt));
        findAmong(row, asked, estimates, most, labs[3 * row], a, b);
      }
    }
  }

  private void findAmong(
      int row, short[] asked, float[] estimates, float most, float l, float a, float b) {
    float c = De00Kernel.chroma(a, b);
    float least = Float.MAX_VALUE;
    for (int at = 0; at < asked.length; at++) {
      if (estimates[at] <= most) {
        float de00 = de00(l, a, b, c, asked[at]);
        if (de00 < least) {
          least = de00;
          distance[row] = de00;
        }
      }
    }
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

  /** Sums up. */
  Sums sums() {
    RowParts parts = RowParts.of(distance.length);
    double[][] ofParts = new double[parts.count()][3];
    parts.each((part, from, to) -> sum(from, to, ofParts[part]));
    double[] all = RowParts.added(ofParts);
    return new Sums(all[0], all[1], all[2]);
  }

  /** Adds up some rows: within 2, within 3, and the distances. */
  private void sum(int from, int to, double[] sums) {
    double within2 = 0;
    double within3 = 0;
    double distances = 0;
    for (int row = from; row < to; row++) {
      if (cells.cellOf(row) >= 0) {
        double samples = census.samples(row);
        float de00 = distance[row];
        within2 += de00 <= STRICT ? samples : 0;
        within3 += de00 <= REACH ? samples : 0;
        distances += samples * de00;
      }
    }
    sums[0] = within2;
    sums[1] = within3;
    sums[2] = distances;
  }

  /** The ΔE00 of a row to the nearest colour; 0 for paper. */
  float de00(int row) {
    return distance[row];
  }
}
