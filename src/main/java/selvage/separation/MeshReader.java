package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Reads the bit-packed vertices of a mesh shading (ISO 32000-2, 8.7.4.5.5 to 8.7.4.5.8). */
final class MeshReader {
  private final byte[] data;
  private final int coordinateBits;
  private final int componentBits;
  private final int flagBits;
  private final float[] decode;
  private final int components;
  private long at;

  /**
   * Reads a mesh.
   *
   * @param components values a vertex: the space's, or 1 where the shading has a function
   */
  MeshReader(byte[] data, COSDictionary shading, int components) throws IOException {
    this.data = data;
    this.components = components;
    coordinateBits = shading.getInt(COSName.BITS_PER_COORDINATE);
    componentBits = shading.getInt(COSName.BITS_PER_COMPONENT);
    flagBits = shading.getInt(COSName.BITS_PER_FLAG, 8);
    decode =
        shading.getCOSArray(COSName.DECODE) == null
            ? new float[0]
            : shading.getCOSArray(COSName.DECODE).toFloatArray();
    boolean sound =
        coordinateBits >= 1
            && coordinateBits <= 32
            && componentBits >= 1
            && componentBits <= 16
            && flagBits >= 1
            && flagBits <= 8
            && decode.length >= 4 + 2 * components;
    if (!sound) {
      throw new IOException("a mesh shading whose numbers can't be read");
    }
  }

  /** A vertex: its place and its colour or parameter. */
  static final class Vertex {
    final double x;
    final double y;
    final float[] color;

    Vertex(double x, double y, float[] color) {
      this.x = x;
      this.y = y;
      this.color = color;
    }
  }

  /** Whether that many bits are left. */
  private boolean has(long bits) {
    return at + bits <= 8L * data.length;
  }

  boolean hasFlag() {
    return has(flagBits);
  }

  boolean hasVertex() {
    return has(2L * coordinateBits + (long) components * componentBits);
  }

  boolean hasPoints(int points, int colors) {
    return has(2L * coordinateBits * points + (long) components * componentBits * colors);
  }

  int flag() {
    return (int) bits(flagBits) & 3;
  }

  double[] point() {
    double most = Math.pow(2, coordinateBits) - 1;
    double x = decode[0] + bits(coordinateBits) * (decode[1] - decode[0]) / most;
    double y = decode[2] + bits(coordinateBits) * (decode[3] - decode[2]) / most;
    return new double[] {x, y};
  }

  float[] color() {
    float most = (1 << componentBits) - 1;
    float[] color = new float[components];
    for (int i = 0; i < components; i++) {
      float low = decode[4 + 2 * i];
      float high = decode[5 + 2 * i];
      color[i] = low + bits(componentBits) * (high - low) / most;
    }
    return color;
  }

  Vertex vertex() {
    double[] point = point();
    Vertex vertex = new Vertex(point[0], point[1], color());
    return vertex;
  }

  /** Goes on at the next whole byte, as each vertex and patch does. */
  void alignToByte() {
    at = (at + 7) / 8 * 8;
  }

  private long bits(int count) {
    long value = 0;
    for (int i = 0; i < count; i++, at++) {
      int index = (int) (at >> 3);
      int bit = index < data.length ? data[index] >> (7 - (at & 7)) & 1 : 0;
      value = value << 1 | bit;
    }
    return value;
  }
}
