package selvage.separation;

import selvage.separation.MeshReader.Vertex;

/** A tensor-product patch; a Coons patch is one whose inner points follow from its edges. */
final class MeshPatch {
  /**
   * Where each point of the stream goes: row and column of the 4 × 4 net (ISO 32000-2, table 84).
   */
  private static final int[][] ORDER = {
    {0, 0}, {0, 1}, {0, 2}, {0, 3}, {1, 3}, {2, 3}, {3, 3}, {3, 2}, {3, 1}, {3, 0}, {2, 0}, {1, 0},
    {1, 1}, {1, 2}, {2, 2}, {2, 1}
  };

  private static final int MOST_STEPS = 48;
  private static final double SAMPLES_PER_STEP = 4;

  private final double[][][] net = new double[4][4][];
  private final float[][] corners = new float[4][]; // at 00, 03, 33, 30

  /** Takes the triangles of a patch. */
  interface TriangleSink {
    void triangle(Vertex a, Vertex b, Vertex c);
  }

  private MeshPatch() {}

  /**
   * Reads a patch.
   *
   * @param before the patch that shares an edge; null where none does
   * @param flag which edge of it, 1 to 3
   */
  static MeshPatch read(MeshReader in, MeshPatch before, int flag, boolean tensor) {
    MeshPatch patch = new MeshPatch();
    int first = 0;
    int firstColor = 0;
    if (before != null) {
      // Edge 1 runs from 03 to 33, edge 2 from 33 to 30, edge 3 from 30 to 00.
      for (int i = 0; i < 4; i++) {
        int[] from = ORDER[(3 * flag + i) % 12];
        patch.net[ORDER[i][0]][ORDER[i][1]] = before.net[from[0]][from[1]];
      }
      patch.corners[0] = before.corners[flag];
      patch.corners[1] = before.corners[(flag + 1) % 4];
      first = 4;
      firstColor = 2;
    }
    for (int i = first; i < (tensor ? 16 : 12); i++) {
      patch.net[ORDER[i][0]][ORDER[i][1]] = in.point();
    }
    for (int i = firstColor; i < 4; i++) {
      patch.corners[i] = in.color();
    }
    if (!tensor) {
      patch.fillInner();
    }
    return patch;
  }

  private void fillInner() {
    net[1][1] = inner(0, 0, 3, 3);
    net[1][2] = inner(0, 3, 3, 0);
    net[2][1] = inner(3, 0, 0, 3);
    net[2][2] = inner(3, 3, 0, 0);
  }

  /** The inner point next to the corner (r, c); (s, d) is the opposite corner. */
  private double[] inner(int r, int c, int s, int d) {
    int r1 = r == 0 ? 1 : 2;
    int c1 = c == 0 ? 1 : 2;
    double[] point = new double[2];
    for (int k = 0; k < 2; k++) {
      point[k] =
          (-4 * net[r][c][k]
                  + 6 * (net[r][c1][k] + net[r1][c][k])
                  - 2 * (net[r][d][k] + net[s][c][k])
                  + 3 * (net[s][c1][k] + net[r1][d][k])
                  - net[s][d][k])
              / 9;
    }
    return point;
  }

  /** Cuts the patch into small quadrilaterals and those into triangles. */
  void draw(TriangleSink sink, MeshRaster raster) {
    int steps =
        (int)
            Math.max(
                4, Math.min(MOST_STEPS, Math.ceil(raster.sizeInSamples(net) / SAMPLES_PER_STEP)));
    Vertex[][] grid = new Vertex[steps + 1][steps + 1];
    for (int i = 0; i <= steps; i++) {
      for (int j = 0; j <= steps; j++) {
        grid[i][j] = at((double) i / steps, (double) j / steps);
      }
    }
    for (int i = 0; i < steps; i++) {
      for (int j = 0; j < steps; j++) {
        sink.triangle(grid[i][j], grid[i + 1][j], grid[i][j + 1]);
        sink.triangle(grid[i + 1][j], grid[i][j + 1], grid[i + 1][j + 1]);
      }
    }
  }

  private Vertex at(double u, double v) {
    double[] bu = bernstein(u);
    double[] bv = bernstein(v);
    double x = 0;
    double y = 0;
    for (int i = 0; i < 4; i++) {
      for (int j = 0; j < 4; j++) {
        x += bu[i] * bv[j] * net[i][j][0];
        y += bu[i] * bv[j] * net[i][j][1];
      }
    }
    float[] color = new float[corners[0].length];
    for (int c = 0; c < color.length; c++) {
      double start = (1 - v) * corners[0][c] + v * corners[1][c];
      double end = (1 - v) * corners[3][c] + v * corners[2][c];
      color[c] = (float) ((1 - u) * start + u * end);
    }
    return new Vertex(x, y, color);
  }

  private static double[] bernstein(double t) {
    double s = 1 - t;
    return new double[] {s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t};
  }
}
