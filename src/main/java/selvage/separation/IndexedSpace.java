package selvage.separation;

/** Indexed: a table of colours of a base space. */
final class IndexedSpace extends SourceSpace {
  private final SourceSpace base;
  private final float[][] colors;

  /**
   * @param high the greatest index
   * @param table bytes, one a component of the base space; what is missing counts as 0
   */
  IndexedSpace(SourceSpace base, int high, byte[] table) {
    super(1, base.reach());
    this.base = base;
    int n = base.components();
    float[] decode = base.defaultDecode(8);
    colors = new float[high + 1][n];
    for (int i = 0; i <= high; i++) {
      for (int c = 0; c < n; c++) {
        int at = i * n + c;
        int value = at < table.length ? table[at] & 0xff : 0;
        colors[i][c] = decode[2 * c] + value * (decode[2 * c + 1] - decode[2 * c]) / 255f;
      }
    }
  }

  @Override
  float[] defaultDecode(int bits) {
    return new float[] {0, (1 << bits) - 1};
  }

  @Override
  void ink(float[] color, char[] row) {
    base.ink(entry(color), row);
  }

  @Override
  boolean rgb(float[] color, float[] rgb) {
    return base.rgb(entry(color), rgb);
  }

  private float[] entry(float[] color) {
    int index = Math.round(color[0]);
    return colors[Math.max(0, Math.min(colors.length - 1, index))];
  }
}
