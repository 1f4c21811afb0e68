package selvage.draw;

/**
 * A bowl of apricots, a dipped vase and tiles on a table by a window, traced by marching along rays
 * through a field of distances.
 */
final class StillLife {
  private static final int NOTHING = 0;
  private static final int TABLE = 1;
  private static final int WALL = 2;
  private static final int BOWL = 3;
  private static final int VASE = 4;
  private static final int FRUIT = 5;
  private static final int STACK = 20;
  private static final int LEANING = 30;

  private static final double WALL_Z = 2.6;
  private static final Vec EYE = new Vec(0.25, 2.55, -7.4);
  private static final Vec LOOK = new Vec(0.12, 1.12, 0);
  private static final Vec WINDOW = new Vec(-5.2, 6.0, -3.4);
  private static final Vec LIGHT = new Vec(1.25, 1.16, 1.0);
  private static final Vec SKY = new Vec(0.30, 0.34, 0.40);

  /** Centre and radius of each apricot. */
  private static final double[][] FRUITS = {
    {-0.62, 1.08, -0.18, 0.40}, {0.14, 1.12, -0.36, 0.42}, {-0.22, 1.10, 0.46, 0.40},
    {0.50, 1.06, 0.30, 0.38}, {-0.14, 1.60, 0.0, 0.40}, {1.42, 0.37, -1.55, 0.37},
    {-1.75, 0.35, -1.30, 0.35}
  };

  /** How far each stacked tile is turned: 0.25, -0.10, 0.42 and 0.08. */
  private static final double[] TURN_COS = {0.96891, 0.99500, 0.91309, 0.99680};

  private static final double[] TURN_SIN = {0.24740, -0.09983, 0.40776, 0.07991};

  private final Noise noise = new Noise(7);
  private final Vec forward = LOOK.minus(EYE).unit();
  private final Vec right = new Vec(0, 1, 0).cross(forward).unit();
  private final Vec up = forward.cross(right);
  private final Picture picture;

  private StillLife(int width, int height) {
    picture = new Picture(width, height);
  }

