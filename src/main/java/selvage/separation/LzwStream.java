package selvage.separation;

import java.io.IOException;
import java.io.InputStream;

/**
 * Undoes LZW as [tiff6], section 13 has it: codes of 9 to 12 bits, most significant bit first, the
 * width growing one code early.
 */
final class LzwStream extends InputStream {
  private static final int CLEAR = 256;
  private static final int END = 257;
  private static final int MOST = 4096;

  private final InputStream in;
  private final short[] prefix = new short[MOST];
  private final byte[] last = new byte[MOST];
  private final byte[] pending = new byte[MOST + 1]; // backwards, from pendingCount down
  private int pendingCount;
  private int next = END + 1;
  private int width = 9;
  private int previous = -1;
  private int first;
  private int buffer;
  private int bits;
  private boolean ended;

  LzwStream(InputStream in) {
    this.in = in;
  }

  private int code() throws IOException {
    while (bits < width) {
      int value = in.read();
      if (value < 0) {
        return END;
      }
      buffer = buffer << 8 | value;
      bits += 8;
    }
    bits -= width;
    int code = buffer >>> bits & (1 << width) - 1;
    buffer &= (1 << bits) - 1;
    return code;
  }

  private void fill() throws IOException {
    int code = code();
    while (code == CLEAR) {
      next = END + 1;
      width = 9;
      previous = -1;
      code = code();
    }
    if (code == END) {
      ended = true;
      return;
    }
    if (previous < 0) {
      if (code > 255) {
        throw new IOException("LZW data that begin with code " + code);
      }
      first = code;
      pending[pendingCount++] = (byte) code;
      previous = code;
      return;
    }
    int at = code;
    if (code >= next) {
      if (code > next) {
        throw new IOException("LZW data with code " + code + " where " + next + " is the highest");
      }
      pending[pendingCount++] = (byte) first;
      at = previous;
    }
    while (at > 255) {
      pending[pendingCount++] = last[at];
      at = prefix[at];
    }
    first = at;
    pending[pendingCount++] = (byte) at;
    if (next < MOST) {
      prefix[next] = (short) previous;
      last[next] = (byte) first;
      next++;
      if (next + 1 >= 1 << width && width < 12) {
        width++;
      }
    }
    previous = code;
  }

  @Override
  public int read() throws IOException {
    while (pendingCount == 0) {
      if (ended) {
        return -1;
      }
      fill();
    }
    return pending[--pendingCount] & 0xff;
  }

  @Override
  public int read(byte[] into, int from, int count) throws IOException {
    int n = 0;
    while (n < count) {
      if (pendingCount == 0) {
        if (ended) {
          break;
        }
        fill();
      } else {
        into[from + n++] = pending[--pendingCount];
      }
    }
    return n == 0 && count > 0 ? -1 : n;
  }

  @Override
  public void close() throws IOException {
    in.close();
  }
}
