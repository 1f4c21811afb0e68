package selvage.ink;

import java.util.Arrays;

/**
 * The distinct rows among many rows of 16-bit values, numbered in the order in which they were met:
 * equal rows have equal numbers, so that comparing mixtures is comparing numbers.
 */
public class RowTable {
  private int stride;
  private char[] rows;
  private int size;
  private int[] buckets; // number + 1, 0 where free
  private int mask;

  /**
   * An empty table.
   *
   * @param stride values a row
   */
  public RowTable(int stride) {
    this.stride = stride;
    rows = new char[1024 * stride];
    buckets = new int[4096];
    mask = buckets.length - 1;
  }

  /** Values a row. */
  public final int stride() {
    return stride;
  }

  /** The number of distinct rows. */
  public final int size() {
    return size;
  }

  /** A zero row. */
  public final char[] newRow() {
    return new char[stride];
  }

  /** A row's value in a column. */
  public final int value(int row, int column) {
    return rows[row * stride + column];
  }

  /** Copies a row's values into an array of at least {@link #stride} values. */
  public final void read(int row, char[] values) {
    System.arraycopy(rows, row * stride, values, 0, stride);
  }

  /** Makes rows wider; new columns are zero in the rows that are there. */
  public final void widen(int wider) {
    if (wider <= stride) {
      return;
    }
    char[] spread = new char[Math.max(1024, size + size / 2) * wider];
    for (int i = 0; i < size; i++) {
      System.arraycopy(rows, i * stride, spread, i * wider, stride);
    }
    rows = spread;
    stride = wider;
    rehash(buckets.length);
  }

  /** The number of a row, new or known; the values are copied. */
  public final int intern(char[] values) {
    int slot = hash(values, 0) & mask;
    int entry;
    while ((entry = buckets[slot]) != 0) {
      int offset = (entry - 1) * stride;
      if (Arrays.equals(rows, offset, offset + stride, values, 0, stride)) {
        return entry - 1;
      }
      slot = (slot + 1) & mask;
    }
    if ((size + 1) * stride > rows.length) {
      rows = Arrays.copyOf(rows, rows.length * 2);
    }
    System.arraycopy(values, 0, rows, size * stride, stride);
    buckets[slot] = ++size;
    if (2 * size > buckets.length) {
      rehash(buckets.length * 2);
    }
    return size - 1;
  }

  private void rehash(int capacity) {
    buckets = new int[capacity];
    mask = capacity - 1;
    for (int i = 0; i < size; i++) {
      int slot = hash(rows, i * stride) & mask;
      while (buckets[slot] != 0) {
        slot = (slot + 1) & mask;
      }
      buckets[slot] = i + 1;
    }
  }

  private int hash(char[] values, int offset) {
    int hash = 0;
    for (int i = 0; i < stride; i++) {
      hash = (hash ^ values[offset + i]) * 0x9E3779B1;
      hash ^= hash >>> 15;
    }
    return hash;
  }

  /**
   * Drops rows and numbers the others anew, in their order.
   *
   * @param used by row
   * @return the new number of each row that is kept
   */
  public final int[] retain(boolean[] used) {
    int[] renumbered = new int[size];
    int kept = 0;
    for (int i = 0; i < size; i++) {
      if (used[i]) {
        if (kept != i) {
          System.arraycopy(rows, i * stride, rows, kept * stride, stride);
        }
        renumbered[i] = kept++;
      }
    }
    size = kept;
    rehash(buckets.length);
    return renumbered;
  }
}
