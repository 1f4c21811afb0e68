package selvage.separation;

/**
 * The blend modes of ISO 32000-2, 11.3.5, on additive values from 0 to 1 (1 is no ink).
 *
 * <p>Spot colorants take part in the separable, white-preserving modes only; any other mode is
 * Normal for them (11.7.4.2).
 */
enum Blend {
  NORMAL("Normal", true, true),
  MULTIPLY("Multiply", true, true),
  SCREEN("Screen", true, true),
  OVERLAY("Overlay", true, true),
  DARKEN("Darken", true, true),
  LIGHTEN("Lighten", true, true),
  COLOR_DODGE("ColorDodge", true, true),
  COLOR_BURN("ColorBurn", true, true),
  HARD_LIGHT("HardLight", true, true),
  SOFT_LIGHT("SoftLight", true, true),
  DIFFERENCE("Difference", true, false),
  EXCLUSION("Exclusion", true, false),
  HUE("Hue", false, false),
  SATURATION("Saturation", false, false),
  COLOR("Color", false, false),
  LUMINOSITY("Luminosity", false, false);

  private final String pdfName;
  private final boolean separable;
  private final boolean whitePreserving;

  Blend(String pdfName, boolean separable, boolean whitePreserving) {
    this.pdfName = pdfName;
    this.separable = separable;
    this.whitePreserving = whitePreserving;
  }

  /** The mode of a PDF name, or null where there is none; {@code Compatible} is Normal. */
  static Blend ofPdfName(String name) {
    for (Blend blend : values()) {
      if (blend.pdfName.equals(name)) {
        return blend;
      }
    }
    return name.equals("Compatible") ? NORMAL : null;
  }

  boolean isSeparable() {
    return separable;
  }

  /** Whether spot colorants are blended by this mode, not painted over. */
  boolean reachesSpots() {
    return separable && whitePreserving;
  }

  /**
   * A separable mode's result.
   *
   * @param b backdrop, 0 to 1, additive
   * @param s source, the same
   */
  float of(float b, float s) {
    return switch (this) {
      case MULTIPLY -> b * s;
      case SCREEN -> b + s - b * s;
      case OVERLAY -> HARD_LIGHT.of(s, b);
      case DARKEN -> Math.min(b, s);
      case LIGHTEN -> Math.max(b, s);
      case COLOR_DODGE -> b <= 0 ? 0 : s >= 1 ? 1 : Math.min(1, b / (1 - s));
      case COLOR_BURN -> b >= 1 ? 1 : s <= 0 ? 0 : 1 - Math.min(1, (1 - b) / s);
      case HARD_LIGHT -> s <= 0.5f ? b * 2 * s : SCREEN.of(b, 2 * s - 1);
      case SOFT_LIGHT -> softLight(b, s);
      case DIFFERENCE -> Math.abs(b - s);
      case EXCLUSION -> b + s - 2 * b * s;
      default -> s;
    };
  }

  private static float softLight(float b, float s) {
    if (s <= 0.5f) {
      return b - (1 - 2 * s) * b * (1 - b);
    }
    float d = b <= 0.25f ? ((16 * b - 12) * b + 4) * b : (float) Math.sqrt(b);
    return b + (2 * s - 1) * (d - b);
  }

  /**
   * A non-separable mode's result for three additive components.
   *
   * @param b backdrop, three values from 0 to 1
   * @param s source, the same
   * @param out takes the result
   */
  void of(float[] b, float[] s, float[] out) {
    switch (this) {
      case HUE -> {
        setSaturation(s, saturation(b), out);
        setLuminosity(out, luminosity(b));
      }
      case SATURATION -> {
        setSaturation(b, saturation(s), out);
        setLuminosity(out, luminosity(b));
      }
      case COLOR -> {
        System.arraycopy(s, 0, out, 0, 3);
        setLuminosity(out, luminosity(b));
      }
      case LUMINOSITY -> {
        System.arraycopy(b, 0, out, 0, 3);
        setLuminosity(out, luminosity(s));
      }
      default -> throw new IllegalStateException(this + " is separable");
    }
  }

  /** Luminosity as 11.3.5.3 defines it. */
  static float luminosity(float[] c) {
    return 0.3f * c[0] + 0.59f * c[1] + 0.11f * c[2];
  }

  private static float saturation(float[] c) {
    return Math.max(c[0], Math.max(c[1], c[2])) - Math.min(c[0], Math.min(c[1], c[2]));
  }

  private static void setLuminosity(float[] c, float target) {
    float shift = target - luminosity(c);
    for (int i = 0; i < 3; i++) {
      c[i] += shift;
    }
    float light = luminosity(c);
    float least = Math.min(c[0], Math.min(c[1], c[2]));
    float most = Math.max(c[0], Math.max(c[1], c[2]));
    if (least < 0) {
      for (int i = 0; i < 3; i++) {
        c[i] = light + (c[i] - light) * light / (light - least);
      }
    }
    if (most > 1) {
      for (int i = 0; i < 3; i++) {
        c[i] = light + (c[i] - light) * (1 - light) / (most - light);
      }
    }
  }

  private static void setSaturation(float[] c, float target, float[] out) {
    float least = Math.min(c[0], Math.min(c[1], c[2]));
    float range = saturation(c);
    for (int i = 0; i < 3; i++) {
      out[i] = range > 0 ? (c[i] - least) * target / range : 0;
    }
  }
}
