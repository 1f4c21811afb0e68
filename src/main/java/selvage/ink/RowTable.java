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
  private int interned;
  private long[] buckets; // the hash above, number + 1 below; 0 where free
  private int mask;

  /**
   * An empty table.
   *
   * @param stride values a row
   */
  public RowTable(int stride) {
    this.stride = stride;
    rows = new char[1024 * stride];
    buckets = new long[4096];
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
    for (int slot = 0; slot < buckets.length; slot++) {
      if (buckets[slot] != 0) {
        int number = (int) buckets[slot];
        buckets[slot] = (long) hash(rows, (number - 1) * stride) << 32 | number;
      }
    }
    rehash(buckets.length);
  }

  /** The number of a row, new or known; the values are copied. */
  public final int intern(char[] values) {
    int hash = hash(values, 0);
    int slot = hash & mask;
    long entry;
    while ((entry = buckets[slot]) != 0) {
      // The stored hash tells most different rows apart without reading them.
      if ((int) (entry >>> 32) == hash) {
        int offset = ((int) entry - 1) * stride;
        if (Arrays.equals(rows, offset, offset + stride, values, 0, stride)) {
          return (int) entry - 1;
        }
      }
      slot = (slot + 1) & mask;
    }
    int number = append(values);
    buckets[slot] = (long) hash << 32 | (number + 1);
    if (2 * ++interned > buckets.length) {
      rehash(buckets.length * 2);
    }
    return number;
  }

  /**
   * Adds a row without looking whether it is there, for a caller that keeps its own account of what
   * it added; {@link #intern} never finds it.
   *
   * @return the new row's number
   */
  public final int append(char[] values) {
    if ((size + 1) * stride > rows.length) {
      rows = Arrays.copyOf(rows, rows.length * 2);
    }
    System.arraycopy(values, 0, rows, size * stride, stride);
    return size++;
  }

  /** Makes room for as many rows in all, so that they are not moved again and again. */
  public final void reserve(int count) {
    if (count * stride > rows.length) {
      rows = Arrays.copyOf(rows, count * stride);
    }
    int capacity = Integer.highestOneBit(Math.max(2048, count)) * 4;
    if (capacity > buckets.length) {
      rehash(capacity);
    }
  }

  private void rehash(int capacity) {
    long[] old = buckets;
    buckets = new long[capacity];
    mask = capacity - 1;
    for (long entry : old) {
      if (entry != 0) {
        int slot = (int) (entry >>> 32) & mask;
        while (buckets[slot] != 0) {
          slot = (slot + 1) & mask;
        }
        buckets[slot] = entry;
      }
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
    for (int slot = 0; slot < buckets.length; slot++) {
      int number = (int) buckets[slot] - 1;
      buckets[slot] =
          number < 0 || !used[number] ? 0 : buckets[slot] >>> 32 << 32 | (renumbered[number] + 1);
    }
    rehash(buckets.length);
    interned = 0;
    for (long entry : buckets) {
      interned += entry == 0 ? 0 : 1;
    }
    return renumbered;
  }
}
