package selvage.separation;

import java.util.HashMap;
import java.util.Map;
import selvage.ink.Tint;

/**
 * Takes state rows from one blending colour space to another.
 *
 * <p>Each distinct colour is converted once a page. What an image or a shading had a part in goes
 * through a grid, as their own samples do; so do the colours beyond the first few thousand, which
 * only soft edges and blended gradients have.
 */
final class BlendSpaces {
  private static final int COMPUTED = ObjectKind.IMAGE.bit() | ObjectKind.SHADING.bit();
  private static final int MOST_EXACT = 4096;

  private final ProcessLinks links;
  private final float[] rgb = new float[3];
  private final float[] cmyk = new float[4];
  private final Map<Long, Long> exact = new HashMap<>();

  BlendSpaces(ProcessLinks links) {
    this.links = links;
  }

  /** Rewrites the process slots of a row; spot slots stay. */
  void convert(char[] row, Layer.Blending from, Layer.Blending to) {
    if (from == to) {
      return;
    }
    if (to == Layer.Blending.CMYK) {
      // A gray layer is a CMYK layer with black alone.
      if (from == Layer.Blending.RGB) {
        rgbToCmyk(row);
      }
      return;
    }
    readCmykOrRgb(row, from);
    if (from != Layer.Blending.RGB) {
      links.cmykToRgb(cmyk, rgb);
    }
    if (to == Layer.Blending.RGB) {
      writeRgb(row, rgb);
    } else {
      writeGray(row, rgb);
    }
  }

  private void rgbToCmyk(char[] row) {
    int first = StateTable.INKS;
    if ((row[StateTable.KINDS] & COMPUTED) == 0) {
      long key = (long) row[first] << 32 | (long) row[first + 1] << 16 | row[first + 2];
      Long known = exact.get(key);
      if (known == null && exact.size() < MOST_EXACT) {
        known = exactCmyk(row);
        exact.put(key, known);
      }
      if (known != null) {
        for (int i = 0; i < 4; i++) {
          row[first + i] = (char) (known >>> (48 - 16 * i));
        }
        return;
      }
    }
    links
        .deviceRgb()
        .convertOfMany(
            Tint.FULL - row[first],
            Tint.FULL - row[first + 1],
            Tint.FULL - row[first + 2],
            row,
            first);
  }

  private long exactCmyk(char[] row) {
    readCmykOrRgb(row, Layer.Blending.RGB);
    links.deviceRgb().convert(rgb, cmyk);
    long packed = 0;
    for (int i = 0; i < 4; i++) {
      packed = packed << 16 | Tint.ofFraction(cmyk[i]);
    }
    return packed;
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
    for (int i = 0; i < 4; i++) {
      cmyk[i] = row[StateTable.INKS + i] / full;
    }
  }
}