  static Picture draw(int width, int height) {
    StillLife scene = new StillLife(width, height);
    int[] things = new int[width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        things[y * width + x] = scene.trace(x, y, 0.5, 0.5, true);
      }
    }
    scene.smoothEdges(things);
    return scene.picture;
  }

  /** Four samples instead of one where neighbours show different things. */
  private void smoothEdges(int[] things) {
    int width = picture.width;
    for (int y = 1; y < picture.height - 1; y++) {
      for (int x = 1; x < width - 1; x++) {
        int i = y * width + x;
        if (things[i] == things[i + 1]
            && things[i] == things[i - 1]
            && things[i] == things[i + width]
            && things[i] == things[i - width]
            && things[i] != LEANING) {
          continue;
        }
        Vec sum = new Vec(0, 0, 0);
        for (int part = 0; part < 4; part++) {
          trace(x, y, 0.25 + 0.5 * (part % 2), 0.25 + 0.5 * (part >> 1), false);
          sum = sum.plus(traced);
        }
        picture.set(x, y, sum.times(0.25));
      }
    }
  }

  private Vec traced = new Vec(0, 0, 0);

  private int trace(int x, int y, double dx, double dy, boolean store) {
    double u = (2 * (x + dx) - picture.width) / picture.height;
    double v = 1 - 2 * (y + dy) / picture.height;
    Vec ray = forward.plus(right.times(0.37 * u)).plus(up.times(0.37 * v)).unit();
    double t = 4.0;
    for (int step = 0; step < 110 && t < 16; step++) {
      double d = distance(EYE.x() + t * ray.x(), EYE.y() + t * ray.y(), EYE.z() + t * ray.z());
      if (d < 0.0008 * t) {
        break;
      }
      t += d;
    }
    Vec at = EYE.plus(ray.times(t));
    int thing = nearest(at.x(), at.y(), at.z());
    traced = shade(thing, at, ray);
    if (store) {
      picture.set(x, y, traced);
    }
    return thing;
  }

  private Vec shade(int thing, Vec at, Vec ray) {
    Vec normal = normal(at);
    Surface surface = surface(thing, at, normal);
    Vec toWindow = WINDOW.minus(at);
    double far = toWindow.length();
    Vec towards = toWindow.times(1 / far);
    double falling = Math.max(0, normal.dot(towards)) * 46 / (far * far);
    double lit = falling * visible(at.plus(normal.times(0.012)), towards, far);
    double open = openness(at, normal);
    double skyward = 0.5 + 0.5 * normal.y();
    Vec light = LIGHT.times(lit).plus(SKY.times(open * (0.55 + 0.45 * skyward)));
    light =
        light.plus(
            new Vec(0.16, 0.11, 0.07)
                .times(open * Math.max(0, 0.6 - normal.y() * 0.4 + 0.3 * normal.x())));
    Vec color = surface.color.times(light);
    if (surface.gloss > 0) {
      Vec mirrored = ray.minus(normal.times(2 * ray.dot(normal)));
      double grazing = 1 + ray.dot(normal);
      double fresnel = 0.05 + 0.6 * grazing * grazing * grazing * grazing;
      double glint = windowSeen(at, mirrored) * Noise.step(0, 0.1, lit);
      color = color.plus(LIGHT.times(surface.gloss * (0.75 * glint + 0.35 * fresnel * open)));
    }
    return new Vec(film(color.x()), film(color.y()), film(color.z()));
  }

  /** A window of four panes, as it is mirrored in a glaze. */
  private static double windowSeen(Vec at, Vec direction) {
    Vec towards = WINDOW.minus(at).unit();
    Vec side = new Vec(0, 1, 0).cross(towards).unit();
    Vec above = towards.cross(side);
    if (direction.dot(towards) <= 0) {
      return 0;
    }
    double a = Math.abs(direction.dot(side) / direction.dot(towards));
    double b = Math.abs(direction.dot(above) / direction.dot(towards));
    double frame = Noise.step(0.012, 0.022, a) * Noise.step(0.012, 0.022, b);
    return frame * Noise.step(0.19, 0.165, a) * Noise.step(0.25, 0.22, b);
  }

  /** Light to what a picture shows: a soft shoulder, then the usual gamma. */
  private static double film(double light) {
    double x = Math.max(0, light) * 0.92;
    double toned = x * (2.51 * x + 0.03) / (x * (2.43 * x + 0.59) + 0.14);
    return StrictMath.pow(Math.min(1, toned), 1 / 2.2);
  }

  private record Surface(Vec color, double gloss) {}

  private Surface surface(int thing, Vec p, Vec n) {
    return switch (thing) {
      case TABLE -> new Surface(wood(p), 0.04);
      case WALL -> {
        double mottle = noise.octaves(0.9 * p.x() + 5, 0.9 * p.y(), 5);
        yield new Surface(linear(0xc9bfae).mix(linear(0x9fa59c), 0.5 + 0.6 * mottle), 0);
      }
      case BOWL -> {
        boolean inside = n.dot(new Vec(-p.x(), 1.2 - p.y(), -p.z())) > 0;
        double drip = noise.octaves(3 * StrictMath.atan2(p.x(), p.z()), 2 * p.y(), 4);
        Vec glaze =
            linear(0x1f7076)
                .mix(linear(0x59a5a0), Noise.step(-0.5, 0.6, drip + 0.8 * (p.y() - 0.6)));
        yield inside
            ? new Surface(linear(0xd9d2bd), 0.5)
            : p.y() < 0.16 + 0.04 * drip ? new Surface(linear(0xa35c3e), 0) : new Surface(glaze, 1);
      }
      case VASE -> {
        double edge = 1.28 + 0.10 * noise.at(2.4 * StrictMath.atan2(p.x() + 2.15, p.z() - 0.9), 3);
        double speck = noise.octaves(26 * p.x() + 3, 26 * p.y(), 2) > 0.42 ? 0.35 : 0;
        Vec clay =
            linear(0xb4623f)
                .mix(linear(0xc98660), 0.5 + 0.8 * noise.octaves(3 * p.x(), 9 * p.y(), 4));
        Vec glaze = linear(0xe9e0cb).mix(linear(0x8b6b4d), speck);
        yield p.y() > edge ? new Surface(glaze, 0.8) : new Surface(clay, 0);
      }
      case LEANING -> new Surface(patterned(p), 0.35);
      default ->
          thing >= STACK
              ? new Surface(
                  linear(new int[] {0xe6dcc4, 0x2d7f83, 0xb5533a, 0xd9b98c}[thing - STACK]), 0.6)
              : new Surface(apricot(p, FRUITS[thing - FRUIT]), 0.16);
    };
  }

  private Vec wood(Vec p) {
    double plank = Math.floor(p.z() / 0.9 + 50);
    double along = p.x() + 7.7 * plank;
    double grain = noise.octaves(0.7 * along, 13 * p.z() + 1.2 * noise.at(along, p.z()), 5);
    double fine = noise.octaves(2.5 * along, 70 * p.z(), 2);
    double gap = Noise.step(0.008, 0.02, Math.abs(p.z() / 0.9 - Math.rint(p.z() / 0.9)));
    Vec color =
        linear(0x6e4a33)
            .mix(
                linear(0xb88a60),
                0.5 + 0.65 * grain + 0.2 * fine + 0.12 * noise.lattice((int) plank, 4));
    return color.times(0.35 + 0.65 * gap);
  }

  private Vec apricot(Vec p, double[] fruit) {
    double x = p.x() - fruit[0];
    double y = p.y() - fruit[1];
    double z = p.z() - fruit[2];
    double blush =
        Noise.step(
            -0.5,
            0.7,
            (x + 0.7 * y - 0.5 * z) / fruit[3]
                + noise.octaves(4 * p.x(), 4 * p.y() + 9 * p.z(), 3));
    double freckle =
        Noise.step(0.45, 0.6, noise.octaves(34 * p.x(), 34 * p.y() + 17 * p.z(), 2)) * 0.35;
    Vec skin = linear(0xf6bd6c).mix(linear(0xc63f2c), 0.95 * blush);
    return skin.mix(linear(0x9c3a28), freckle * blush);
  }

  /** The face of the leaning tile: quarter discs that meet in a four-leaved figure. */
  private static Vec patterned(Vec p) {
    double u = p.x() - 1.95;
    double v = p.y() - 0.95;
    double a = Math.abs(u) / 0.85;
    double b = Math.abs(v) / 0.85;
    double corner = StrictMath.hypot(1 - a, 1 - b);
    double middle = StrictMath.hypot(a, b);
    Vec ground = linear(0xe8dfc8);
    if (a > 0.955 || b > 0.955) {
      return linear(0xc9b48f);
    }
    if (corner < 0.36) {
      return linear(0xb5533a);
    }
    if (corner > 0.5 && corner < 0.62) {
      return linear(0x2d7f83);
    }
    if (middle < 0.16) {
      return linear(0xb5533a);
    }
    return Math.min(StrictMath.hypot(a - 0.42, b), Math.hypot(a, b - 0.42)) < 0.17
        ? linear(0x1f3f4a)
        : ground;
  }

  private static Vec linear(int hex) {
    Vec c = Vec.rgb(hex);
    return new Vec(
        StrictMath.pow(c.x(), 2.2), StrictMath.pow(c.y(), 2.2), StrictMath.pow(c.z(), 2.2));
  }

  private Vec normal(Vec p) {
    double e = 0.0015;
    return new Vec(
            distance(p.x() + e, p.y(), p.z()) - distance(p.x() - e, p.y(), p.z()),
            distance(p.x(), p.y() + e, p.z()) - distance(p.x(), p.y() - e, p.z()),
            distance(p.x(), p.y(), p.z() + e) - distance(p.x(), p.y(), p.z() - e))
        .unit();
  }

  /** How much of the window is seen from a place, 0 to 1. */
  private static double visible(Vec from, Vec towards, double far) {
    double seen = 1;
    double t = 0.02;
    for (int i = 0; i < 36 && t < far; i++) {
      double d =
          distance(
              from.x() + t * towards.x(), from.y() + t * towards.y(), from.z() + t * towards.z());
      seen = Math.min(seen, 0.5 + 0.5 * d * 11 / t);
      if (seen <= 0.001) {
        return 0;
      }
      t += Math.max(0.03, Math.min(0.4, d));
      if (from.y() + t * towards.y() > 4) {
        break;
      }
    }
    return seen * seen * (3 - 2 * seen);
  }

  /** How open the surroundings are, 0 to 1. */
  private static double openness(Vec p, Vec n) {
    double closed = 0;
    double weight = 1;
    for (int i = 1; i <= 4; i++) {
      double reach = 0.09 * i * i * 0.6;
      closed +=
          weight
              * (reach
                  - distance(p.x() + n.x() * reach, p.y() + n.y() * reach, p.z() + n.z() * reach));
      weight *= 0.6;
    }
    return Math.max(0.08, 1 - 1.25 * closed);
  }

  private static double distance(double x, double y, double z) {
    double d = Math.min(Math.min(y, WALL_Z - z), bowl(x, y, z));
    if (y > 4) {
      return Math.min(d, y - 2.95);
    }
    d = Math.min(d, vase(x, y, z));
    for (int i = 0; i < FRUITS.length; i++) {
      d = Math.min(d, fruit(i, x, y, z));
    }
    for (int i = 0; i < 4; i++) {
      d = Math.min(d, stacked(i, x, y, z));
    }
    return Math.min(d, leaning(x, y, z));
  }

  private static int nearest(double x, double y, double z) {
    double best = 0.02;
    int thing = NOTHING;
    double[] distances = {y, WALL_Z - z, bowl(x, y, z), vase(x, y, z), leaning(x, y, z)};
    int[] things = {TABLE, WALL, BOWL, VASE, LEANING};
    for (int i = 0; i < things.length; i++) {
      if (distances[i] < best) {
        best = distances[i];
        thing = things[i];
      }
    }
    for (int i = 0; i < FRUITS.length; i++) {
      if (fruit(i, x, y, z) < best) {
        best = fruit(i, x, y, z);
        thing = FRUIT + i;
      }
    }
    for (int i = 0; i < 4; i++) {
      if (stacked(i, x, y, z) < best) {
        best = stacked(i, x, y, z);
        thing = STACK + i;
      }
    }
    return thing == NOTHING ? WALL : thing;
  }

  private static double bowl(double x, double y, double z) {
    double around = Math.sqrt(x * x + z * z);
    double shell = Math.abs(Math.sqrt(around * around / 1.25 + sq(y - 1.2)) - 1.08) - 0.055;
    double open = Math.max(shell * 0.85, y - 1.16);
    double foot = Math.max(Math.abs(around - 0.45) - 0.07, Math.abs(y - 0.1) - 0.1);
    return smoothMin(open, foot, 0.06);
  }

  private static double vase(double x, double y, double z) {
    double around = StrictMath.hypot(x + 2.15, z - 0.9);
    double h = Math.max(0, Math.min(2.9, y));
    double belly = 0.30 + 0.56 / (1 + sq(sq((h - 0.95) / 0.95))) + 0.16 * Noise.step(2.35, 2.9, h);
    double shell = Math.abs(around - belly + 0.03) - 0.03;
    double wall = h > 2.2 ? shell : around - belly;
    return Math.max(wall * 0.75, y - 2.9);
  }

  private static double fruit(int i, double x, double y, double z) {
    double[] f = FRUITS[i];
    double dx = x - f[0];
    double dy = (y - f[1]) * 1.06;
    double dz = z - f[2];
    double surface = Math.sqrt(dx * dx + dy * dy + dz * dz) - f[3];
    if (surface > 0.1) {
      return surface * 0.9;
    }
    double across = sq((dx * 0.8 + dz * 0.6) / 0.06);
    double cleft = 0.03 / (1 + across * across) * Noise.step(-0.2, 0.4, dy);
    return (surface + cleft) * 0.9;
  }

  private static double stacked(int i, double x, double y, double z) {
    double c = TURN_COS[i];
    double s = TURN_SIN[i];
    double dx = x - 2.35 - 0.06 * (i % 2);
    double dz = z + 0.55;
    return box(c * dx - s * dz, y - 0.075 - 0.15 * i, s * dx + c * dz, 0.62, 0.072, 0.62);
  }

  private static double leaning(double x, double y, double z) {
    double c = 0.9781;
    double s = 0.2079;
    double dy = y - 0.93;
    double dz = z - 1.75;
    return box(x - 1.95, c * dy - s * dz, s * dy + c * dz, 0.85, 0.9, 0.07);
  }

  private static double box(double x, double y, double z, double a, double b, double c) {
    double r = 0.025;
    double dx = Math.abs(x) - a + r;
    double dy = Math.abs(y) - b + r;
    double dz = Math.abs(z) - c + r;
    double outside = Math.sqrt(sq(Math.max(dx, 0)) + sq(Math.max(dy, 0)) + sq(Math.max(dz, 0)));
    return outside + Math.min(Math.max(dx, Math.max(dy, dz)), 0) - r;
  }

  private static double smoothMin(double a, double b, double k) {
    double h = Math.max(k - Math.abs(a - b), 0) / k;
    return Math.min(a, b) - h * h * k / 4;
  }

  private static double sq(double value) {
    return value * value;
  }
}
