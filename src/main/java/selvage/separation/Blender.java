package selvage.separation;

import selvage.ink.Tint;

/**
 * Works out what a source state makes of a sample's state: the compositing formula of ISO 32000-2,
 * 11.3.6 and 11.4.8, with overprint as the blend function of 11.7.4.3. Every result is remembered,
 * so that flat work costs one look-up a sample.
 *
 * <p>One blender stands for one painting operation.
 */
final class Blender {
  private static final float FULL = Tint.FULL;

  private final StateTable table;
  private final boolean[] painted; // by slot; null where all are
  private final Blend blend;
  private final boolean knockout;
  private final Layer.Blending blending;

  private final Memo memo = new Memo();
  private final Memo pairs = new Memo();
  private int pairCount;
  private long lastKey = -1;
  private int lastResult;

  private final char[] back;
  private final char[] source;
  private final char[] start;
  private final char[] result;
  private final float[] b3 = new float[3];
  private final float[] s3 = new float[3];
  private final float[] out3 = new float[3];

  /**
   * @param painted which slots the source paints, by slot; null for all
   */
  Blender(StateTable table, Layer layer, boolean[] painted, Blend blend) {
    this.table = table;
    this.painted = painted;
    this.blend = blend;
    this.knockout = layer.knockout;
    this.blending = layer.blending;
    back = table.newRow();
    source = table.newRow();
    start = table.newRow();
    result = table.newRow();
  }

  /** Whether an opaque source simply takes the sample's place. */
  boolean isPlain() {
    return painted == null && blend == Blend.NORMAL;
  }

  /**
   * The state after painting.
   *
   * @param cell the sample's state
   * @param initial the state of the group's backdrop there; blank in an isolated group
   * @param src the source's state
   * @param alpha what multiplies the source's opacity, in {@link Tint} units
   */
  int paint(int cell, int initial, int src, int alpha) {
    if (cell >= 1 << 22 || src >= 1 << 24) {
      return compute(cell, initial, src, alpha);
    }
    long first = cell;
    if (initial != StateTable.BLANK) {
      long pair = (long) cell << 32 | initial;
      int number = pairs.get(pair);
      if (number == Memo.ABSENT) {
        // Pairs are numbered above all states, and anew when there are too many.
        if (pairCount == 1 << 20) {
          pairs.clear();
          memo.clear();
          lastKey = -1;
          pairCount = 0;
        }
        number = pairCount++;
        pairs.put(pair, number);
      }
      first = (1L << 22) + number;
    }
    long key = first << 40 | (long) src << 16 | alpha;
    if (key == lastKey) {
      return lastResult;
    }
    int known = memo.get(key);
    if (known == Memo.ABSENT) {
      known = compute(cell, initial, src, alpha);
      memo.put(key, known);
    }
    lastKey = key;
    lastResult = known;
    return known;
  }

  private int compute(int cell, int initial, int src, int alpha) {
    table.read(cell, back);
    table.read(src, source);
    table.read(initial, start);
    float as = source[StateTable.ALPHA] / FULL * (alpha / FULL);
    float a0 = start[StateTable.ALPHA] / FULL;
    float agBefore = back[StateTable.ALPHA] / FULL;
    float ag = knockout ? as : union(agBefore, as);
    float ab = knockout ? a0 : union(a0, agBefore);
    float after = union(a0, ag);
    char[] under = knockout ? start : back;
    boolean covers = as >= 1 && isPlain();
    result[StateTable.KINDS] =
        covers || knockout
            ? source[StateTable.KINDS]
            : (char) (back[StateTable.KINDS] | source[StateTable.KINDS]);
    result[StateTable.ALPHA] = (char) Math.round(ag * FULL);
    if (after <= 0) {
      System.arraycopy(
          under, StateTable.INKS, result, StateTable.INKS, result.length - StateTable.INKS);
      return table.intern(result);
    }
    float ratio = as / after;
    if (painted != null && blend != Blend.NORMAL) {
      overprintBeforeBlending(under, ab);
    }
    boolean nonSeparable = !blend.isSeparable();
    if (nonSeparable) {
      blendProcess(under);
    }
    for (int i = StateTable.INKS; i < result.length; i++) {
      int slot = i - StateTable.INKS;
      float cb = under[i] / FULL;
      float cs = source[i] / FULL;
      float mixed;
      if (isUnused(slot)) {
        mixed = cs;
      } else if (painted != null && !painted[slot] && blend == Blend.NORMAL) {
        mixed = cb;
      } else if (nonSeparable && slot < 4) {
        mixed = processResult(slot, cb, cs);
      } else if (blend == Blend.NORMAL || (slot >= 4 && !blend.reachesSpots())) {
        mixed = cs;
      } else {
        mixed = 1 - blend.of(1 - cb, 1 - cs);
      }
      float value = (1 - ratio) * cb + ratio * ((1 - ab) * cs + ab * mixed);
      result[i] = (char) Math.round(Math.max(0, Math.min(1, value)) * FULL);
    }
    return table.intern(result);
  }

  /**
   * Takes the backdrop's tints for those that the source leaves alone: with another blend mode than
   * Normal, overprint acts first, as in a group of its own whose result is then blended (11.7.4.3).
   */
  private void overprintBeforeBlending(char[] under, float ab) {
    for (int i = StateTable.INKS; i < source.length; i++) {
      if (!painted[i - StateTable.INKS]) {
        source[i] = (char) Math.round((1 - ab) * source[i] + ab * under[i]);
      }
    }
  }

  /** A slot that is no component of the layer's blending space stays empty, whatever the mode. */
  private boolean isUnused(int slot) {
    return switch (blending) {
      case CMYK -> false;
      case RGB -> slot == 3;
      case GRAY -> slot < 3;
    };
  }

  private void blendProcess(char[] under) {
    int first = StateTable.INKS;
    for (int i = 0; i < 3; i++) {
      // A gray layer has its one component in the fourth slot.
      int at = blending == Layer.Blending.GRAY ? first + 3 : first + i;
      b3[i] = 1 - under[at] / FULL;
      s3[i] = 1 - source[at] / FULL;
    }
    blend.of(b3, s3, out3);
  }

  private float processResult(int slot, float cb, float cs) {
    if (blending == Layer.Blending.GRAY) {
      return slot == 3 ? 1 - out3[0] : cs;
    }
    if (slot < 3) {
      return 1 - out3[slot];
    }
    // 11.3.5.3: black comes from the backdrop, and from the source for Luminosity.
    return blend == Blend.LUMINOSITY ? cs : cb;
  }

  static float union(float a, float b) {
    return a + b - a * b;
  }
}
