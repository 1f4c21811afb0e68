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

  /**
   * By how many radii of a cell one colour may seem nearer to its mean than another, and yet be
   * farther from one of its rows.
   */
  private static final float MOST_TURN = 2.6f;

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
      boolean blue = EvenSpace.isBlue(cells.lab(cell, 1), cells.lab(cell, 2));
      int kept = rank(cell, blue, even, de00, list);
      shortlists[cell] = Arrays.copyOf(list, kept);
      float[] scale = new float[4 * kept];
      float least = Float.MAX_VALUE;
      for (int at = 0; at < kept; at++) {
        int i = list[at];
        System.arraycopy(places, 3 * i, scale, 4 * at, 3);
        float quotient = quotient(de00[i], (float) Math.sqrt(even[i]));
        scale[4 * at + 3] = quotient * quotient;
        least = Math.min(least, de00[i]);
      }
      scales[cell] = scale;
      if (least > REACH + DOUBT + (blue ? 1.8f : 1.4f) * cells.radius(cell)) {
        farDistance[cell] = least + cells.spread(cell) / (3 * least);
      }
    }
  }

  /**
   * Ranks the colours for one cell.
   *
   * @param even takes the square of each colour's E to the cell's mean
   * @param de00 takes ΔE00 to the mean, of the colours that are listed
   * @param list takes the colours that may be nearest
   * @return how many these are
   */
  private int rank(int cell, boolean blue, float[] even, float[] de00, short[] list) {
    int nearest = 0;
    for (int i = 0; i < count; i++) {
      even[i] = EvenSpace.squared(cells.places(), 3 * cell, places, 3 * i);
      nearest = even[i] < even[nearest] ? i : nearest;
    }
    float radius = cells.radius(cell);
    float doubt = 1 + (blue ? DOUBT_OF_RANK_OF_BLUES : DOUBT_OF_RANK);
    float farthest = ((float) Math.sqrt(even[nearest]) + 2 * radius) * (blue ? 3 : 1.6f);
    float lightness = cells.places()[3 * cell];
    float least = de00(cell, nearest);
    int size = 0;
    for (int i = 0; i < count; i++) {
      float most = (least + MOST_TURN * radius) * doubt;
      float lighter = Math.abs(lightness - places[3 * i]);
      if (even[i] <= farthest * farthest && lighter <= EvenSpace.MOST_STEP_OF_LIGHTNESS * most) {
        de00[i] = de00(cell, i);
        least = Math.min(least, de00[i]);
        list[size++] = (short) i;
      }
    }
    int kept = 0;
    for (int at = 0; at < size; at++) {
      if (de00[list[at]] <= (least + MOST_TURN * radius) * doubt) {
        list[kept++] = list[at];
      }
    }
    return kept;
  }

  private static float quotient(float de00, float distance) {
    if (distance < 0.02f) {
      return 1;
    }
    float quotient = de00 / distance;
    return distance < TOO_NEAR ? Math.max(0.9f, Math.min(1.2f, quotient)) : quotient;
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

  private float de00(int cell, int color) {
    int i = 4 * color;
    return cells.de00(cell, lab[i], lab[i + 1], lab[i + 2], lab[i + 3]);
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
