package selvage.draw;

/** Smooth noise from hashed lattice points: the same everywhere, for a seed. */
final class Noise {
  private final int seed;

  Noise(int seed) {
    this.seed = seed;
  }

  /** Noise from −1 to 1 with features of about one unit. */
  double at(double x, double y) {
    int x0 = (int) Math.floor(x);
    int y0 = (int) Math.floor(y);
    double u = ease(x - x0);
    double v = ease(y - y0);
    double low = mix(lattice(x0, y0), lattice(x0 + 1, y0), u);
    double high = mix(lattice(x0, y0 + 1), lattice(x0 + 1, y0 + 1), u);
    return mix(low, high, v);
  }

  /** Sum of octaves, each twice as fine and half as strong; about −1 to 1. */
  double octaves(double x, double y, int count) {
    double sum = 0;
    double strength = 0.5;
    for (int i = 0; i < count; i++) {
      sum += strength * at(x + 17.3 * i, y - 9.1 * i);
      x *= 2.03;
      y *= 2.03;
      strength *= 0.5;
    }
    return sum;
  }

  /** White noise from −1 to 1. */
  double lattice(int x, int y) {
    int h = seed ^ x * 0x27D4EB2D ^ y * 0x165667B1;
    h = (h ^ h >>> 15) * 0x2C1B3C6D;
    h = (h ^ h >>> 12) * 0x297A2D39;
    h ^= h >>> 15;
    return (h & 0xFFFFFF) / (double) 0x7FFFFF - 1;
  }

  static double mix(double a, double b, double share) {
    return a + (b - a) * share;
  }

  /** 0 below the first edge, 1 above the second, smooth between. */
  static double step(double from, double to, double value) {
    return ease(Math.max(0, Math.min(1, (value - from) / (to - from))));
  }

  private static double ease(double t) {
    return t * t * (3 - 2 * t);
  }
}
