package selvage.color;

import java.util.Arrays;

/**
 * The largest full C × M × Y grid that a data set holds at one tint of black: every combination of
 * the axes' tints is a node. Charts add ramps and greys to such grids; those are left out here.
 */
final class FullGrid {
  private static final int AXES = 3;

  private final double black;
  private final double[][] axes; // tints in percent, rising, a component
  private final int[] nodes; // C slowest, Y fastest

  private FullGrid(double black, double[][] axes, int[] nodes) {
    this.black = black;
    this.axes = axes;
    this.nodes = nodes;
  }

  /** The tint of black in percent. */
  double black() {
    return black;
  }

  /** The tints of C, M or Y in percent, rising, from 0 to 100. */
  double[] axis(int component) {
    return axes[component];
  }

  /** The data's node at each grid point, C slowest, Y fastest. */
  int[] nodes() {
    return nodes;
  }

  /**
   * Finds the grid at a tint of black by taking away, one after the other, the tint whose plane has
   * the most gaps, until no gap is left.
   *
   * @return null where no grid reaches from 0 to 100 in each component
   */
  static FullGrid find(CharacterizationData data, double black) {
    int[] members = members(data, black);
    if (members.length < 8) {
      return null;
    }
    double[][] values = new double[AXES][];
    int[][] index = new int[AXES][members.length];
    int[][] counts = new int[AXES][];
    for (int axis = 0; axis < AXES; axis++) {
      values[axis] = distinct(data, members, axis);
      counts[axis] = new int[values[axis].length];
      for (int i = 0; i < members.length; i++) {
        index[axis][i] = Arrays.binarySearch(values[axis], data.percent(members[i], axis));
        counts[axis][index[axis][i]]++;
      }
    }
    boolean[] gone = new boolean[members.length];
    int[] sizes = {values[0].length, values[1].length, values[2].length};
    int left = members.length;
    while (left < sizes[0] * sizes[1] * sizes[2]) {
      int worstAxis = -1;
      int worstValue = -1;
      double worstFill = 2;
      for (int axis = 0; axis < AXES; axis++) {
        double plane = (double) sizes[0] * sizes[1] * sizes[2] / sizes[axis];
        for (int value = 0; value < values[axis].length; value++) {
          if (counts[axis][value] > 0 && counts[axis][value] / plane < worstFill) {
            worstFill = counts[axis][value] / plane;
            worstAxis = axis;
            worstValue = value;
          }
        }
      }
      if (worstAxis < 0) {
        return null;
      }
      for (int i = 0; i < members.length; i++) {
        if (!gone[i] && index[worstAxis][i] == worstValue) {
          gone[i] = true;
          left--;
          for (int axis = 0; axis < AXES; axis++) {
            counts[axis][index[axis][i]]--;
          }
        }
      }
      for (int axis = 0; axis < AXES; axis++) {
        sizes[axis] = 0;
        for (int count : counts[axis]) {
          sizes[axis] += count > 0 ? 1 : 0;
        }
      }
    }
    for (int axis = 0; axis < AXES; axis++) {
      values[axis] = kept(values[axis], counts[axis]);
      int last = values[axis].length - 1;
      if (last < 1 || values[axis][0] != 0 || values[axis][last] != 100) {
        return null;
      }
    }
    return new FullGrid(black, values, nodes(data, black, values));
  }

  /** The tints of black that occur, rising. */
  static double[] blacks(CharacterizationData data) {
    int[] all = new int[data.size()];
    for (int node = 0; node < all.length; node++) {
      all[node] = node;
    }
    return distinct(data, all, 3);
  }

  private static int[] members(CharacterizationData data, double black) {
    int[] members = new int[data.size()];
    int count = 0;
    for (int node = 0; node < data.size(); node++) {
      if (data.percent(node, 3) == black) {
        members[count++] = node;
      }
    }
    return Arrays.copyOf(members, count);
  }

  private static double[] distinct(CharacterizationData data, int[] members, int component) {
    double[] values = new double[members.length];
    for (int i = 0; i < members.length; i++) {
      values[i] = data.percent(members[i], component);
    }
    Arrays.sort(values);
    int count = 0;
    for (int i = 0; i < values.length; i++) {
      if (i == 0 || values[i] != values[i - 1]) {
        values[count++] = values[i];
      }
    }
    return Arrays.copyOf(values, count);
  }

  private static double[] kept(double[] values, int[] counts) {
    double[] kept = new double[values.length];
    int count = 0;
    for (int i = 0; i < values.length; i++) {
      if (counts[i] > 0) {
        kept[count++] = values[i];
      }
    }
    return Arrays.copyOf(kept, count);
  }

  private static int[] nodes(CharacterizationData data, double black, double[][] axes) {
    int[] nodes = new int[axes[0].length * axes[1].length * axes[2].length];
    int at = 0;
    for (double c : axes[0]) {
      for (double m : axes[1]) {
        for (double y : axes[2]) {
          nodes[at++] = data.findPercent(c, m, y, black);
        }
      }
    }
    return nodes;
  }
}
