package selvage.separation;

import java.util.Arrays;

/**
 * Straight edges in sample coordinates, gathered from a path and turned into the {@link Region} of
 * samples whose centres lie inside. There is no anti-aliasing: a sample is in or out.
 *
 * <p>Each edge is stored as its crossings of the row centres, so that the cost is the sum of the
 * edges' heights within the window, whatever their length outside it.
 */
final class EdgeList {
  /** Beyond this a coordinate is held fast: no raster is as large, and sums stay exact. */
  private static final double FAR = 1e8;

  private final int left;
  private final int top;
  private final int right;
  private final int bottom;

  private int[] rows = new int[64];
  private int[] columns = new int[64]; // column << 2 | (1 + direction)
  private int size;

  /** A window of columns left..right-1 and rows top..bottom-1; nothing outside is kept. */
  EdgeList(int left, int top, int right, int bottom) {
    this.left = left;
    this.top = top;
    this.right = right;
    this.bottom = bottom;
  }

  /** Adds an edge; horizontal ones leave nothing. Coordinates that are no numbers are left out. */
  void add(double x0, double y0, double x1, double y1) {
    if (y0 == y1) {
      return;
    }
    int direction = 1;
    if (y0 > y1) {
      direction = -1;
      double swap = x0;
      x0 = x1;
      x1 = swap;
      swap = y0;
      y0 = y1;
      y1 = swap;
    }
    if (!(Math.abs(x0) <= FAR
        && Math.abs(x1) <= FAR
        && Math.abs(y0) <= FAR
        && Math.abs(y1) <= FAR)) {
      if (Double.isNaN(x0) || Double.isNaN(x1) || Double.isNaN(y0) || Double.isNaN(y1)) {
        return;
      }
      x0 = Math.max(-FAR, Math.min(FAR, x0));
      x1 = Math.max(-FAR, Math.min(FAR, x1));
      y0 = Math.max(-FAR, Math.min(FAR, y0));
      y1 = Math.max(-FAR, Math.min(FAR, y1));
    }
    int first = Math.max(top, (int) Math.ceil(y0 - 0.5));
    int last = Math.min(bottom, (int) Math.ceil(y1 - 0.5));
    if (first >= last) {
      return;
    }
    int needed = size + last - first;
    if (needed > rows.length) {
      int capacity = Math.max(needed, 2 * rows.length);
      rows = Arrays.copyOf(rows, capacity);
      columns = Arrays.copyOf(columns, capacity);
    }
    double slope = (x1 - x0) / (y1 - y0);
    for (int row = first; row < last; row++) {
      double x = x0 + (row + 0.5 - y0) * slope;
      int column = (int) Math.ceil(Math.max(left, Math.min(right, x)) - 0.5);
      rows[size] = row;
      columns[size++] = (Math.max(left, Math.min(right, column)) << 2) | (1 + direction);
    }
  }

  boolean isEmpty() {
    return size == 0;
  }

  /**
   * The samples inside the edges gathered so far.
   *
   * @param evenOdd the even-odd rule; otherwise the non-zero winding rule
   */
  Region toRegion(boolean evenOdd) {
    if (size == 0) {
      return Region.EMPTY;
    }
    int first = bottom;
    int last = top;
    for (int i = 0; i < size; i++) {
      first = Math.min(first, rows[i]);
      last = Math.max(last, rows[i]);
    }
    int height = last - first + 1;
    int[] start = new int[height + 1];
    for (int i = 0; i < size; i++) {
      start[rows[i] - first + 1]++;
    }
    for (int row = 0; row < height; row++) {
      start[row + 1] += start[row];
    }
    int[] sorted = new int[size];
    int[] fill = Arrays.copyOf(start, height);
    for (int i = 0; i < size; i++) {
      sorted[fill[rows[i] - first]++] = columns[i];
    }
    int[] rowStart = new int[height + 1];
    int[] spans = new int[size + 2];
    int n = 0;
    for (int row = 0; row < height; row++) {
      sort(sorted, start[row], start[row + 1]);
      n = spansOfRow(sorted, start[row], start[row + 1], evenOdd, spans, n, rowStart[row]);
      rowStart[row + 1] = n;
    }
    return n == 0 ? Region.EMPTY : new Region(first, rowStart, Arrays.copyOf(spans, n));
  }

  private static int spansOfRow(
      int[] crossings, int from, int to, boolean evenOdd, int[] spans, int n, int rowFrom) {
    int winding = 0;
    int begin = 0;
    for (int i = from; i < to; i++) {
      boolean inside = evenOdd ? (winding & 1) != 0 : winding != 0;
      int column = crossings[i] >> 2;
      winding += (crossings[i] & 3) - 1;
      boolean insideAfter = evenOdd ? (winding & 1) != 0 : winding != 0;
      if (!inside && insideAfter) {
        begin = column;
      } else if (inside && !insideAfter && column > begin) {
        if (n > rowFrom && spans[n - 1] == begin) {
          spans[n - 1] = column;
        } else {
          spans[n++] = begin;
          spans[n++] = column;
        }
      }
    }
    return n;
  }

  private static void sort(int[] values, int from, int to) {
    if (to - from > 24) {
      Arrays.sort(values, from, to);
      return;
    }
    for (int i = from + 1; i < to; i++) {
      int value = values[i];
      int j = i - 1;
      while (j >= from && values[j] > value) {
        values[j + 1] = values[j];
        j--;
      }
      values[j + 1] = value;
    }
  }
}
