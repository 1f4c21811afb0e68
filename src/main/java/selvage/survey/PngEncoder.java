package selvage.survey;

import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * Writes an 8-bit grey or sRGB PNG row by row (ISO/IEC 15948) [png], so that a large sheet is never
 * held whole; the JDK's writer wants the whole image.
 */
final class PngEncoder implements AutoCloseable {
  private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10};

  private static final byte ABSOLUTE_COLORIMETRIC = 3;
  private static final double INCH_M = 0.0254;

  /** What a row's samples are. */
  enum Samples {
    /** One byte a sample. */
    GRAY(0),
    /** Red, green and blue, a byte each, coded as sRGB. */
    SRGB(2);

    private final int colorType;

    Samples(int colorType) {
      this.colorType = colorType;
    }
  }

  private final DataOutputStream out;
  private final Deflater deflater = new Deflater(Deflater.BEST_SPEED);
  private final byte[] buffer = new byte[1 << 15];

  /**
   * Begins an image.
   *
   * @param out is closed with the image
   * @param width samples a row
   * @param dpi samples an inch
   */
  PngEncoder(OutputStream out, int width, int height, double dpi, Samples samples)
      throws IOException {
    this.out = new DataOutputStream(out);
    this.out.write(SIGNATURE);
    ByteBuffer header = ByteBuffer.allocate(13).putInt(width).putInt(height);
    header.put((byte) 8).put((byte) samples.colorType); // the rest: deflate, filters, no interlace
    chunk("IHDR", header.array(), header.capacity());
    if (samples == Samples.SRGB) {
      chunk("sRGB", new byte[] {ABSOLUTE_COLORIMETRIC}, 1);
    }
    int perMetre = (int) Math.round(dpi / INCH_M);
    ByteBuffer size = ByteBuffer.allocate(9).putInt(perMetre).putInt(perMetre);
    size.put((byte) 1); // the unit is the metre
    chunk("pHYs", size.array(), size.capacity());
  }

  void write(byte[] row) throws IOException {
    deflate(new byte[] {0}); // no filter
    deflate(row);
  }

  private void deflate(byte[] bytes) throws IOException {
    deflater.setInput(bytes);
    while (!deflater.needsInput()) {
      drain();
    }
  }

  private void drain() throws IOException {
    int n = deflater.deflate(buffer);
    if (n > 0) {
      chunk("IDAT", buffer, n);
    }
  }

  private void chunk(String type, byte[] data, int length) throws IOException {
    byte[] name = type.getBytes(StandardCharsets.US_ASCII);
    CRC32 crc = new CRC32();
    crc.update(name);
    crc.update(data, 0, length);
    out.writeInt(length);
    out.write(name);
    out.write(data, 0, length);
    out.writeInt((int) crc.getValue());
  }

  /** Ends the image. */
  void end() throws IOException {
    deflater.finish();
    while (!deflater.finished()) {
      drain();
    }
    chunk("IEND", new byte[0], 0);
    out.flush();
  }

  @Override
  public void close() throws IOException {
    deflater.end();
    out.close();
  }
}
