package selvage.draw;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;

/**
 * A baseline sequential JPEG encoder (ITU-T T.81 [t81]) for one to four components without
 * subsampling, with the example tables of its annex K. The same samples give the same bytes on
 * every machine.
 */
public final class JpegEncoder {
  /** How the file says what its components mean. */
  public enum Marker {
    /** No application marker. */
    NONE,
    /** An Adobe marker that says: stored as they are. */
    ADOBE_PLAIN,
    /** An Adobe marker that says: luminance, two chrominances and black. */
    ADOBE_YCCK
  }

  private static final int[] ZIGZAG = {
    0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20,
    13, 6, 7, 14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59,
    52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47, 55, 62, 63
  };

  /** T.81 table K.1, row by row. */
  private static final int[] LUMINANCE_STEPS = {
    16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56,
    14, 17, 22, 29, 51, 87, 80, 62, 18, 22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113,
    92, 49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99
  };

  /** T.81 table K.3: how many DC codes of each length from 1 to 16, and the categories. */
  private static final int[] DC_COUNTS = {0, 1, 5, 1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0};

  private static final int[] DC_VALUES = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};

  /** T.81 table K.5: the same for AC codes. */
  private static final int[] AC_COUNTS = {0, 2, 1, 3, 3, 2, 4, 3, 5, 5, 4, 4, 0, 0, 1, 125};

  private static final int[] AC_VALUES = {
    0x01, 0x02, 0x03, 0x00, 0x04, 0x11, 0x05, 0x12, 0x21, 0x31, 0x41, 0x06, 0x13, 0x51, 0x61, 0x07,
    0x22, 0x71, 0x14, 0x32, 0x81, 0x91, 0xa1, 0x08, 0x23, 0x42, 0xb1, 0xc1, 0x15, 0x52, 0xd1, 0xf0,
    0x24, 0x33, 0x62, 0x72, 0x82, 0x09, 0x0a, 0x16, 0x17, 0x18, 0x19, 0x1a, 0x25, 0x26, 0x27, 0x28,
    0x29, 0x2a, 0x34, 0x35, 0x36, 0x37, 0x38, 0x39, 0x3a, 0x43, 0x44, 0x45, 0x46, 0x47, 0x48, 0x49,
    0x4a, 0x53, 0x54, 0x55, 0x56, 0x57, 0x58, 0x59, 0x5a, 0x63, 0x64, 0x65, 0x66, 0x67, 0x68, 0x69,
    0x6a, 0x73, 0x74, 0x75, 0x76, 0x77, 0x78, 0x79, 0x7a, 0x83, 0x84, 0x85, 0x86, 0x87, 0x88, 0x89,
    0x8a, 0x92, 0x93, 0x94, 0x95, 0x96, 0x97, 0x98, 0x99, 0x9a, 0xa2, 0xa3, 0xa4, 0xa5, 0xa6, 0xa7,
    0xa8, 0xa9, 0xaa, 0xb2, 0xb3, 0xb4, 0xb5, 0xb6, 0xb7, 0xb8, 0xb9, 0xba, 0xc2, 0xc3, 0xc4, 0xc5,
    0xc6, 0xc7, 0xc8, 0xc9, 0xca, 0xd2, 0xd3, 0xd4, 0xd5, 0xd6, 0xd7, 0xd8, 0xd9, 0xda, 0xe1, 0xe2,
    0xe3, 0xe4, 0xe5, 0xe6, 0xe7, 0xe8, 0xe9, 0xea, 0xf1, 0xf2, 0xf3, 0xf4, 0xf5, 0xf6, 0xf7, 0xf8,
    0xf9, 0xfa
  };

  private static final double[] COSINES = cosines();

  private final int width;
  private final int height;
  private final int components;
  private final byte[] samples;
  private final int[] steps;
  private final int[] dcCodes = codes(DC_COUNTS, DC_VALUES);
  private final int[] acCodes = codes(AC_COUNTS, AC_VALUES);
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private int bits;
  private int bitCount;

  private JpegEncoder(byte[] samples, int width, int height, int components, int quality) {
    if (components < 1 || components > 4 || samples.length != width * height * components) {
      throw new IllegalArgumentException(
          samples.length + " samples for " + width + " × " + height + " × " + components);
    }
    this.samples = samples;
    this.width = width;
    this.height = height;
    this.components = components;
    this.steps = steps(quality);
  }

  /**
   * Encodes samples, row by row, the components of a pixel side by side.
   *
   * @param quality from 1 to 100, which keeps every step at 1
   */
  public static byte[] encode(
      byte[] samples, int width, int height, int components, int quality, Marker marker) {
    return new JpegEncoder(samples, width, height, components, quality).encode(marker);
  }

  private byte[] encode(Marker marker) {
    shorts(0xFFD8);
    if (marker != Marker.NONE) {
      shorts(0xFFEE, 14);
      out.writeBytes("Adobe".getBytes(StandardCharsets.US_ASCII));
      shorts(100, 0, 0);
      out.write(marker == Marker.ADOBE_YCCK ? 2 : 0);
    }
    shorts(0xFFDB, 67);
    out.write(0);
    for (int i : ZIGZAG) {
      out.write(steps[i]);
    }
    shorts(0xFFC0, 8 + 3 * components);
    out.write(8);
    shorts(height, width);
    out.write(components);
    for (int c = 1; c <= components; c++) {
      out.writeBytes(new byte[] {(byte) c, 0x11, 0});
    }
    huffmanTable(0x00, DC_COUNTS, DC_VALUES);
    huffmanTable(0x10, AC_COUNTS, AC_VALUES);
    shorts(0xFFDA, 6 + 2 * components);
    out.write(components);
    for (int c = 1; c <= components; c++) {
      out.writeBytes(new byte[] {(byte) c, 0});
    }
    out.writeBytes(new byte[] {0, 63, 0});
    scan();
    shorts(0xFFD9);
    return out.toByteArray();
  }

  private void scan() {
    int[] lastDc = new int[components];
    double[] block = new double[64];
    int[] quantized = new int[64];
    for (int y = 0; y < height; y += 8) {
      for (int x = 0; x < width; x += 8) {
        for (int c = 0; c < components; c++) {
          load(block, x, y, c);
          transform(block);
          for (int i = 0; i < 64; i++) {
            quantized[i] = (int) StrictMath.rint(block[ZIGZAG[i]] / steps[ZIGZAG[i]]);
          }
          writeBlock(quantized, quantized[0] - lastDc[c]);
          lastDc[c] = quantized[0];
        }
      }
    }
    if (bitCount > 0) {
      writeBits(0x7F, 8 - bitCount);
    }
  }

  private void load(double[] block, int x0, int y0, int component) {
    for (int y = 0; y < 8; y++) {
      int row = Math.min(y0 + y, height - 1) * width;
      for (int x = 0; x < 8; x++) {
        int pixel = row + Math.min(x0 + x, width - 1);
        block[8 * y + x] = (samples[pixel * components + component] & 0xFF) - 128.0;
      }
    }
  }

  /** The two-dimensional discrete cosine transform of T.81 A.3.3, rows and then columns. */
  private static void transform(double[] block) {
    double[] rows = new double[64];
    for (int y = 0; y < 8; y++) {
      for (int u = 0; u < 8; u++) {
        double sum = 0;
        for (int x = 0; x < 8; x++) {
          sum += block[8 * y + x] * COSINES[8 * u + x];
        }
        rows[8 * y + u] = sum;
      }
    }
    for (int u = 0; u < 8; u++) {
      for (int v = 0; v < 8; v++) {
        double sum = 0;
        for (int y = 0; y < 8; y++) {
          sum += rows[8 * y + u] * COSINES[8 * v + y];
        }
        block[8 * v + u] = sum;
      }
    }
  }

  private void writeBlock(int[] quantized, int dcDifference) {
    int category = category(dcDifference);
    writeCode(dcCodes[category]);
    writeValue(dcDifference, category);
    int zeros = 0;
    for (int i = 1; i < 64; i++) {
      if (quantized[i] == 0) {
        zeros++;
        continue;
      }
      while (zeros > 15) {
        writeCode(acCodes[0xF0]);
        zeros -= 16;
      }
      category = category(quantized[i]);
      writeCode(acCodes[zeros << 4 | category]);
      writeValue(quantized[i], category);
      zeros = 0;
    }
    if (zeros > 0) {
      writeCode(acCodes[0]);
    }
  }

  private static int category(int value) {
    return 32 - Integer.numberOfLeadingZeros(Math.abs(value));
  }

  private void writeValue(int value, int category) {
    writeBits(value < 0 ? value + (1 << category) - 1 : value, category);
  }

  private void writeCode(int lengthAndCode) {
    writeBits(lengthAndCode & 0xFFFF, lengthAndCode >>> 16);
  }

  private void writeBits(int value, int count) {
    for (int i = count - 1; i >= 0; i--) {
      bits = bits << 1 | (value >> i & 1);
      if (++bitCount == 8) {
        out.write(bits);
        if ((bits & 0xFF) == 0xFF) {
          out.write(0);
        }
        bits = 0;
        bitCount = 0;
      }
    }
  }

  private void huffmanTable(int id, int[] counts, int[] values) {
    shorts(0xFFC4, 19 + values.length);
    out.write(id);
    for (int count : counts) {
      out.write(count);
    }
    for (int value : values) {
      out.write(value);
    }
  }

  /** Codes by value, the length in the upper half (T.81 annex C). */
  private static int[] codes(int[] counts, int[] values) {
    int[] codes = new int[256];
    int code = 0;
    int next = 0;
    for (int length = 1; length <= 16; length++) {
      for (int i = 0; i < counts[length - 1]; i++) {
        codes[values[next++]] = length << 16 | code++;
      }
      code <<= 1;
    }
    return codes;
  }

  private static int[] steps(int quality) {
    double scale = quality < 50 ? 50.0 / quality : (100 - quality) / 50.0;
    int[] steps = new int[64];
    for (int i = 0; i < 64; i++) {
      steps[i] = (int) Math.min(255, Math.max(1, StrictMath.rint(LUMINANCE_STEPS[i] * scale)));
    }
    return steps;
  }

  private static double[] cosines() {
    double[] cosines = new double[64];
    for (int u = 0; u < 8; u++) {
      double norm = u == 0 ? StrictMath.sqrt(0.125) : 0.5;
      for (int x = 0; x < 8; x++) {
        cosines[8 * u + x] = norm * StrictMath.cos((2 * x + 1) * u * StrictMath.PI / 16);
      }
    }
    return cosines;
  }

  private void shorts(int... values) {
    for (int value : values) {
      out.write(value >> 8);
      out.write(value);
    }
  }
}
