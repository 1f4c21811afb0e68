package selvage.draw;

/** A picture in light (red, green, blue from 0 to 1, sRGB-like) that becomes ink. */
final class Picture {
  final int width;
  final int height;
  private final float[] light;

  Picture(int width, int height) {
    this.width = width;
    this.height = height;
    this.light = new float[3 * width * height];
  }

  void set(int x, int y, Vec color) {
    int i = 3 * (y * width + x);
    light[i] = (float) color.x();
    light[i + 1] = (float) color.y();
    light[i + 2] = (float) color.z();
  }

  Vec get(int x, int y) {
    int i = 3 * (y * width + x);
    return new Vec(light[i], light[i + 1], light[i + 2]);
  }

  /** Lays a colour over a sample; outside the picture nothing happens. */
  void blend(int x, int y, Vec color, double share) {
    if (x >= 0 && y >= 0 && x < width && y < height && share > 0) {
      set(x, y, get(x, y).mix(color, Math.min(1, share)));
    }
  }

  /**
   * Separates into cyan, magenta, yellow, black of one byte each, row by row. A plain separation in
   * the manner of the trade: complements, greys balanced with less magenta and yellow than cyan
   * (about 50, 40, 40), black from the grey component, total ink at most 300 %.
   *
   * @param grain strength of a film-like grain, 0 for none
   */
  byte[] toInk(double grain, int seed) {
    Noise noise = new Noise(seed);
    byte[] ink = new byte[4 * width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        double speck = grain * (noise.lattice(x, y) + noise.lattice(x + 7919, y)) / 2;
        int i = y * width + x;
        separate(
            contrast(1 - light[3 * i] + speck),
            contrast(1 - light[3 * i + 1] + speck),
            contrast(1 - light[3 * i + 2] + speck),
            ink,
            4 * i);
      }
    }
    return ink;
  }

  private static void separate(double c, double m, double y, byte[] ink, int at) {
    double grey = Math.min(c, Math.min(m, y));
    double balance = 0.34 * grey * (1 - grey);
    double blue = Math.max(0, Math.min(c, m) - y);
    double over = Math.max(0, grey - 0.25) / 0.75;
    double k = 0.97 * over * (0.35 + 0.65 * over);
    double removed = 0.5 * k;
    double cyan = clip(c - removed);
    double magenta = clip(m - balance - 0.22 * blue * c - removed);
    double yellow = clip(y - balance - removed);
    double excess = cyan + magenta + yellow + k - 3.0;
    if (excess > 0) {
      cyan -= excess / 3;
      magenta -= excess / 3;
      yellow -= excess / 3;
    }
    ink[at] = toByte(cyan);
    ink[at + 1] = toByte(magenta);
    ink[at + 2] = toByte(yellow);
    ink[at + 3] = toByte(k);
  }

  /** Deepens what is dark and opens what is light. */
  private static double contrast(double depth) {
    double d = clip(depth);
    return d + 0.55 * d * (1 - d) * (d - 0.42);
  }

  private static byte toByte(double tint) {
    return (byte) (int) (255 * clip(tint) + 0.5);
  }

  private static double clip(double value) {
    return Math.max(0, Math.min(1, value));
  }
}
