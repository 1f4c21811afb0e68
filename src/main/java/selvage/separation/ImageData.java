package selvage.separation;

/**
 * The decoded samples of an image, packed as PDF packs them: rows of {@code bits} a component, each
 * row starting on a byte.
 */
final class ImageData {
  private final int width;
  private final int height;
  private final int components;
  private final int bits;
  private final byte[] data;
  private final int rowBytes;

  /**
   * @param bits 1, 2, 4, 8 or 16 a component
   * @param data rows from the top; may be shorter than the image, what is missing counts as 0
   */
  ImageData(int width, int height, int components, int bits, byte[] data) {
    this.width = width;
    this.height = height;
    this.components = components;
    this.bits = bits;
    this.data = data;
    this.rowBytes = Math.toIntExact(rowBytes(width, components, bits));
  }

  static long rowBytes(int width, int components, int bits) {
    return ((long) width * components * bits + 7) / 8;
  }

  /** Bytes of the packed samples. */
  long bytes() {
    return data.length;
  }

  int width() {
    return width;
  }

  int height() {
    return height;
  }

  int components() {
    return components;
  }

  int bits() {
    return bits;
  }

  /** The greatest sample value. */
  int most() {
    return (1 << bits) - 1;
  }

  /** A sample's value, 0 to {@link #most}. */
  int sample(int x, int y, int component) {
    int index = x * components + component;
    int row = y * rowBytes;
    switch (bits) {
      case 8 -> {
        return byteAt(row + index);
      }
      case 16 -> {
        return byteAt(row + 2 * index) << 8 | byteAt(row + 2 * index + 1);
      }
      default -> {
        long bit = (long) index * bits;
        return byteAt(row + (int) (bit >> 3)) >> (8 - bits - (int) (bit & 7)) & most();
      }
    }
  }

  private int byteAt(int at) {
    return at < data.length ? data[at] & 0xff : 0;
  }

  /** Whether a pixel's components fit in 32 bits, so that {@link #packed} tells it. */
  boolean isPackable() {
    return components * bits <= 32;
  }

  /** All components of a pixel in one number. */
  long packed(int x, int y) {
    if (bits == 8) {
      int at = y * rowBytes + x * components;
      if (at + components <= data.length) {
        long value = data[at] & 0xff;
        for (int c = 1; c < components; c++) {
          value = value << 8 | (data[at + c] & 0xff);
        }
        return value;
      }
    }
    long value = 0;
    for (int c = 0; c < components; c++) {
      value = value << bits | sample(x, y, c);
    }
    return value;
  }
}
