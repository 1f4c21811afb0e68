package selvage.separation;

import java.io.IOException;
import java.io.InputStream;

/** Undoes PackBits, the byte-oriented run length code of [tiff6], section 9. */
final class PackBitsStream extends InputStream {
  private final InputStream in;
  private int left;
  private int repeated = -1;

  PackBitsStream(InputStream in) {
    this.in = in;
  }

  @Override
  public int read() throws IOException {
    while (left == 0) {
      int code = in.read();
      if (code < 0) {
        return -1;
      }
      if (code < 128) {
        left = code + 1;
        repeated = -1;
      } else if (code > 128) {
        left = 257 - code;
        repeated = in.read();
        if (repeated < 0) {
          return -1;
        }
      }
    }
    left--;
    return repeated < 0 ? in.read() : repeated;
  }

  @Override
  public int read(byte[] into, int from, int count) throws IOException {
    int n = 0;
    while (n < count) {
      int value = read();
      if (value < 0) {
        return n == 0 ? -1 : n;
      }
      into[from + n++] = (byte) value;
    }
    return n;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
