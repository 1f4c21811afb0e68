package selvage.separation;

/**
 * Which colorants a colour space speaks of: what overprint leaves alone is what it does not reach
 * (ISO 32000-2, 11.7.4.3, table 149).
 */
final class Reach {
  /** The four process colorants, named directly: overprint mode 1 applies. */
  static final Reach CMYK_DIRECT = new Reach(Kind.CMYK_DIRECT, new int[0]);

  /** The four process colorants, by conversion. */
  static final Reach PROCESS = new Reach(Kind.PROCESS, new int[0]);

  /** Every colorant of the device. */
  static final Reach ALL = new Reach(Kind.ALL, new int[0]);

  /** No colorant: nothing is painted. */
  static final Reach NOTHING = new Reach(Kind.NAMED, new int[0]);

  private enum Kind {
    CMYK_DIRECT,
    PROCESS,
    NAMED,
    ALL
  }

  private final Kind kind;
  private final int[] slots;

  private Reach(Kind kind, int[] slots) {
    this.kind = kind;
    this.slots = slots;
  }

  /** The colorants of a Separation or DeviceN space, by slot. */
  static Reach named(int[] slots) {
    return slots.length == 0 ? NOTHING : new Reach(Kind.NAMED, slots);
  }

  boolean paintsNothing() {
    return kind == Kind.NAMED && slots.length == 0;
  }

  boolean isAll() {
    return kind == Kind.ALL;
  }

  /**
   * The slots that an overprinting object paints.
   *
   * @param row the source's state row
   * @param slotCount the number of colorant slots
   * @param nonZeroOnly overprint mode 1, for a flat colour (images and shadings never)
   * @return by slot; null where all are painted
   */
  boolean[] paintedSlots(char[] row, int slotCount, boolean nonZeroOnly) {
    if (kind == Kind.ALL) {
      return null;
    }
    boolean[] painted = new boolean[slotCount];
    if (kind == Kind.NAMED) {
      for (int slot : slots) {
        painted[slot] = true;
      }
      return painted;
    }
    for (int slot = 0; slot < 4; slot++) {
      painted[slot] = kind == Kind.PROCESS || !nonZeroOnly || row[StateTable.INKS + slot] != 0;
    }
    return painted;
  }
}
