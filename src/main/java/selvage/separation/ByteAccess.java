package selvage.separation;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/** Bytes that are read at any place: those of a file, or a block within one. */
interface ByteAccess {
  long size();

  /**
   * Reads some bytes.
   *
   * @param at the place of the first, from 0
   * @param into takes them from {@code from} on
   * @param most how many are wanted
   * @return how many were read, at least 1; -1 at the end
   */
  int read(long at, byte[] into, int from, int most) throws IOException;

  /** Reads just as many bytes as asked for. */
  default byte[] readAll(long at, int count) throws IOException {
    if (at < 0 || at + count > size()) {
      throw new EOFException(
          "expected at least " + (at + count) + " bytes, found " + size() + "; it was cut off");
    }
    byte[] bytes = new byte[count];
    int done = 0;
    while (done < count) {
      int n = read(at + done, bytes, done, count - done);
      if (n < 0) {
        throw new EOFException("it ends at byte " + (at + done));
      }
      done += n;
    }
    return bytes;
  }

  static ByteAccess of(byte[] bytes) {
    return new ByteAccess() {
      @Override
      public long size() {
        return bytes.length;
      }

      @Override
      public int read(long at, byte[] into, int from, int most) {
        if (at >= bytes.length) {
          return -1;
        }
        int n = (int) Math.min(most, bytes.length - at);
        System.arraycopy(bytes, (int) at, into, from, n);
        return n;
      }
    };
  }

  /** The bytes of an open file; the caller closes it. */
  static ByteAccess of(FileChannel channel) throws IOException {
    long size = channel.size();
    return new ByteAccess() {
      @Override
      public long size() {
        return size;
      }

      @Override
      public int read(long at, byte[] into, int from, int most) throws IOException {
        return channel.read(ByteBuffer.wrap(into, from, most), at);
      }
    };
  }
}
