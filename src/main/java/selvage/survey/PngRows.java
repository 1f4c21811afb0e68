package selvage.survey;

import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * Writes an 8-bit grey PNG row by row (ISO/IEC 15948), so that a large sheet is never held whole;
 * the JDK's writer wants the whole image.
 */
final class PngRows implements AutoCloseable {
  private static final byte[] SIGNATURE = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10};

  private final Path temporary;
  private final DataOutputStream out;
  private final Deflater deflater = new Deflater(Deflater.BEST_SPEED);
  private final byte[] buffer = new byte[1 << 15];
  private boolean finished;

  PngRows(Path folder, int width, int height) throws IOException {
    temporary = Files.createTempFile(folder, ".plane", ".part");
    out = new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(temporary)));
    out.write(SIGNATURE);
    ByteArrayOutputStream header = new ByteArrayOutputStream();
    try (DataOutputStream fields = new DataOutputStream(header)) {
      fields.writeInt(width);
      fields.writeInt(height);
      fields.write(new byte[] {8, 0, 0, 0, 0}); // 8 bits, grey, no interlace
    }
    chunk("IHDR", header.toByteArray(), header.size());
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

  /** Ends the image and gives it its name. */
  void moveTo(Path target) throws IOException {
    deflater.finish();
    while (!deflater.finished()) {
      drain();
    }
    chunk("IEND", new byte[0], 0);
    out.close();
    Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
    finished = true;
  }

  @Override
  public void close() throws IOException {
    deflater.end();
    if (!finished) {
      out.close();
      Files.deleteIfExists(temporary);
    }
  }
}
