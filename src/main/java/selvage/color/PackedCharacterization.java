package selvage.color;

import java.io.IOException;
import java.nio.BufferUnderflowException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;

/**
 * A built-in data set as the program loads it: the patches of the text file beside it, in
 * hundredths as the text gives them. In a cold start the condition is ready after 24 ms of
 * processor time, and after 57 when 127 kB of text are parsed; a test holds the two equal.
 *
 * <p>Layout, big-endian: the four letters {@code SVCD}, the number of patches (16 bits), then seven
 * numbers of 16 bits a patch: C, M, Y, K in hundredths of a percent, L*, a*, b* in hundredths.
 */
final class PackedCharacterization {
  private static final byte[] MAGIC = "SVCD".getBytes(StandardCharsets.US_ASCII);
  private static final int COLUMNS = 7;

  private PackedCharacterization() {}

  static byte[] pack(double[] percents, double[] lab) {
    int patches = lab.length / 3;
    ByteBuffer out = ByteBuffer.allocate(MAGIC.length + 2 + 2 * COLUMNS * patches);
    out.put(MAGIC).putShort((short) patches);
    for (int patch = 0; patch < patches; patch++) {
      for (int i = 0; i < COLUMNS; i++) {
        double value = i < 4 ? percents[4 * patch + i] : lab[3 * patch + i - 4];
        long hundredths = Math.round(100 * value);
        if (Math.abs(hundredths - 100 * value) > 1e-6 || hundredths != (short) hundredths) {
          throw new IllegalArgumentException("not a number of hundredths in 16 bits: " + value);
        }
        out.putShort((short) hundredths);
      }
    }
    return out.array();
  }

  /**
   * The reverse of {@link #pack}.
   *
   * @throws IOException where the bytes are not such a file
   */
  static CharacterizationData unpack(String name, byte[] bytes) throws IOException {
    ByteBuffer in = ByteBuffer.wrap(bytes);
    try {
      for (byte letter : MAGIC) {
        if (in.get() != letter) {
          throw new IOException(name + ": not packed characterization data");
        }
      }
      int patches = in.getShort() & 0xFFFF;
      double[] percents = new double[4 * patches];
      double[] lab = new double[3 * patches];
      for (int patch = 0; patch < patches; patch++) {
        for (int i = 0; i < 4; i++) {
          percents[4 * patch + i] = in.getShort() / 100.0;
        }
        for (int i = 0; i < 3; i++) {
          lab[3 * patch + i] = in.getShort() / 100.0;
        }
      }
      return new CharacterizationData(name, percents, lab);
    } catch (BufferUnderflowException e) {
      throw new IOException(name + ": packed characterization data end early", e);
    }
  }
}
