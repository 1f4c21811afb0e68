package selvage.separation;

import java.awt.geom.AffineTransform;
import java.util.Arrays;

/** States of a mesh shading over a window of the page, painted triangle by triangle. */
final class MeshRaster implements RowSource {
  private final int left;
  private final int top;
  private final int right;
  private final int bottom;
  private final int[] cells;
  private final AffineTransform toSamples;
  private final LatticeStates states; // null for a shading with a function
  private final ParametricStates ramp;
  private final float[] range;
  private final float[] color;

  /**
   * An empty mesh.
   *
   * @param ramp of a shading with a function; otherwise null
   * @param range least and greatest value a component or of the parameter
   */
  MeshRaster(
      Region region,
      AffineTransform toSamples,
      ColorStates states,
      ParametricStates ramp,
      float[] range) {
    left = region.left();
    top = region.top();
    right = region.right();
    bottom = region.bottom();
    cells = new int[(right - left) * (bottom - top)];
    Arrays.fill(cells, NONE);
    this.toSamples = toSamples;
    this.states = ramp == null ? new LatticeStates(states, range) : null;
    this.ramp = ramp;
    this.range = range;
    color = new float[ramp == null ? states.space().components() : 1];
  }

  @Override
  public boolean hasAlpha() {
    return false;
  }

  @Override
  public void row(int y, int x0, int x1, int[] out, char[] alphas) {
    System.arraycopy(cells, (y - top) * (right - left) + x0 - left, out, 0, x1 - x0);
  }

  /**
   * Paints a triangle whose colour runs evenly between its corners.
   *
   * @return how many samples it covers
   */
  long triangle(MeshReader.Vertex a, MeshReader.Vertex b, MeshReader.Vertex c) {
    double[] p = {a.x, a.y, b.x, b.y, c.x, c.y};
    toSamples.transform(p, 0, p, 0, 3);
    double area = (p[2] - p[0]) * (p[5] - p[1]) - (p[4] - p[0]) * (p[3] - p[1]);
    if (!(Math.abs(area) > 1e-12) || !Double.isFinite(area)) {
      return 0;
    }
    long covered = 0;
    double low = Math.min(p[1], Math.min(p[3], p[5]));
    double high = Math.max(p[1], Math.max(p[3], p[5]));
    int first = (int) Math.max(top, Math.ceil(low - 0.5));
    int last = (int) Math.min(bottom, Math.ceil(high - 0.5));
    for (int y = first; y < last; y++) {
      double from = Double.POSITIVE_INFINITY;
      double to = Double.NEGATIVE_INFINITY;
      for (int i = 0; i < 3; i++) {
        int j = (i + 1) % 3;
        double x = crossing(p[2 * i], p[2 * i + 1], p[2 * j], p[2 * j + 1], y + 0.5);
        if (!Double.isNaN(x)) {
          from = Math.min(from, x);
          to = Math.max(to, x);
        }
      }
      int x0 = (int) Math.max(left, Math.ceil(from - 0.5));
      int x1 = (int) Math.min(right, Math.ceil(to - 0.5));
      covered += Math.max(0, x1 - x0);
      int at = (y - top) * (right - left) + x0 - left;
      for (int x = x0; x < x1; x++, at++) {
        double v = ((x + 0.5 - p[0]) * (p[5] - p[1]) - (p[4] - p[0]) * (y + 0.5 - p[1])) / area;
        double w = ((p[2] - p[0]) * (y + 0.5 - p[1]) - (x + 0.5 - p[0]) * (p[3] - p[1])) / area;
        cells[at] = state(a.color, b.color, c.color, v, w);
      }
    }
    return covered;
  }

  /** Where an edge crosses a row; not a number where it does not. The same for both its sides. */
  private static double crossing(double x0, double y0, double x1, double y1, double y) {
    if (y0 > y1 || (y0 == y1 && x0 > x1)) {
      return crossing(x1, y1, x0, y0, y);
    }
    return y >= y0 && y < y1 ? x0 + (y - y0) * (x1 - x0) / (y1 - y0) : Double.NaN;
  }

  private int state(float[] a, float[] b, float[] c, double v, double w) {
    for (int i = 0; i < color.length; i++) {
      color[i] = (float) (a[i] + v * (b[i] - a[i]) + w * (c[i] - a[i]));
    }
    if (ramp == null) {
      return states.of(color);
    }
    double span = range[1] - range[0];
    return ramp.at(span == 0 ? 0 : (color[0] - range[0]) / span);
  }

  /** The longer side of a net's bounds, in samples. */
  double sizeInSamples(double[][][] net) {
    double lowX = Double.POSITIVE_INFINITY;
    double highX = Double.NEGATIVE_INFINITY;
    double lowY = Double.POSITIVE_INFINITY;
    double highY = Double.NEGATIVE_INFINITY;
    double[] p = new double[2];
    for (double[][] line : net) {
      for (double[] point : line) {
        toSamples.transform(point, 0, p, 0, 1);
        lowX = Math.min(lowX, p[0]);
        highX = Math.max(highX, p[0]);
        lowY = Math.min(lowY, p[1]);
        highY = Math.max(highY, p[1]);
      }
    }
    return Math.max(highX - lowX, highY - lowY);
  }
}
