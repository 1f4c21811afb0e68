package selvage.color;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.UnaryOperator;

/** Writes small ICC profiles of every kind that the program reads, for tests. */
final class IccWriter {
  private final int version;
  private final String deviceClass;
  private final String dataSpace;
  private final String connectionSpace;
  private final Map<String, byte[]> tags = new LinkedHashMap<>();

  IccWriter(int version, String deviceClass, String dataSpace, String connectionSpace) {
    this.version = version;
    this.deviceClass = deviceClass;
    this.dataSpace = dataSpace;
    this.connectionSpace = connectionSpace;
  }

  IccWriter tag(String name, byte[] data) {
    tags.put(name, data);
    return this;
  }

  byte[] bytes() {
    int place = 128 + 4 + 12 * tags.size();
    int size = place;
    for (byte[] data : tags.values()) {
      size += (data.length + 3) & ~3;
    }
    ByteBuffer out = ByteBuffer.allocate(size);
    out.putInt(size).putInt(0).put((byte) version).put((byte) 0x20).putShort((short) 0);
    out.put(ascii(deviceClass)).put(ascii(dataSpace)).put(ascii(connectionSpace));
    out.position(36);
    out.put(ascii("acsp"));
    out.position(68);
    out.putInt(fixed(0.9642)).putInt(fixed(1)).putInt(fixed(0.8249));
    out.position(128);
    out.putInt(tags.size());
    for (Map.Entry<String, byte[]> tag : tags.entrySet()) {
      out.put(ascii(tag.getKey())).putInt(place).putInt(tag.getValue().length);
      place += (tag.getValue().length + 3) & ~3;
    }
    for (byte[] data : tags.values()) {
      out.put(data).position((out.position() + 3) & ~3);
    }
    return out.array();
  }

  static byte[] xyz(double x, double y, double z) {
    return ByteBuffer.allocate(20)
        .put(ascii("XYZ "))
        .putInt(0)
        .putInt(fixed(x))
        .putInt(fixed(y))
        .putInt(fixed(z))
        .array();
  }

  static byte[] description(String text) {
    return ByteBuffer.allocate(13 + text.length() + 78)
        .put(ascii("desc"))
        .putInt(0)
        .putInt(text.length() + 1)
        .put(ascii(text))
        .array();
  }

  static byte[] gamma(double gamma) {
    return ByteBuffer.allocate(14)
        .put(ascii("curv"))
        .putInt(0)
        .putInt(1)
        .putShort((short) Math.round(gamma * 256))
        .array();
  }

  static byte[] formula(int type, double... parameters) {
    ByteBuffer out = ByteBuffer.allocate(12 + 4 * parameters.length);
    out.put(ascii("para")).putInt(0).putShort((short) type).putShort((short) 0);
    for (double parameter : parameters) {
      out.putInt(fixed(parameter));
    }
    return out.array();
  }

  /**
   * A table of type {@code mft1} (width 1) or {@code mft2} (width 2) whose curves bend a little.
   *
   * @param points of the grid, an input
   * @param function from inputs of 0 to 1 to outputs of 0 to 1
   */
  static byte[] table(
      int width, int inputs, int outputs, int points, UnaryOperator<double[]> function) {
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    ByteBuffer head = ByteBuffer.allocate(width == 2 ? 52 : 48);
    head.put(ascii(width == 2 ? "mft2" : "mft1")).putInt(0);
    head.put((byte) inputs).put((byte) outputs).put((byte) points).put((byte) 0);
    for (int i = 0; i < 9; i++) {
      head.putInt(fixed(i % 4 == 0 ? 1 : 0));
    }
    int entries = 256;
    if (width == 2) {
      entries = 64;
      head.putShort((short) entries).putShort((short) entries);
    }
    data.writeBytes(head.array());
    for (int curve = 0; curve < inputs; curve++) {
      for (int i = 0; i < entries; i++) {
        put(data, width, Math.sqrt((double) i / (entries - 1)));
      }
    }
    double[] at = new double[inputs];
    int total = (int) Math.pow(points, inputs);
    for (int index = 0; index < total; index++) {
      int rest = index;
      for (int i = inputs - 1; i >= 0; i--) {
        double root = (double) (rest % points) / (points - 1);
        at[i] = root * root;
        rest /= points;
      }
      double[] result = function.apply(at.clone());
      for (double value : result) {
        put(data, width, value);
      }
    }
    for (int curve = 0; curve < outputs; curve++) {
      for (int i = 0; i < entries; i++) {
        put(data, width, (double) i / (entries - 1));
      }
    }
    return data.toByteArray();
  }

  /** A table of type {@code mAB } with all five parts; the matrix and the M and B curves bend. */
  static byte[] modernTable(int inputs, int points, UnaryOperator<double[]> function) {
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    byte[] curveB = formula(0, 1);
    byte[] curveM = formula(3, 1.8, 1, 0, 0.1, 0.02);
    byte[] curveA = formula(0, 0.75);
    int b = 32;
    int matrix = b + 3 * curveB.length;
    int m = matrix + 48;
    int table = m + 3 * curveM.length;
    int entries = 3 * (int) Math.pow(points, inputs);
    int a = table + 20 + ((2 * entries + 3) & ~3);
    ByteBuffer head = ByteBuffer.allocate(a + inputs * curveA.length);
    head.put(ascii("mAB ")).putInt(0).put((byte) inputs).put((byte) 3).putShort((short) 0);
    head.putInt(b).putInt(matrix).putInt(m).putInt(table).putInt(a);
    for (int i = 0; i < 3; i++) {
      head.put(curveB);
    }
    for (int i = 0; i < 9; i++) {
      head.putInt(fixed(i % 4 == 0 ? 0.9 : 0.02));
    }
    head.putInt(fixed(0.01)).putInt(fixed(0.02)).putInt(fixed(0.03));
    for (int i = 0; i < 3; i++) {
      head.put(curveM);
    }
    for (int i = 0; i < inputs; i++) {
      head.put((byte) points);
    }
    head.position(table + 16);
    head.put((byte) 2).position(table + 20);
    double[] at = new double[inputs];
    for (int index = 0; index < entries / 3; index++) {
      int rest = index;
      for (int i = inputs - 1; i >= 0; i--) {
        at[i] = (double) (rest % points) / (points - 1);
        rest /= points;
      }
      for (double value : function.apply(at.clone())) {
        head.putShort((short) Math.round(65535 * Math.min(1, Math.max(0, value))));
      }
    }
    head.position(a);
    for (int i = 0; i < inputs; i++) {
      head.put(curveA);
    }
    data.writeBytes(head.array());
    return data.toByteArray();
  }

  private static void put(ByteArrayOutputStream out, int width, double value) {
    double clipped = Math.min(1, Math.max(0, value));
    if (width == 1) {
      out.write((int) Math.round(255 * clipped));
    } else {
      int entry = (int) Math.round(65535 * clipped);
      out.write(entry >> 8);
      out.write(entry);
    }
  }

  private static int fixed(double value) {
    return (int) Math.round(value * 65536);
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}
