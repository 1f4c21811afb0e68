package selvage.color;

import java.util.Arrays;
import selvage.ink.Tint;

/**
 * A characterization data set: the measured colours of a chart of process tints. Patches that stand
 * in the chart several times are one node, with the mean of their Lab.
 */
final class CharacterizationData {
  private static final int COMPONENTS = 4;

  private final String name;
  private final double[] percents; // nodes × 4
  private final double[] lab; // nodes × 3
  private final long[] keys; // hash table: tints in Tint units, 16 bits each; -1 is free
  private final int[] nodes; // beside keys
  private final int size;

  /**
   * Takes the patches of a chart.
   *
   * @param name of the condition
   * @param patchPercents C, M, Y, K a patch, 0 to 100
   * @param patchLab L*, a*, b* a patch, absolute
   */
  CharacterizationData(String name, double[] patchPercents, double[] patchLab) {
    int patches = patchLab.length / 3;
    if (patchPercents.length != COMPONENTS * patches || patchLab.length != 3 * patches) {
      throw new IllegalArgumentException(name + ": columns of unequal length");
    }
    this.name = name;
    this.keys = new long[Integer.highestOneBit(Math.max(4, patches)) * 4];
    this.nodes = new int[keys.length];
    Arrays.fill(keys, -1);
    double[] tints = new double[patchPercents.length];
    double[] sums = new double[patchLab.length];
    int[] counts = new int[patches];
    int count = 0;
    for (int patch = 0; patch < patches; patch++) {
      int slot = slot(key(patchPercents, patch * COMPONENTS));
      if (keys[slot] == -1) {
        keys[slot] = key(patchPercents, patch * COMPONENTS);
        nodes[slot] = count;
        System.arraycopy(patchPercents, patch * COMPONENTS, tints, count * COMPONENTS, COMPONENTS);
        count++;
      }
      int node = nodes[slot];
      counts[node]++;
      for (int i = 0; i < 3; i++) {
        sums[3 * node + i] += patchLab[3 * patch + i];
      }
    }
    for (int node = 0; node < count; node++) {
      if (counts[node] > 1) {
        for (int i = 0; i < 3; i++) {
          sums[3 * node + i] /= counts[node];
        }
      }
    }
    this.size = count;
    this.percents = Arrays.copyOf(tints, count * COMPONENTS);
    this.lab = Arrays.copyOf(sums, count * 3);
  }

  String name() {
    return name;
  }

  /** The number of nodes, each with tints of its own. */
  int size() {
    return size;
  }

  /** A node's tint in percent; component 0 is C, 3 is K. */
  double percent(int node, int component) {
    return percents[node * COMPONENTS + component];
  }

  /** A node's L*, a* or b*. */
  double lab(int node, int axis) {
    return lab[3 * node + axis];
  }

  /** A node's colour, absolute. */
  Lab lab(int node) {
    return new Lab(lab[3 * node], lab[3 * node + 1], lab[3 * node + 2]);
  }

  /**
   * The node with these tints.
   *
   * @param c in Tint units, and so the others
   * @return its index, or -1
   */
  int find(int c, int m, int y, int k) {
    long key = key(c, m, y, k);
    int slot = slot(key);
    return keys[slot] == key ? nodes[slot] : -1;
  }

  /** As {@link #find(int, int, int, int)}, in percent. */
  int findPercent(double c, double m, double y, double k) {
    return find(Tint.ofPercent(c), Tint.ofPercent(m), Tint.ofPercent(y), Tint.ofPercent(k));
  }

  private static long key(double[] percents, int at) {
    return key(
        Tint.ofPercent(percents[at]),
        Tint.ofPercent(percents[at + 1]),
        Tint.ofPercent(percents[at + 2]),
        Tint.ofPercent(percents[at + 3]));
  }

  private static long key(int c, int m, int y, int k) {
    return (long) c << 48 | (long) m << 32 | (long) y << 16 | k;
  }

  /** The slot that holds a key, or the free one where it belongs. */
  private int slot(long key) {
    long hash = key * 0x9E3779B97F4A7C15L;
    int slot = (int) (hash >>> 40) & (keys.length - 1);
    while (keys[slot] != key && keys[slot] != -1) {
      slot = (slot + 1) & (keys.length - 1);
    }
    return slot;
  }
}
