package selvage.separation;

import java.util.Arrays;
import selvage.ink.Tint;

/** Separation and DeviceN: tints of named colorants. */
final class NamedSpace extends SourceSpace {
  private final int[] slots; // by component; -1 for None

  /**
   * @param slots the colorant slot of each component, -1 for None
   */
  NamedSpace(int[] slots) {
    super(slots.length, Reach.named(Arrays.stream(slots).filter(s -> s >= 0).toArray()));
    this.slots = slots;
  }

  @Override
  float[] initialColor() {
    float[] initial = new float[slots.length];
    Arrays.fill(initial, 1);
    return initial;
  }

  @Override
  void ink(float[] color, char[] row) {
    for (int i = 0; i < slots.length; i++) {
      if (slots[i] >= 0) {
        // A colorant named twice is printed once, at the greater tint.
        int at = StateTable.INKS + slots[i];
        row[at] = (char) Math.max(row[at], Tint.ofFraction(color[i]));
      }
    }
  }

  /** Separation All: one tint on every plane of the page. */
  static final class All extends SourceSpace {
    All() {
      super(1, Reach.ALL);
    }

    @Override
    float[] initialColor() {
      return new float[] {1};
    }

    @Override
    void ink(float[] color, char[] row) {
      char tint = (char) Tint.ofFraction(color[0]);
      Arrays.fill(row, StateTable.INKS, row.length, tint);
    }
  }
}
