package selvage.separation;

/**
 * Remembers a state for a packed pixel of up to 32 bits. Key and state share one word, so that a
 * look into a large memo costs one cache miss, not two.
 */
final class PixelMemo {
  static final int ABSENT = -1;

  private long[] entries = new long[4096]; // key above, state + 1 below; 0 where free
  private int mask = entries.length - 1;
  private int size;

  /** The state of a key, or {@link #ABSENT}. */
  int get(int key) {
    int slot = spread(key) & mask;
    long entry;
    while ((entry = entries[slot]) != 0) {
      if ((int) (entry >>> 32) == key) {
        return (int) entry - 1;
      }
      slot = (slot + 1) & mask;
    }
    return ABSENT;
  }

  /** Adds a key that is not there. */
  void put(int key, int state) {
    if (2 * ++size > entries.length) {
      long[] old = entries;
      entries = new long[2 * old.length];
      mask = entries.length - 1;
      for (long entry : old) {
        if (entry != 0) {
          insert(entry);
        }
      }
    }
    insert((long) key << 32 | (state + 1));
  }

  private void insert(long entry) {
    int slot = spread((int) (entry >>> 32)) & mask;
    while (entries[slot] != 0) {
      slot = (slot + 1) & mask;
    }
    entries[slot] = entry;
  }

  private static int spread(int key) {
    int hash = key * 0x9E3779B1;
    return hash ^ hash >>> 15;
  }
}
