package selvage.strip;

/**
 * A space in which straight distances are about as large as CIEDE2000: L*, and a* and b* with the
 * weights of CIEDE2000 for lightness and chroma and its stretch of a* integrated along their axes.
 * Its distance E guides searches and bounds ΔE00, it never stands for it.
 *
 * <p>Over two million random pairs within ΔE00 8 of each other, ΔE00 / E was 0.85 to 1.30 outside
 * the blues, 0.40 to 1.72 within them, where the rotation term pulls.
 */
final class EvenSpace {
  /** No pair of colours near to each other, blues apart, has ΔE00 below this times E. */
  static final float LEAST_QUOTIENT = 0.85f;

  /** The same for blues. */
  static final float LEAST_QUOTIENT_OF_BLUES = 0.39f;

  /**
   * Times ΔE00, no step in the first coordinate is larger: the difference in lightness is one of
   * its terms, and the others are never negative together. A tenth is for tables and curvature.
   */
  static final float MOST_STEP_OF_LIGHTNESS = 1.1f;

  private static final double CHROMA_WEIGHT = 0.045;
  private static final double POW7_OF_25 = 6103515625.0;
  private static final float STEPS_A_UNIT = 8;
  private static final int MOST_CHROMA = 256;
  private static final int MOST_LIGHTNESS = 128;

  private static final float[] LIGHTNESS = lightness();
  private static final float[] STRETCH = stretch();
  private static final float[] SHORTEN = shorten();

  private EvenSpace() {}

  /** ∫ dL / S_L, S_L as CIEDE2000 weighs lightness. */
  private static float[] lightness() {
    float[] table = new float[(int) (MOST_LIGHTNESS * STEPS_A_UNIT)];
    double sum = 0;
    for (int i = 1; i < table.length; i++) {
      double mid = (i - 0.5) / STEPS_A_UNIT - 50;
      sum += 1 / STEPS_A_UNIT / (1 + 0.015 * mid * mid / Math.sqrt(20 + mid * mid));
      table[i] = (float) sum;
    }
    return table;
  }

  /** ∫ (1 + G) dC over C, G being what CIEDE2000 stretches a* by, by chroma. */
  private static float[] stretch() {
    float[] table = new float[(int) (MOST_CHROMA * STEPS_A_UNIT)];
    table[0] = 1.5f;
    double sum = 0;
    for (int i = 1; i < table.length; i++) {
      double c7 = Math.pow((i - 0.5) / STEPS_A_UNIT, 7);
      sum += 1.5 - 0.5 * Math.sqrt(c7 / (c7 + POW7_OF_25));
      table[i] = (float) (sum / i);
    }
    return table;
  }

  /** ∫ dC / S_C over C, by stretched chroma. */
  private static float[] shorten() {
    float[] table = new float[(int) (2 * MOST_CHROMA * STEPS_A_UNIT)];
    table[0] = 1;
    for (int i = 1; i < table.length; i++) {
      double c = i / STEPS_A_UNIT;
      table[i] = (float) (Math.log1p(CHROMA_WEIGHT * c) / CHROMA_WEIGHT / c);
    }
    return table;
  }

  /**
   * Places a colour.
   *
   * @param out takes three coordinates from {@code at} on
   */
  static void place(float l, float a, float b, float[] out, int at) {
    float stretched = a * looked(STRETCH, (float) Math.sqrt(a * a + b * b));
    float shorten = looked(SHORTEN, (float) Math.sqrt(stretched * stretched + b * b));
    out[at] = looked(LIGHTNESS, l);
    out[at + 1] = stretched * shorten;
    out[at + 2] = b * shorten;
  }

  private static float looked(float[] table, float value) {
    int index = (int) (value * STEPS_A_UNIT + 0.5f);
    return table[Math.max(0, Math.min(index, table.length - 1))];
  }

  /** The square of E between two placed colours. */
  static float squared(float[] one, int i, float[] other, int j) {
    float u = one[i] - other[j];
    float v = one[i + 1] - other[j + 1];
    float w = one[i + 2] - other[j + 2];
    return u * u + v * v + w * w;
  }

  /** The bound that holds around a colour. */
  static float leastQuotient(float a, float b) {
    return isBlue(a, b) ? LEAST_QUOTIENT_OF_BLUES : LEAST_QUOTIENT;
  }

  /** Whether CIEDE2000's rotation term may weigh much: hue angles of 214 to 326 degrees. */
  static boolean isBlue(float a, float b) {
    return b < 0 && a * a + b * b > 144 && Math.abs(a) < -1.5f * b;
  }
}
