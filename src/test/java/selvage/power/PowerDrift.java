package selvage.power;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceWhite;
import selvage.color.SpotInk;
import selvage.color.Xyz;
import selvage.ink.Colorant;
import selvage.ink.Tint;

/**
 * A proofing device that is off, drawn at random: tone value of each channel, density, paper tint,
 * spot recipes, and, if asked for, a region of hue.
 *
 * <p>Tints move along t + 4·d·t·(1 − t); a solid's density by a share of itself, in each of X, Y,
 * Z; paper shifts in CIELAB and multiplies everything; a spot's recipe shifts its colours in
 * CIELAB, in proportion to the tint; a region moves all colours near to one in CIELAB, with a
 * Gaussian of the distance. One scale, drawn first, is common to all, so that devices range from
 * sound to bad.
 */
final class PowerDrift {
  /** What drifts. */
  enum Causes {
    /** Tone value, density and paper. */
    DEVICE("power-device"),
    /** These, and the recipes of spot inks. */
    RECIPES("power"),
    /** These, and a region of hue. */
    REGION("power-local");

    /** The results' file name. */
    final String file;

    Causes(String file) {
      this.file = file;
    }
  }

  private static final ReferenceWhite WHITE = ReferenceWhite.ISO_13655;
  private static final double TONE_PERCENT = 3.2;
  private static final double DENSITY_SHARE = 0.07;
  private static final double PAPER = 1.2;
  private static final double SPOT = 2.2;
  private static final double REGION = 5;
  private static final double REGION_RADIUS = 22;

  private final List<Colorant> colorants;
  private final double[] tone;
  private final double[] density;
  private final double[] paper;
  private final double[] region; // center, then shift; null for none
  private final AimModel drifted;
  private final double[][] solids; // XYZ over the paper's
  private final Xyz paperXyz;

  /**
   * Draws a device.
   *
   * @param hueCenter of the region; null where none drifts
   */
  PowerDrift(
      ReferenceCondition condition,
      Map<String, SpotInk> spots,
      List<Colorant> colorants,
      Causes causes,
      Lab hueCenter,
      Random random) {
    this.colorants = colorants;
    double scale = 0.25 + 1.75 * random.nextDouble();
    int inks = colorants.size();
    this.tone = new double[inks];
    this.density = new double[inks];
    double common = random.nextGaussian();
    for (int c = 0; c < inks; c++) {
      tone[c] = scale * TONE_PERCENT / 100 * (0.6 * common + 0.8 * random.nextGaussian());
      density[c] = scale * DENSITY_SHARE * random.nextGaussian();
    }
    this.paper = gaussians(scale * PAPER / Math.sqrt(3), random);
    Map<String, SpotInk> shifted = new HashMap<>(spots);
    for (Colorant colorant : colorants) {
      if (colorant.isSpot() && causes != Causes.DEVICE) {
        double[] shift = gaussians(scale * SPOT / Math.sqrt(3), random);
        shifted.put(colorant.name(), shifted(spots.get(colorant.name()), shift));
      }
    }
    if (hueCenter != null) {
      double[] shift = gaussians(scale * REGION / Math.sqrt(3), random);
      this.region =
          new double[] {hueCenter.l(), hueCenter.a(), hueCenter.b(), shift[0], shift[1], shift[2]};
    } else {
      this.region = null;
    }
    this.drifted = new AimModel(condition, shifted);
    this.paperXyz = WHITE.toXyz(condition.paper());
    this.solids = new double[inks][];
    for (int c = 0; c < inks; c++) {
      char[] solid = new char[inks];
      solid[c] = Tint.FULL;
      float[] lab = new float[3];
      drifted.aims(colorants, solid, lab, new AimSource[1]);
      Xyz xyz = WHITE.toXyz(new Lab(lab[0], lab[1], lab[2]));
      solids[c] =
          new double[] {
            xyz.x() / paperXyz.x(), xyz.y() / paperXyz.y(), xyz.z() / paperXyz.z(),
          };
    }
  }

