package selvage.draw;

/** An evening on a shore with dunes: sky, clouds, sea, sand and grass, all from noise. */
final class Shore {
  private static final double HORIZON = 0.50;
  private static final double SUN_X = 0.70;
  private static final double SUN_Y = 0.425;

  private final Noise noise = new Noise(40);
  private final Picture picture;
  private final double aspect;

  private Shore(int width, int height) {
    picture = new Picture(width, height);
    aspect = (double) width / height;
  }

  static Picture draw(int width, int height) {
    Shore shore = new Shore(width, height);
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        shore.picture.set(x, y, shore.colorAt((x + 0.5) / height, (y + 0.5) / height));
      }
    }
    shore.grass();
    return shore.picture;
  }

  /** The colour at x from 0 to the aspect ratio and y from 0 at the top to 1. */
  private Vec colorAt(double x, double y) {
    Vec color = y < HORIZON ? sky(x, y) : water(x, y);
    if (y < HORIZON) {
      double headland =
          HORIZON - 0.018 * Math.max(0, 1 - x / 0.62) - 0.006 * noise.octaves(9 * x, 3, 4);
      if (x < 0.62) {
        color = color.mix(Vec.rgb(0x7c8a9c), Noise.step(headland - 0.002, headland + 0.002, y));
      }
    }
    color = dune(color, x, y, 0.665, 0.035, 1.3, 11, 0.35);
    color = dune(color, x, y, 0.745, 0.07, 1.05, 23, 0.7);
    return dune(color, x, y, 0.895, 0.13, 0.8, 37, 1);
  }

  private Vec sky(double x, double y) {
    double t = y / HORIZON;
    Vec color =
        Vec.rgb(0x5f86ad)
            .mix(Vec.rgb(0xa9bfcd), Noise.step(0, 0.55, t))
            .mix(Vec.rgb(0xf6d3ae), Noise.step(0.4, 1, t));
    double dx = x / aspect - SUN_X;
    double dy = (y - SUN_Y) / aspect;
    double far = Math.sqrt(dx * dx + 2.2 * dy * dy);
    color = color.mix(Vec.rgb(0xffe3b0), 0.85 * StrictMath.exp(-far * 5.5));
    double stretch = 1.2 + 5 * t * t;
    double shape =
        noise.octaves(2.1 * x + 3, 3.4 * stretch * y + 8, 6) + 0.5 * noise.at(1.3 * x, 2.5 * y + 4);
    double cloud = Noise.step(-0.12, 0.5, shape) * (1 - 0.75 * Noise.step(0.75, 1, t));
    double under = noise.octaves(2.1 * x + 3.05, 3.4 * stretch * (y + 0.02) + 8, 5);
    Vec lit = Vec.rgb(0xfff1e2).mix(Vec.rgb(0xf3b48e), Noise.step(0.2, 0.95, t));
    Vec shade = Vec.rgb(0xb3b6c4).mix(Vec.rgb(0xc98f80), Noise.step(0.3, 1, t));
    color = color.mix(lit.mix(shade, Noise.step(-0.15, 0.5, under)), 0.9 * cloud);
    double disc = Noise.step(0.024, 0.019, StrictMath.hypot(dx * aspect, y - SUN_Y));
    return color.mix(Vec.rgb(0xfffbe8), disc);
  }

  private Vec water(double x, double y) {
    double depth = (y - HORIZON) / 0.2;
    double scale = 1 / (0.04 + 0.5 * depth);
    double swell = noise.octaves(9 * scale * (x - 0.7) / 3, 55 * StrictMath.log(0.03 + depth), 4);
    Vec color = sky(x, HORIZON - (y - HORIZON) * 1.6 - 0.02 - 0.015 * swell);
    color =
        color
            .times(new Vec(0.62, 0.74, 0.8))
            .mix(Vec.rgb(0x2f6a74), 0.25 + 0.35 * Noise.step(0, 1, depth));
    color = color.mix(Vec.rgb(0x1f4a58), 0.45 * Noise.step(0.1, 0.5, swell));
    double column = StrictMath.exp(-sq((x / aspect - SUN_X) / (0.022 + 0.07 * depth)));
    double glint =
        Noise.step(0.12, 0.34, noise.octaves(14 * scale * x, 80 * StrictMath.log(0.03 + depth), 3));
    color = color.mix(Vec.rgb(0xffe9c4), Math.min(1, column * (0.3 + 0.9 * glint)));
    double surf = 0.62 + 0.012 * noise.octaves(3 * x, 1, 3);
    double foam =
        Noise.step(0.013, 0.0, Math.abs(y - surf))
            + 0.8 * Noise.step(0.006, 0.0, Math.abs(y - surf + 0.035));
    foam *= 0.55 + 0.6 * noise.octaves(40 * x, 70 * y, 3);
    color = color.mix(Vec.rgb(0xfbf4ea), clip(foam));
    Vec wet = Vec.rgb(0xb58f72).mix(sky(x, HORIZON - 0.1), 0.35);
    return color.mix(wet, Noise.step(surf, surf + 0.012, y));
  }

  /** Lays a ridge of sand over what lies behind it. */
  private Vec dune(
      Vec behind,
      double x,
      double y,
      double base,
      double rise,
      double pace,
      double place,
      double near) {
    double crest =
        base
            - rise
                * (1.2 * noise.octaves(pace * x + place, place, 3)
                    + 0.35 * Math.abs(noise.at(pace * 1.7 * x, place + 3)));
    double inside = Noise.step(crest - 0.0015, crest + 0.0015, y);
    if (inside == 0) {
      return behind;
    }
    double down = y - crest;
    double warp = noise.octaves(2.2 * x + place, 5 * y, 4);
    double slope = noise.at(1.6 * pace * x + place + 0.9 * warp, 3.2 * down + place) + 0.5 * warp;
    double ripple =
        StrictMath.sin(
            (150 * down + 26 * warp + 14 * x) / (0.35 + 0.9 * near * (0.2 + down * 2.5)));
    double light = 0.55 + 0.42 * slope + 0.055 * near * ripple * (1 - 2 * Math.abs(slope) / 3);
    light += 0.25 * StrictMath.exp(-down / 0.012);
    light += 0.03 * near * noise.octaves(120 * x, 160 * y, 3);
    Vec dark = Vec.rgb(0x7d5c58).mix(Vec.rgb(0x9c7f7c), 1 - near);
    Vec bright = Vec.rgb(0xf0cda2).mix(Vec.rgb(0xe9c7a6), 1 - near);
    Vec sand = dark.mix(bright, clip(light));
    sand = sand.mix(Vec.rgb(0xe2bfa4), 0.3 * (1 - near));
    return behind.mix(sand, inside);
  }

  /** Tufts of grass on the near dune. */
  private void grass() {
    for (int tuft = 0; tuft < 46; tuft++) {
      double x = (0.5 + 0.5 * noise.lattice(tuft, 1)) * aspect;
      double depth = 0.5 + 0.5 * noise.lattice(tuft, 2);
      double y = 0.87 + 0.2 * depth;
      if (x > 0.45 * aspect && x < 0.8 * aspect && depth < 0.6) {
        continue;
      }
      int blades = 40 + (int) (40 * depth);
      for (int blade = 0; blade < blades; blade++) {
        int id = 1000 * tuft + blade;
        double length = (0.07 + 0.11 * depth) * (0.6 + 0.4 * noise.lattice(id, 3));
        double lean = 0.45 + 0.75 * noise.lattice(id, 4);
        double root = x + 0.05 * noise.lattice(id, 5);
        double tone = 0.5 + 0.5 * noise.lattice(id, 6);
        Vec color = Vec.rgb(0x2e4437).mix(Vec.rgb(0x9aa469), tone * tone);
        if (tone > 0.86) {
          color = Vec.rgb(0xe3c98e);
        }
        blade(root, y + 0.03 * noise.lattice(id, 7), length, lean, color, 0.6 + 1.1 * depth);
      }
    }
  }

  private void blade(double x, double y, double length, double lean, Vec color, double thick) {
    int steps = (int) (length * picture.height * 1.6) + 2;
    for (int i = 0; i <= steps; i++) {
      double t = (double) i / steps;
      double px = (x + lean * length * t * t * 0.8) * picture.height;
      double py = (y - length * t * (1 - 0.25 * lean * t)) * picture.height;
      double radius = thick * (1.15 - t);
      int reach = (int) radius + 1;
      for (int v = -reach; v <= reach; v++) {
        for (int u = -reach; u <= reach; u++) {
          int ix = (int) Math.floor(px) + u;
          int iy = (int) Math.floor(py) + v;
          double off = StrictMath.hypot(ix + 0.5 - px, iy + 0.5 - py);
          picture.blend(ix, iy, color, 0.6 * clip(radius + 0.5 - off));
        }
      }
    }
  }

  private static double sq(double value) {
    return value * value;
  }

  private static double clip(double value) {
    return Math.max(0, Math.min(1, value));
  }
}
