package selvage.separation;

import java.util.Arrays;
import selvage.color.Lab;
import selvage.color.ProcessSeparation;
import selvage.color.ReferenceCondition;
import selvage.color.ReferenceWhite;
import selvage.color.SourceColor;
import selvage.color.Xyz;
import selvage.finding.InputException;

/** Conversions between device-independent and RGB colours and the condition's process tints. */
final class ProcessLinks {
  static final int MOST_PROFILE_BYTES = 32 << 20;

  private static final ReferenceWhite WHITE = ReferenceWhite.ISO_13655;

  private final ReferenceCondition condition;
  private final byte[] intentProfile;
  private RgbLink toRgb;
  private GrayLink toBlack;
  private ProcessSpaces.Converted deviceRgb;

  /**
   * Links to a condition.
   *
   * @param intentProfile the job's output profile; null where it has none
   */
  ProcessLinks(ReferenceCondition condition, byte[] intentProfile) {
    this.condition = condition;
    this.intentProfile = intentProfile;
  }

  /** Whether CMYK of a profile is taken as the condition's own. */
  boolean passes(byte[] profile) {
    return intentProfile == null || Arrays.equals(profile, intentProfile);
  }

  ProcessSpaces.Converted deviceRgb() {
    if (deviceRgb == null) {
      deviceRgb = new ProcessSpaces.Converted(SourceColor.srgb(), condition.fromSrgb(), true);
    }
    return deviceRgb;
  }

  private ProcessSpaces.Converted converted(SourceColor source) {
    return new ProcessSpaces.Converted(source, new ProcessSeparation(source, condition), false);
  }

  SourceSpace calGray(float gamma) {
    return black(SourceColor.calGray(gamma > 0 ? gamma : 1));
  }

  private SourceSpace black(SourceColor source) {
    if (toBlack == null) {
      toBlack = new GrayLink(condition);
    }
    return new ProcessSpaces.ToneGray(source, toBlack);
  }

  SourceSpace calRgb(float[] white, float[] gamma, float[] matrix) throws InputException {
    return converted(
        SourceColor.calRgb(
            doubles(white, 0.9505, 1, 1.089),
            doubles(gamma, 1, 1, 1),
            doubles(matrix, 1, 0, 0, 0, 1, 0, 0, 0, 1)));
  }

  private static double[] doubles(float[] stated, double... otherwise) {
    if (stated.length != otherwise.length) {
      return otherwise;
    }
    double[] values = new double[stated.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = stated[i];
    }
    return values;
  }

  SourceSpace lab(float[] range) {
    return converted(SourceColor.lab(doubles(range, -100, 100, -100, 100)));
  }

  /**
   * The space of an ICC profile.
   *
   * @throws InputException where the profile can't be read or has another number of components
   */
  SourceSpace icc(byte[] profile, int components) throws InputException {
    SourceColor source = SourceColor.icc("an ICC profile", profile);
    if (source.components() != components) {
      throw InputException.of(
          "an ICC profile", "expected " + components + " components, found " + source.components());
    }
    return components == 1 ? black(source) : converted(source);
  }

  /** The colour of process tints in additive sRGB, media-relative with the black point adapted. */
  void cmykToRgb(float[] cmyk, float[] rgb) {
    if (toRgb == null) {
      toRgb = new RgbLink(condition);
    }
    toRgb.convert(cmyk, rgb);
  }

  /** Gray tones as black ink of the same lightness, paper and full black being the ends. */
  static final class GrayLink {
    private static final int STEPS = 200;

    private final double[] luminance = new double[STEPS + 1]; // Y relative to paper, by tint

    GrayLink(ReferenceCondition condition) {
      double paper = WHITE.toXyz(condition.paper()).y();
      double solid = WHITE.toXyz(condition.aim(0, 0, 0, 100).lab()).y();
      for (int i = 0; i <= STEPS; i++) {
        double y = WHITE.toXyz(condition.aim(0, 0, 0, 100.0 * i / STEPS).lab()).y();
        luminance[i] = (y - solid) / (paper - solid);
      }
    }

    /**
     * The tint of black, 0 to 1, for a media-relative lightness.
     *
     * @param lightness L*, 100 for paper
     */
    double tint(double lightness) {
      double wanted = WHITE.toXyz(new Lab(Math.max(0, Math.min(100, lightness)), 0, 0)).y() / 100;
      int i = 0;
      while (i < STEPS && luminance[i + 1] > wanted) {
        i++;
      }
      if (i == STEPS) {
        return 1;
      }
      double span = luminance[i] - luminance[i + 1];
      double part = span > 0 ? (luminance[i] - wanted) / span : 0;
      return (i + Math.max(0, Math.min(1, part))) / STEPS;
    }
  }

  /** From process tints to sRGB. */
  private static final class RgbLink {
    private final ReferenceCondition condition;
    private final Xyz paper;
    private final Xyz darkest;

    RgbLink(ReferenceCondition condition) {
      this.condition = condition;
      paper = WHITE.toXyz(condition.paper());
      float[] black = condition.separate(new Lab(0, 0, 0));
      darkest =
          WHITE.toXyz(
              condition
                  .aim(100.0 * black[0], 100.0 * black[1], 100.0 * black[2], 100.0 * black[3])
                  .lab());
    }

    void convert(float[] cmyk, float[] rgb) {
      Xyz color =
          WHITE.toXyz(
              condition
                  .aim(percent(cmyk[0]), percent(cmyk[1]), percent(cmyk[2]), percent(cmyk[3]))
                  .lab());
      double x = relative(color.x(), darkest.x(), paper.x()) * 0.96422;
      double y = relative(color.y(), darkest.y(), paper.y());
      double z = relative(color.z(), darkest.z(), paper.z()) * 0.82521;
      // XYZ (D50) to linear sRGB: the inverse of the sRGB primaries adapted by Bradford; from
      // memory, checked by white giving 1, 1, 1.
      rgb[0] = encode(3.1338561 * x - 1.6168667 * y - 0.4906146 * z);
      rgb[1] = encode(-0.9787684 * x + 1.9161415 * y + 0.0334540 * z);
      rgb[2] = encode(0.0719453 * x - 0.2289914 * y + 1.4052427 * z);
    }

    private static double percent(float fraction) {
      return 100 * Math.max(0, Math.min(1, fraction));
    }

    private static double relative(double value, double least, double most) {
      return (value - least) / (most - least);
    }

    /** The transfer function of IEC 61966-2-1. */
    private static float encode(double linear) {
      double clipped = Math.max(0, Math.min(1, linear));
      return (float)
          (clipped <= 0.0031308 ? 12.92 * clipped : 1.055 * Math.pow(clipped, 1 / 2.4) - 0.055);
    }
  }
}
