package selvage.color;

/**
 * Colour differences between two CIELAB colours of the same white. The reference comes first;
 * signed differences are sample minus reference.
 *
 * <p>Hue terms use {@link StrictMath}: in CIEDE2000 the last bit of an angle can decide which way
 * round the circle the mean hue lies.
 */
public final class ColorDifference {
  private static final double POW7_OF_25 = 6103515625.0;

  private ColorDifference() {}

  /**
   * CIEDE2000 with kL = kC = kH = 1 (ISO/CIE 11664-6:2014; steps as in [sharma2005]). Symmetric.
   */
  public static double de00(Lab reference, Lab sample) {
    double c1 = chroma(reference);
    double c2 = chroma(sample);
    double g = 0.5 * (1 - saturation((c1 + c2) / 2));
    double a1 = (1 + g) * reference.a();
    double a2 = (1 + g) * sample.a();
    double cp1 = StrictMath.sqrt(a1 * a1 + reference.b() * reference.b());
    double cp2 = StrictMath.sqrt(a2 * a2 + sample.b() * sample.b());
    double h1 = hueDegrees(a1, reference.b());
    double h2 = hueDegrees(a2, sample.b());

    double dl = sample.l() - reference.l();
    double dc = cp2 - cp1;
    double dh = 0;
    double hueMean = h1 + h2;
    if (cp1 * cp2 != 0) {
      double turn = h2 - h1;
      if (Math.abs(turn) <= 180) {
        hueMean = (h1 + h2) / 2;
      } else {
        hueMean = h1 + h2 < 360 ? (h1 + h2 + 360) / 2 : (h1 + h2 - 360) / 2;
        turn += turn > 180 ? -360 : 360;
      }
      dh = 2 * StrictMath.sqrt(cp1 * cp2) * sinDegrees(turn / 2);
    }

    double lMean = (reference.l() + sample.l()) / 2;
    double cMean = (cp1 + cp2) / 2;
    double t =
        1
            - 0.17 * cosDegrees(hueMean - 30)
            + 0.24 * cosDegrees(2 * hueMean)
            + 0.32 * cosDegrees(3 * hueMean + 6)
            - 0.20 * cosDegrees(4 * hueMean - 63);
    double l50 = (lMean - 50) * (lMean - 50);
    double sl = 1 + 0.015 * l50 / StrictMath.sqrt(20 + l50);
    double sc = 1 + 0.045 * cMean;
    double sh = 1 + 0.015 * cMean * t;
    double blue = (hueMean - 275) / 25;
    double rotation = 30 * StrictMath.exp(-blue * blue);
    double rt = -2 * saturation(cMean) * sinDegrees(2 * rotation);

    double l = dl / sl;
    double c = dc / sc;
    double h = dh / sh;
    return StrictMath.sqrt(Math.max(0, l * l + c * c + h * h + rt * c * h));
  }

  /** CIELAB 1976, ΔE*ab: the distance (ISO/CIE 11664-4:2019) [cie15]. Symmetric. */
  public static double de76(Lab reference, Lab sample) {
    double dl = dL(reference, sample);
    double dch = dCh(reference, sample);
    return StrictMath.sqrt(dl * dl + dch * dch);
  }

  /**
   * CIE94 for graphic arts: kL = kC = kH = 1, K1 = 0.045, K2 = 0.015, weighted by the chroma of the
   * reference (CIE 116-1995) [cie116]. Not symmetric.
   */
  public static double de94(Lab reference, Lab sample) {
    double c1 = chroma(reference);
    double dl = dL(reference, sample);
    double dc = chroma(sample) - c1;
    double da = sample.a() - reference.a();
    double db = sample.b() - reference.b();
    double dhSquared = Math.max(0, da * da + db * db - dc * dc);
    double c = dc / (1 + 0.045 * c1);
    double sh = 1 + 0.015 * c1;
    return StrictMath.sqrt(dl * dl + c * c + dhSquared / (sh * sh));
  }

  /**
   * ΔCh, the distance in the a*b* plane: √(Δa*² + Δb*²). For near-neutrals, where hue has no
   * meaning (ISO 12647-7, quoted in [bvdm2018]). Symmetric, never negative.
   */
  public static double dCh(Lab reference, Lab sample) {
    double da = sample.a() - reference.a();
    double db = sample.b() - reference.b();
    return StrictMath.sqrt(da * da + db * db);
  }

  /**
   * ΔH*ab = 2 √(C₁C₂) sin(Δh/2) (ISO/CIE 11664-4:2019) [cie15]: positive where the sample's hue
   * angle is the greater one, 0 where either colour is neutral.
   */
  public static double dH(Lab reference, Lab sample) {
    double product = chroma(reference) * chroma(sample);
    if (product == 0) {
      return 0;
    }
    double turn = hueDegrees(sample.a(), sample.b()) - hueDegrees(reference.a(), reference.b());
    if (turn > 180) {
      turn -= 360;
    } else if (turn < -180) {
      turn += 360;
    }
    return 2 * StrictMath.sqrt(product) * sinDegrees(turn / 2);
  }

  /** ΔL*, sample minus reference. */
  public static double dL(Lab reference, Lab sample) {
    return sample.l() - reference.l();
  }

  private static double chroma(Lab lab) {
    return StrictMath.sqrt(lab.a() * lab.a() + lab.b() * lab.b());
  }

  /** √(C⁷ / (C⁷ + 25⁷)). */
  private static double saturation(double chroma) {
    double c2 = chroma * chroma;
    double c7 = c2 * c2 * c2 * chroma;
    return StrictMath.sqrt(c7 / (c7 + POW7_OF_25));
  }

  /** The hue angle in degrees, 0 to 360; 0 for a neutral. */
  private static double hueDegrees(double a, double b) {
    if (a == 0 && b == 0) {
      return 0;
    }
    double degrees = StrictMath.toDegrees(StrictMath.atan2(b, a));
    return degrees < 0 ? degrees + 360 : degrees;
  }

  private static double sinDegrees(double degrees) {
    return StrictMath.sin(StrictMath.toRadians(degrees));
  }

  private static double cosDegrees(double degrees) {
    return StrictMath.cos(StrictMath.toRadians(degrees));
  }
}
