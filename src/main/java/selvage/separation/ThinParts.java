package selvage.separation;

import java.util.Arrays;
import java.util.BitSet;

/**
 * The parts of a small shape that are thinner than a sample and fall between sample centres: a stem
 * of a letter, a line drawn as a filled rectangle. Each is painted one sample wide, so that nothing
 * that a job prints is missed, as scan conversion in output devices does (ISO 32000-2, 10.7.5).
 */
final class ThinParts {
  /** A shape wider and higher than this is no line and no letter of small type. */
  private static final double MOST_EXTENT = 48;

  private static final int MOST_EDGES = 4096;
  private static final int MOST_SAMPLES = 1 << 20;
  private static final long WORK_BETWEEN_LOOKS = 1 << 20;

  private final Deadline deadline;
  private long work;

  private double[] edges = new double[128]; // x0, y0, x1, y1
  private int size;
  private double left = Double.POSITIVE_INFINITY;
  private double right = Double.NEGATIVE_INFINITY;
  private double top = Double.POSITIVE_INFINITY;
  private double bottom = Double.NEGATIVE_INFINITY;
  private boolean tooMany;
  private double[] crossed = new double[16];
  private int[] directions = new int[16];

  /**
   * Parts of one shape.
   *
   * @param deadline looked at now and then
   */
  ThinParts(Deadline deadline) {
    this.deadline = deadline;
  }

  void add(double x0, double y0, double x1, double y1) {
    left = Math.min(left, Math.min(x0, x1));
    right = Math.max(right, Math.max(x0, x1));
    top = Math.min(top, Math.min(y0, y1));
    bottom = Math.max(bottom, Math.max(y0, y1));
    if (tooMany || size == 4 * MOST_EDGES) {
      tooMany = true;
      return;
    }
    if (size == edges.length) {
      edges = Arrays.copyOf(edges, 2 * size);
    }
    edges[size++] = x0;
    edges[size++] = y0;
    edges[size++] = x1;
    edges[size++] = y1;
  }

  /**
   * A region with the thin parts added.
   *
   * @param region the samples whose centres lie in the shape
   * @param window beyond which nothing is painted
   */
  Region addTo(Region region, PageGeometry.Window window, boolean evenOdd) {
    int x0 = (int) Math.max(window.left(), Math.floor(left));
    int x1 = (int) Math.min(window.right(), Math.floor(right) + 1);
    int y0 = (int) Math.max(window.top(), Math.floor(top));
    int y1 = (int) Math.min(window.bottom(), Math.floor(bottom) + 1);
    boolean small = Math.min(right - left, bottom - top) <= MOST_EXTENT;
    if (tooMany || size == 0 || !small || x0 >= x1 || y0 >= y1) {
      return region;
    }
    int width = x1 - x0;
    if ((long) width * (y1 - y0) > MOST_SAMPLES) {
      return region;
    }
    BitSet thin = new BitSet(width * (y1 - y0));
    for (int y = y0; y < y1; y++) {
      int n = crossings(y + 0.5, 1, evenOdd);
      for (int i = 0; i + 1 < n; i += 2) {
        int x = between(crossed[i], crossed[i + 1]);
        if (x >= x0 && x < x1) {
          thin.set((y - y0) * width + x - x0);
        }
      }
    }
    for (int x = x0; x < x1; x++) {
      int n = crossings(x + 0.5, 0, evenOdd);
      for (int i = 0; i + 1 < n; i += 2) {
        int y = between(crossed[i], crossed[i + 1]);
        if (y >= y0 && y < y1) {
          thin.set((y - y0) * width + x - x0);
        }
      }
    }
    return thin.isEmpty() ? region : union(region, thin, x0, y0, width, y1 - y0);
  }

  /** The sample that a stretch without a sample centre lies in; -1 where it holds a centre. */
  private static int between(double from, double to) {
    return Math.ceil(from - 0.5) < Math.ceil(to - 0.5) ? -1 : (int) Math.floor((from + to) / 2);
  }

  /**
   * Where the shape begins and ends along a line; pairs in {@code crossed}.
   *
   * @param line the coordinate of the line
   * @param axis 1 for a row, 0 for a column
   * @return the number of values
   */
  private int crossings(double line, int axis, boolean evenOdd) {
    int n = 0;
    for (int i = 0; i < size; i += 4) {
      double a = edges[i + axis];
      double b = edges[i + 2 + axis];
      if ((a <= line) == (b <= line)) {
        continue;
      }
      if (n == crossed.length) {
        crossed = Arrays.copyOf(crossed, 2 * n);
        directions = Arrays.copyOf(directions, 2 * n);
      }
      double p = edges[i + 1 - axis];
      double q = edges[i + 3 - axis];
      double value = p + (line - a) / (b - a) * (q - p);
      int direction = a < b ? 1 : -1;
      int k = n++;
      while (k > 0 && crossed[k - 1] > value) {
        crossed[k] = crossed[k - 1];
        directions[k] = directions[k - 1];
        k--;
      }
      crossed[k] = value;
      directions[k] = direction;
    }
    work += size + (long) n * n;
    if (work > WORK_BETWEEN_LOOKS) {
      work = 0;
      deadline.check();
    }
    int out = 0;
    int winding = 0;
    for (int i = 0; i < n; i++) {
      boolean inside = evenOdd ? (winding & 1) != 0 : winding != 0;
      winding += directions[i];
      boolean after = evenOdd ? (winding & 1) != 0 : winding != 0;
      if (inside != after) {
        crossed[out++] = crossed[i];
      }
    }
    return out;
  }

  private static Region union(Region region, BitSet thin, int x0, int y0, int width, int rows) {
    for (int y = Math.max(y0, region.top()); y < Math.min(y0 + rows, region.bottom()); y++) {
      for (int i = region.rowStart(y); i < region.rowEnd(y); i += 2) {
        int from = (y - y0) * width;
        thin.set(from + region.span(i) - x0, from + region.span(i + 1) - x0);
      }
    }
    int[] starts = new int[rows + 1];
    int[] spans = new int[64];
    int n = 0;
    for (int y = 0; y < rows; y++) {
      int end = (y + 1) * width;
      int from = thin.nextSetBit(y * width);
      while (from >= 0 && from < end) {
        int to = Math.min(end, thin.nextClearBit(from));
        if (n == spans.length) {
          spans = Arrays.copyOf(spans, 2 * n);
        }
        spans[n++] = x0 + from - y * width;
        spans[n++] = x0 + to - y * width;
        from = to < end ? thin.nextSetBit(to) : -1;
      }
      starts[y + 1] = n;
    }
    return new Region(y0, starts, Arrays.copyOf(spans, n));
  }
}
