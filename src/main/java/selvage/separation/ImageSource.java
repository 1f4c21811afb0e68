package selvage.separation;

import selvage.ink.Tint;

/** An image as a source of states. Each distinct pixel value is turned into ink once. */
final class ImageSource implements RowSource {
  private final ImageData data;
  private final ImagePainter.Walk walk;
  private final SourceSpace space;
  private final float[] low;
  private final float[] step;
  private final ImageMask mask;
  private final ColorStates states;
  private final PixelMemo memo = new PixelMemo();
  private final float[] color;
  private int lastKey;
  private int lastState = PixelMemo.ABSENT;

  /**
   * @param decode the Decode array, or empty
   * @param mask may be null
   */
  ImageSource(
      ImageData data, ImagePainter.Walk walk, ColorStates states, float[] decode, ImageMask mask) {
    this.data = data;
    this.walk = walk;
    this.states = states;
    this.space = states.space();
    this.mask = mask;
    int n = space.components();
    float[] ranges =
        decode.length >= 2 * n ? decode : space.defaultDecode(Math.min(8, data.bits()));
    if (data.bits() == 16 && decode.length < 2 * n && space instanceof IndexedSpace) {
      ranges = new float[] {0, 65535};
    }
    color = new float[n];
    low = new float[n];
    step = new float[n];
    for (int c = 0; c < n; c++) {
      low[c] = ranges[2 * c];
      step[c] = (ranges[2 * c + 1] - ranges[2 * c]) / data.most();
    }
  }

  @Override
  public boolean hasAlpha() {
    return mask != null;
  }

  @Override
  public void row(int y, int x0, int x1, int[] out, char[] alphas) {
    boolean packable = data.isPackable();
    boolean matted = mask != null && mask.matte().length >= space.components();
    for (int x = x0; x < x1; x++) {
      walk.at(x, y);
      int opacity = Tint.FULL;
      if (mask != null) {
        opacity = mask.opacity(x, y, data, walk.column, walk.row);
        alphas[x - x0] = (char) opacity;
        if (opacity == 0) {
          out[x - x0] = NONE;
          continue;
        }
      }
      if (!packable || matted) {
        out[x - x0] = compute(walk.column, walk.row, matted ? opacity : Tint.FULL);
        continue;
      }
      int key = (int) data.packed(walk.column, walk.row);
      if (key != lastKey || lastState < 0) {
        int known = memo.get(key);
        if (known == PixelMemo.ABSENT) {
          read(walk.column, walk.row);
          known = states.ofNew(color);
          memo.put(key, known);
        }
        lastKey = key;
        lastState = known;
      }
      out[x - x0] = lastState;
    }
  }

  private int compute(int column, int line, int opacity) {
    read(column, line);
    if (opacity < Tint.FULL) {
      // The colour was blended with the matte; undo it (ISO 32000-2, 11.6.5.2).
      float[] matte = mask.matte();
      float alpha = opacity / (float) Tint.FULL;
      for (int c = 0; c < color.length; c++) {
        color[c] = matte[c] + (color[c] - matte[c]) / alpha;
      }
    }
    return states.of(color);
  }

  private void read(int column, int line) {
    for (int c = 0; c < color.length; c++) {
      color[c] = low[c] + step[c] * data.sample(column, line, c);
    }
  }
}
