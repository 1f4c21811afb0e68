package selvage.color;

/**
 * CIEDE2000 in bulk, for searches over many colours: single precision, the chroma of each colour
 * given by the caller, no angle computed. {@link ColorDifference#de00} is the plain form; a test
 * holds the two together to 0.001 of the difference.
 *
 * <p>Why it exists: thinning a photograph's colours and picking patches takes some ten million
 * differences; docs/benchmarks.md has the cost of one in either form.
 */
public final class De00Kernel {
  private static final float POW7_OF_25 = 6.1035156E9f;
  private static final float COS_30 = 0.8660254f;
  private static final float SIN_30 = 0.5f;
  private static final float COS_6 = 0.9945219f;
  private static final float SIN_6 = 0.10452846f;
  private static final float COS_63 = 0.4539905f;
  private static final float SIN_63 = 0.8910065f;

  /** Above this sine of the mean hue the rotation term moves no difference by 0.001 of itself. */
  private static final float BLUE_SIN = -0.3f;

  private static final float[] TURNED = turnedByCosine();

  private De00Kernel() {}

  /** The chroma C*ab that the other methods want beside a colour. */
  public static float chroma(float a, float b) {
    return (float) Math.sqrt(a * a + b * b);
  }

  /** A lower bound of CIEDE2000 from lightness alone, for skipping far colours. */
  public static float atLeast(float l1, float l2) {
    float mid = (l1 + l2) / 2 - 50;
    float l50 = mid * mid;
    return Math.abs(l2 - l1) / (1 + 0.015f * l50 / (float) Math.sqrt(20 + l50));
  }

  /**
   * CIEDE2000 between two colours, kL = kC = kH = 1.
   *
   * @param c1 chroma of the first, {@link #chroma}
   * @param c2 chroma of the second
   */
  public static float de00(
      float l1, float a1, float b1, float c1, float l2, float a2, float b2, float c2) {
    float stretch = 1.5f - 0.5f * saturation((c1 + c2) / 2);
    float p1 = a1 * stretch;
    float p2 = a2 * stretch;
    float cp1 = (float) Math.sqrt(p1 * p1 + b1 * b1);
    float cp2 = (float) Math.sqrt(p2 * p2 + b2 * b2);
    float cMean = (cp1 + cp2) / 2;

    // Unit vectors of the two hues; their sum points to the mean hue, on the nearer side.
    float u1 = cp1 > 0 ? p1 / cp1 : 1;
    float v1 = cp1 > 0 ? b1 / cp1 : 0;
    float u2 = cp2 > 0 ? p2 / cp2 : 1;
    float v2 = cp2 > 0 ? b2 / cp2 : 0;
    if (cp1 == 0) {
      u1 = u2;
      v1 = v2;
    } else if (cp2 == 0) {
      u2 = u1;
      v2 = v1;
    }
    float cos = u1 + u2;
    float sin = v1 + v2;
    float length = (float) Math.sqrt(cos * cos + sin * sin);
    if (length < 1e-3f) {
      return (float) ColorDifference.de00(new Lab(l1, a1, b1), new Lab(l2, a2, b2));
    }
    cos /= length;
    sin /= length;

    float cos2 = 2 * cos * cos - 1;
    float sin2 = 2 * sin * cos;
    float cos3 = cos2 * cos - sin2 * sin;
    float sin3 = sin2 * cos + cos2 * sin;
    float cos4 = 2 * cos2 * cos2 - 1;
    float sin4 = 2 * sin2 * cos2;
    float t =
        1
            - 0.17f * (cos * COS_30 + sin * SIN_30)
            + 0.24f * cos2
            + 0.32f * (cos3 * COS_6 - sin3 * SIN_6)
            - 0.20f * (cos4 * COS_63 + sin4 * SIN_63);

    float l = atLeast(l1, l2);
    float c = (cp2 - cp1) / (1 + 0.045f * cMean);
    // 2 √(C₁C₂) sin(Δh/2), from the cross product and the half angle's cosine, length / 2.
    float halfTurn = (u1 * v2 - v1 * u2) / length;
    float h = 2 * (float) Math.sqrt(cp1 * cp2) * halfTurn / (1 + 0.015f * cMean * t);
    float rotation = sin < BLUE_SIN ? -2 * saturation(cMean) * turned(cos) : 0;
    return (float) Math.sqrt(Math.max(0, l * l + c * c + h * h + rotation * c * h));
  }

  /**
   * sin 2Δθ of the blue region, interpolated from the table; {@code cos} of a hue below the axis.
   */
  private static float turned(float cos) {
    float place = (cos + 1) * (TURNED.length - 2) / 2;
    int below = (int) place;
    return TURNED[below] + (place - below) * (TURNED[below + 1] - TURNED[below]);
  }

  private static float[] turnedByCosine() {
    float[] table = new float[1026];
    for (int i = 0; i < table.length - 1; i++) {
      double cos = Math.min(1, 2.0 * i / (table.length - 2) - 1);
      double blue = (360 - StrictMath.toDegrees(StrictMath.acos(cos)) - 275) / 25;
      table[i] = (float) StrictMath.sin(StrictMath.toRadians(60 * StrictMath.exp(-blue * blue)));
    }
    table[table.length - 1] = table[table.length - 2];
    return table;
  }

  /** √(C⁷ / (C⁷ + 25⁷)). */
  private static float saturation(float chroma) {
    float c2 = chroma * chroma;
    float c7 = c2 * c2 * c2 * chroma;
    return (float) Math.sqrt(c7 / (c7 + POW7_OF_25));
  }
}
