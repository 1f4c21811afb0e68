package selvage.separation;

import selvage.ink.RowTable;
import selvage.ink.Tint;

/**
 * The distinct states that samples of a page are in. A sample holds only a state's index, so
 * counting mixtures is counting indices, and what one state makes of another need be worked out
 * only once.
 *
 * <p>A state is a row: the kinds of object that left ink there (bits of {@link ObjectKind}; 0 where
 * nothing was painted), the opacity, and a tint for each colorant slot, in {@link Tint} units.
 * State 0 is the untouched sample.
 */
final class StateTable extends RowTable {
  static final int BLANK = 0;

  static final int KINDS = 0;
  static final int ALPHA = 1;

  /** Offset of the first colorant slot in a row. */
  static final int INKS = 2;

  StateTable(int slots) {
    super(INKS + slots);
    intern(newRow());
  }

  int slots() {
    return stride() - INKS;
  }

  int kinds(int state) {
    return value(state, KINDS);
  }

  int alpha(int state) {
    return value(state, ALPHA);
  }

  int tint(int state, int slot) {
    return value(state, INKS + slot);
  }

  /** Makes room for more colorants; what is there has none of them. */
  void growTo(int slots) {
    widen(INKS + slots);
  }

  /**
   * Drops the states that no raster uses and renumbers the others in all of them.
   *
   * @param rasters every raster of indices in use
   */
  void compact(Iterable<int[]> rasters) {
    boolean[] used = new boolean[size()];
    used[BLANK] = true;
    for (int[] raster : rasters) {
      for (int index : raster) {
        used[index] = true;
      }
    }
    int[] renumbered = retain(used);
    for (int[] raster : rasters) {
      for (int i = 0; i < raster.length; i++) {
        raster[i] = renumbered[raster[i]];
      }
    }
  }
}
