package selvage.strip;

import java.util.List;
import java.util.Map;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.survey.Census;

/** Finds the row of a mixture in a census of hundreds of thousands. */
final class MixtureRows {
  private final List<Colorant> colorants;
  private final char[] tints;
  private final int[] slots; // row + 1; 0 where free

  /** Takes a census in. Of rows of the same mixture the first counts. */
  MixtureRows(Census census) {
    this.colorants = census.colorants();
    this.tints = census.tints();
    this.slots = new int[Integer.highestOneBit(Math.max(8, census.size())) * 4];
    int width = colorants.size();
    for (int row = 0; row < census.size(); row++) {
      int slot = slot(tints, row * width);
      slots[slot] = slots[slot] == 0 ? row + 1 : slots[slot];
    }
  }

  /** The mixture's row; -1 where the census has none. */
  int row(InkMixture mixture) {
    char[] wanted = new char[colorants.size()];
    for (Map.Entry<Colorant, Integer> ink : mixture.units().entrySet()) {
      int column = colorants.indexOf(ink.getKey());
      if (column < 0) {
        return -1;
      }
      wanted[column] = (char) (int) ink.getValue();
    }
    return slots[slot(wanted, 0)] - 1;
  }

  /** The slot of some tints, or the free one where they are not there. */
  private int slot(char[] values, int offset) {
    int width = colorants.size();
    int hash = 0;
    for (int i = 0; i < width; i++) {
      hash = (hash ^ values[offset + i]) * 0x9E3779B1;
      hash ^= hash >>> 15;
    }
    int slot = hash & (slots.length - 1);
    while (slots[slot] != 0 && !isRow(slots[slot] - 1, values, offset)) {
      slot = (slot + 1) & (slots.length - 1);
    }
    return slot;
  }

  private boolean isRow(int row, char[] values, int offset) {
    int width = colorants.size();
    for (int i = 0; i < width; i++) {
      if (tints[row * width + i] != values[offset + i]) {
        return false;
      }
    }
    return true;
  }
}