  private static double[] gaussians(double deviation, Random random) {
    return new double[] {
      deviation * random.nextGaussian(),
      deviation * random.nextGaussian(),
      deviation * random.nextGaussian()
    };
  }

  private static SpotInk shifted(SpotInk ink, double[] shift) {
    Map<Double, Lab> ramp = new HashMap<>();
    ink.ramp()
        .forEach(
            (percent, lab) ->
                ramp.put(
                    percent,
                    new Lab(
                        Math.max(0, lab.l() + shift[0] * percent / 100),
                        lab.a() + shift[1] * percent / 100,
                        lab.b() + shift[2] * percent / 100)));
    return new SpotInk(ink.name(), new java.util.TreeMap<>(ramp), ink.source());
  }

  /**
   * Prints many mixtures.
   *
   * @param tints row by row, one a colorant
   * @return L*, a*, b* a row
   */
  float[] print(char[] tints) {
    int inks = colorants.size();
    int rows = tints.length / inks;
    char[][] moved = new char[inks][Tint.FULL + 1];
    for (int c = 0; c < inks; c++) {
      for (int i = 0; i <= Tint.FULL; i++) {
        double t = (double) i / Tint.FULL;
        moved[c][i] = (char) Tint.ofFraction(t + 4 * tone[c] * t * (1 - t));
      }
    }
    char[] out = new char[tints.length];
    for (int i = 0; i < tints.length; i++) {
      out[i] = moved[i % inks][tints[i]];
    }
    float[] lab = new float[3 * rows];
    drifted.aims(colorants, out, lab, new AimSource[rows]);
    double[] white =
        xyzOverPaper(
            new Lab(
                drifted.condition().paper().l() + paper[0],
                drifted.condition().paper().a() + paper[1],
                drifted.condition().paper().b() + paper[2]));
    double[][][] thicker = thicker();
    for (int row = 0; row < rows; row++) {
      Xyz xyz = WHITE.toXyz(new Lab(lab[3 * row], lab[3 * row + 1], lab[3 * row + 2]));
      double x = xyz.x() * white[0];
      double y = xyz.y() * white[1];
      double z = xyz.z() * white[2];
      for (int c = 0; c < inks; c++) {
        int tint = out[row * inks + c];
        if (tint > 0) {
          double[] factor = thicker[c][tint / 50];
          x *= factor[0];
          y *= factor[1];
          z *= factor[2];
        }
      }
      put(WHITE.toLab(new Xyz(x, y, z)), lab, row);
    }
    return lab;
  }

  private double[] xyzOverPaper(Lab lab) {
    Xyz xyz = WHITE.toXyz(lab);
    return new double[] {
      xyz.x() / paperXyz.x(), xyz.y() / paperXyz.y(), xyz.z() / paperXyz.z(),
    };
  }

  /** By colorant and tint: what the solid's changed density does to X, Y, Z. */
  private double[][][] thicker() {
    double[][][] factors = new double[solids.length][Tint.FULL / 50 + 1][3];
    for (int c = 0; c < solids.length; c++) {
      for (int i = 0; i < factors[c].length; i++) {
        double a = 50.0 * i / Tint.FULL;
        for (int axis = 0; axis < 3; axis++) {
          double r = Math.max(1e-4, solids[c][axis]);
          factors[c][i][axis] = (1 - a + a * Math.pow(r, 1 + density[c])) / (1 - a + a * r);
        }
      }
    }
    return factors;
  }

  private void put(Lab color, float[] lab, int row) {
    double l = color.l();
    double a = color.a();
    double b = color.b();
    if (region != null) {
      double dl = l - region[0];
      double da = a - region[1];
      double db = b - region[2];
      double near = Math.exp(-(dl * dl + da * da + db * db) / (2 * REGION_RADIUS * REGION_RADIUS));
      l += near * region[3];
      a += near * region[4];
      b += near * region[5];
    }
    lab[3 * row] = (float) Math.max(0, l);
    lab[3 * row + 1] = (float) a;
    lab[3 * row + 2] = (float) b;
  }
}
