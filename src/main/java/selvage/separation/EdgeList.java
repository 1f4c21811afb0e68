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

  private static final int WINDING_BITS = 13;
  private static final int WINDING_MASK = (1 << WINDING_BITS) - 1;
  private static final int NO_WINDING = 1 << (WINDING_BITS - 1);

  /** Crossings beyond which those of the same place are made one. */
  private static final int MERGE_AT = 4_000_000;

  private static final int EDGES_BETWEEN_LOOKS = 1 << 16;

  private final Deadline deadline;

  private final int left;
  private final int top;
  private final int right;
  private final int bottom;

  private int[] rows = new int[64];
  private int[] columns = new int[64]; // column << WINDING_BITS | (NO_WINDING + winding)
  private int size;
  private int mergeAt = MERGE_AT;
  private int edges;

  /**
   * A window of columns left..right-1 and rows top..bottom-1; nothing outside is kept.
   *
   * @param deadline looked at now and then while edges come in
   */
  EdgeList(int left, int top, int right, int bottom, Deadline deadline) {
    this.left = left;
    this.top = top;
    this.right = right;
    this.bottom = bottom;
    this.deadline = deadline;
  }

  /** Adds an edge; horizontal ones leave nothing. Coordinates that are no numbers are left out. */
  void add(double x0, double y0, double x1, double y1) {
    if (++edges % EDGES_BETWEEN_LOOKS == 0) {
      deadline.check();
    }
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
    if (size + last - first > rows.length) {
      makeRoom(last - first);
    }
    double slope = (x1 - x0) / (y1 - y0);
    for (int row = first; row < last; row++) {
      double x = x0 + (row + 0.5 - y0) * slope;
      int column = (int) Math.ceil(Math.max(left, Math.min(right, x)) - 0.5);
      rows[size] = row;
      columns[size++] =
          (Math.max(left, Math.min(right, column)) << WINDING_BITS) + NO_WINDING + direction;
    }
  }

  private void makeRoom(int more) {
    if (size >= mergeAt) {
      deadline.check();
      merge();
      mergeAt = Math.max(MERGE_AT, 2 * size);
    }
    if (size + more > rows.length) {
      int capacity = Math.max(size + more, 2 * rows.length);
      rows = Arrays.copyOf(rows, capacity);
      columns = Arrays.copyOf(columns, capacity);
    }
  }

  /**
   * Makes one crossing of all at the same place, with the sum of their windings, so that there are
   * never many more than the window has samples. A sum beyond the field is held at its end, with
   * its parity.
   */
  private void merge() {
    int first = firstRow();
    int height = lastRow() - first + 1;
    int[] start = starts(first, height);
    int[] sorted = byRow(first, start);
    int n = 0;
    for (int row = 0; row < height; row++) {
      Arrays.sort(sorted, start[row], start[row + 1]);
      for (int i = start[row]; i < start[row + 1]; ) {
        int column = sorted[i] >> WINDING_BITS;
        long winding = 0;
        for (; i < start[row + 1] && sorted[i] >> WINDING_BITS == column; i++) {
          winding += (sorted[i] & WINDING_MASK) - NO_WINDING;
        }
        if (Math.abs(winding) >= NO_WINDING) {
          winding = Long.signum(winding) * (NO_WINDING - 2 + Math.abs(winding) % 2);
        }
        if (winding != 0) {
          rows[n] = first + row;
          columns[n++] = (column << WINDING_BITS) + NO_WINDING + (int) winding;
        }
      }
    }
    size = n;
  }

  private int firstRow() {
    int first = bottom;
    for (int i = 0; i < size; i++) {
      first = Math.min(first, rows[i]);
    }
    return first;
  }

  private int lastRow() {
    int last = top;
    for (int i = 0; i < size; i++) {
      last = Math.max(last, rows[i]);
    }
    return last;
  }

  /** Where each row's crossings begin in {@link #byRow}; one more than rows. */
  private int[] starts(int first, int height) {
    int[] start = new int[height + 1];
    for (int i = 0; i < size; i++) {
      start[rows[i] - first + 1]++;
    }
    for (int row = 0; row < height; row++) {
      start[row + 1] += start[row];
    }
    return start;
  }

  /** The crossings row by row; within a row in the order in which they came. */
  private int[] byRow(int first, int[] start) {
    int[] sorted = new int[size];
    int[] fill = start.clone();
    for (int i = 0; i < size; i++) {
      sorted[fill[rows[i] - first]++] = columns[i];
    }
    return sorted;
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
    int first = firstRow();
    int height = lastRow() - first + 1;
    int[] start = starts(first, height);
    int[] sorted = byRow(first, start);
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
      int column = crossings[i] >> WINDING_BITS;
      winding += (crossings[i] & WINDING_MASK) - NO_WINDING;
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
