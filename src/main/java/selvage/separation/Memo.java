package selvage.separation;

import java.util.Arrays;

/**
 * Remembers an index for a 64-bit key; keys are never negative. It forgets everything when it is
 * full, which bounds its memory.
 */
final class Memo {
  static final int ABSENT = -1;

  private static final int MOST = 1 << 20;

  private long[] keys;
  private int[] values;
  private int mask;
  private int size;

  Memo() {
    allocate(256);
  }

  private void allocate(int capacity) {
    keys = new long[capacity];
    values = new int[capacity];
    Arrays.fill(keys, -1);
    mask = capacity - 1;
    size = 0;
  }

  /** The value of a key, or {@link #ABSENT}. */
  int get(long key) {
    int slot = spread(key) & mask;
    while (keys[slot] != key) {
      if (keys[slot] < 0) {
        return ABSENT;
      }
      slot = (slot + 1) & mask;
    }
    return values[slot];
  }

  void put(long key, int value) {
    if (size >= MOST) {
      allocate(keys.length);
    } else if (2 * size >= keys.length) {
      long[] oldKeys = keys;
      int[] oldValues = values;
      allocate(2 * oldKeys.length);
      for (int i = 0; i < oldKeys.length; i++) {
        if (oldKeys[i] >= 0) {
          insert(oldKeys[i], oldValues[i]);
        }
      }
    }
    insert(key, value);
  }

  void clear() {
    if (size > 0) {
      allocate(256);
    }
  }

  private void insert(long key, int value) {
    int slot = spread(key) & mask;
    while (keys[slot] >= 0 && keys[slot] != key) {
      slot = (slot + 1) & mask;
    }
    if (keys[slot] < 0) {
      size++;
    }
    keys[slot] = key;
    values[slot] = value;
  }

  private static int spread(long key) {
    long hash = key * 0x9E3779B97F4A7C15L;
    return (int) (hash >>> 32) ^ (int) hash >>> 7;
  }
}
