package selvage.separation;

import java.util.Arrays;

/**
 * An immutable set of samples of a raster, held as spans a row. Rows and columns count from the
 * raster's upper left corner; a span's end is exclusive.
 */
final class Region {
  static final Region EMPTY = new Region(0, new int[] {0}, new int[0]);

  private final int top;
  private final int[] rowStart; // index into spans of each row's first value; one more than rows
  private final int[] spans; // start, end, start, end …

  Region(int top, int[] rowStart, int[] spans) {
    this.top = top;
    this.rowStart = rowStart;
    this.spans = spans;
  }

  /** The samples of a rectangle; ends are exclusive. */
  static Region ofRectangle(int left, int top, int right, int bottom) {
    if (right <= left || bottom <= top) {
      return EMPTY;
    }
    int rows = bottom - top;
    int[] rowStart = new int[rows + 1];
    int[] spans = new int[2 * rows];
    for (int row = 0; row < rows; row++) {
      rowStart[row + 1] = 2 * row + 2;
      spans[2 * row] = left;
      spans[2 * row + 1] = right;
    }
    return new Region(top, rowStart, spans);
  }

  int top() {
    return top;
  }

  /** The row after the last. */
  int bottom() {
    return top + rowStart.length - 1;
  }

  boolean isEmpty() {
    return spans.length == 0;
  }

  /** Index of a row's first span value in {@link #span}; the row must lie in top..bottom-1. */
  int rowStart(int row) {
    return rowStart[row - top];
  }

  /** Index after a row's last span value. */
  int rowEnd(int row) {
    return rowStart[row - top + 1];
  }

  int span(int index) {
    return spans[index];
  }

  /** The least column of any span; 0 where empty. */
  int left() {
    int left = Integer.MAX_VALUE;
    for (int row = 0; row + 1 < rowStart.length; row++) {
      if (rowStart[row] < rowStart[row + 1]) {
        left = Math.min(left, spans[rowStart[row]]);
      }
    }
    return isEmpty() ? 0 : left;
  }

  /** The column after the greatest of any span; 0 where empty. */
  int right() {
    int right = Integer.MIN_VALUE;
    for (int row = 0; row + 1 < rowStart.length; row++) {
      if (rowStart[row] < rowStart[row + 1]) {
        right = Math.max(right, spans[rowStart[row + 1] - 1]);
      }
    }
    return isEmpty() ? 0 : right;
  }

  /** The smallest window that holds this region and another. */
  PageGeometry.Window boundsWith(Region other) {
    if (isEmpty() || other.isEmpty()) {
      Region one = isEmpty() ? other : this;
      return new PageGeometry.Window(one.left(), one.top, one.right(), one.bottom());
    }
    return new PageGeometry.Window(
        Math.min(left(), other.left()),
        Math.min(top, other.top),
        Math.max(right(), other.right()),
        Math.max(bottom(), other.bottom()));
  }

  /** How many samples the region holds. */
  long count() {
    long count = 0;
    for (int i = 0; i < spans.length; i += 2) {
      count += spans[i + 1] - spans[i];
    }
    return count;
  }

  /** How many numbers hold it. */
  int length() {
    return rowStart.length + spans.length;
  }

  boolean contains(int x, int y) {
    if (y < top || y >= bottom()) {
      return false;
    }
    for (int i = rowStart(y); i < rowEnd(y); i += 2) {
      if (x >= spans[i] && x < spans[i + 1]) {
        return true;
      }
    }
    return false;
  }

  /** The samples that do not lie in another region. */
  Region without(Region other) {
    if (intersect(other).isEmpty()) {
      return this;
    }
    int[] starts = new int[rowStart.length];
    int[] out = new int[Math.max(16, spans.length + other.spans.length)];
    int n = 0;
    for (int row = top; row < bottom(); row++) {
      boolean shared = row >= other.top && row < other.bottom();
      int b = shared ? other.rowStart(row) : 0;
      int bEnd = shared ? other.rowEnd(row) : 0;
      for (int a = rowStart(row); a < rowEnd(row); a += 2) {
        int start = spans[a];
        while (b < bEnd && other.spans[b + 1] <= start) {
          b += 2;
        }
        for (int i = b; i < bEnd && other.spans[i] < spans[a + 1]; i += 2) {
          if (start < other.spans[i]) {
            out[n++] = start;
            out[n++] = other.spans[i];
          }
          start = other.spans[i + 1];
        }
        if (start < spans[a + 1]) {
          out[n++] = start;
          out[n++] = spans[a + 1];
        }
      }
      starts[row - top + 1] = n;
    }
    return n == 0 ? EMPTY : new Region(top, starts, Arrays.copyOf(out, n));
  }

  /** The samples that lie in both regions. */
  Region intersect(Region other) {
    int first = Math.max(top, other.top);
    int last = Math.min(bottom(), other.bottom());
    if (isEmpty() || other.isEmpty() || first >= last) {
      return EMPTY;
    }
    int[] starts = new int[last - first + 1];
    int[] out = new int[Math.max(16, Math.min(spans.length, other.spans.length))];
    int n = 0;
    for (int row = first; row < last; row++) {
      int a = rowStart(row);
      int aEnd = rowEnd(row);
      int b = other.rowStart(row);
      int bEnd = other.rowEnd(row);
      while (a < aEnd && b < bEnd) {
        int start = Math.max(spans[a], other.spans[b]);
        int end = Math.min(spans[a + 1], other.spans[b + 1]);
        if (start < end) {
          if (n + 2 > out.length) {
            out = Arrays.copyOf(out, 2 * out.length);
          }
          out[n++] = start;
          out[n++] = end;
        }
        if (spans[a + 1] < other.spans[b + 1]) {
          a += 2;
        } else {
          b += 2;
        }
      }
      starts[row - first + 1] = n;
    }
    return n == 0 ? EMPTY : new Region(first, starts, Arrays.copyOf(out, n));
  }
}
