package selvage.survey;

import java.io.BufferedOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * Writes an 8-bit grey or sRGB PNG row by row (ISO/IEC 15948) [png], so that a large sheet is never
 * held whole; the JDK's writer wants the whole image. Until {@link #moveTo} the file is temporary.
 */
final class PngRows implements AutoCloseable {
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

  private final Path temporary;
  private final DataOutputStream out;
  private final Deflater deflater = new Deflater(Deflater.BEST_SPEED);
  private final byte[] buffer = new byte[1 << 15];
  private boolean ended;
  private boolean moved;

  /**
   * Begins an image.
   *
   * @param folder where the temporary file lies
   * @param width samples a row
   * @param dpi samples an inch
   */
  PngRows(Path folder, int width, int height, double dpi, Samples samples) throws IOException {
    temporary = Files.createTempFile(folder, ".plane", ".part");
    out = new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(temporary)));
    out.write(SIGNATURE);
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

  /** Ends the image; it can still be moved or dropped. */
  void end() throws IOException {
    if (ended) {
      return;
    }
    deflater.finish();
    while (!deflater.finished()) {
      drain();
    }
    chunk("IEND", new byte[0], 0);
    out.close();
    ended = true;
  }

  /** Ends the image and gives it its name. */
  void moveTo(Path target) throws IOException {
    end();
    if (Files.getFileStore(temporary).supportsFileAttributeView("posix")) {
      // A temporary file is its writer's alone; a result is for everyone whom the folder admits.
      Files.setPosixFilePermissions(temporary, PosixFilePermissions.fromString("rw-r--r--"));
    }
    Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
    moved = true;
  }

  @Override
  public void close() throws IOException {
    deflater.end();
    if (!ended) {
      out.close();
    }
    if (!moved) {
      Files.deleteIfExists(temporary);
    }
  }
}
