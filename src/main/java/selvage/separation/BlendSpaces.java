package selvage.separation;

import selvage.ink.Tint;

/** Takes state rows from one blending colour space to another. */
final class BlendSpaces {
  private final ProcessLinks links;
  private final float[] rgb = new float[3];
  private final float[] cmyk = new float[4];

  BlendSpaces(ProcessLinks links) {
    this.links = links;
  }

  /** Rewrites the process slots of a row; spot slots stay. */
  void convert(char[] row, Layer.Blending from, Layer.Blending to) {
    if (from == to) {
      return;
    }
    readCmykOrRgb(row, from);
    switch (to) {
      case CMYK -> {
        if (from == Layer.Blending.RGB) {
          links.deviceRgb().convert(rgb, cmyk);
        }
        for (int i = 0; i < 4; i++) {
          row[StateTable.INKS + i] = (char) Tint.ofFraction(cmyk[i]);
        }
      }
      case RGB -> {
        if (from != Layer.Blending.RGB) {
          links.cmykToRgb(cmyk, rgb);
        }
        writeRgb(row, rgb);
      }
      case GRAY -> {
        if (from != Layer.Blending.RGB) {
          links.cmykToRgb(cmyk, rgb);
        }
        writeGray(row, rgb);
      }
    }
  }

  /** Writes additive RGB into the process slots of an RGB layer's row. */
  static void writeRgb(char[] row, float[] rgb) {
    for (int i = 0; i < 3; i++) {
      row[StateTable.INKS + i] = (char) Tint.ofFraction(1 - rgb[i]);
    }
    row[StateTable.INKS + 3] = 0;
  }

  /** Writes additive RGB into the process slots of a gray layer's row. */
  static void writeGray(char[] row, float[] rgb) {
    for (int i = 0; i < 3; i++) {
      row[StateTable.INKS + i] = 0;
    }
    row[StateTable.INKS + 3] = (char) Tint.ofFraction(1 - Blend.luminosity(rgb));
  }

  private void readCmykOrRgb(char[] row, Layer.Blending from) {
    float full = Tint.FULL;
    if (from == Layer.Blending.RGB) {
      for (int i = 0; i < 3; i++) {
        rgb[i] = 1 - row[StateTable.INKS + i] / full;
      }
      return;
    }
    // A gray layer is a CMYK layer with black alone.
    for (int i = 0; i < 4; i++) {
      cmyk[i] = row[StateTable.INKS + i] / full;
    }
  }
}
