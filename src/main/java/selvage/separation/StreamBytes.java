package selvage.separation;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.filter.Filter;
import org.apache.pdfbox.filter.FilterFactory;

/**
 * Unpacks streams without ever holding more than a stated number of bytes. PDFBox's own streams
 * unpack everything first; a few kilobytes of Flate can stand for gigabytes.
 */
final class StreamBytes {
  /** What a filter before the last may unpack to. */
  private static final int MOST_BETWEEN = 256 << 20;

  /** No filter of text or numbers unpacks a byte to more: Flate's bound is 1032. */
  private static final int MOST_RATIO = 1100;

  private StreamBytes() {}

  /** Ends the unpacking where there is enough. */
  private static final class FullException extends IOException {
    private static final long serialVersionUID = 1L;

    FullException() {
      super("more bytes than there may be");
    }
  }

  /**
   * The first bytes of a stream's data.
   *
   * @param most how many at most; what follows is left packed
   */
  static byte[] first(COSStream stream, long most) throws IOException {
    return unpack(stream, List.of(), most).toBytes();
  }

  /**
   * A stream's data as they stand before a filter, such as an image's own.
   *
   * @param stop the names of that filter
   * @param most how many bytes at most; what follows is left
   */
  static byte[] before(List<String> stop, COSStream stream, long most) throws IOException {
    return unpack(stream, stop, most).toBytes();
  }

  /**
   * Makes sure that a stream which PDFBox will read whole does not unpack to more than it may.
   *
   * @throws IOException if it does
   */
  static void check(COSStream stream, long most) throws IOException {
    List<String> filters = ImageDecoder.filters(stream);
    if (filters.isEmpty()) {
      return;
    }
    double greatest = rawBytes(stream) * Math.pow(MOST_RATIO, filters.size());
    if (greatest <= most) {
      return;
    }
    Sink counted = new Sink(most, false);
    unpack(stream, List.of(), counted);
    if (counted.isFull) {
      throw new IOException(
          "a stream that unpacks to more than " + (most >> 20) + " megabytes is not read");
    }
  }

  private static long rawBytes(COSStream stream) throws IOException {
    try (InputStream in = stream.createRawInputStream()) {
      return in.transferTo(OutputStream.nullOutputStream());
    }
  }

  private static Sink unpack(COSStream stream, List<String> stop, long most) throws IOException {
    Sink sink = new Sink(Math.min(most, Integer.MAX_VALUE - 64), true);
    unpack(stream, stop, sink);
    return sink;
  }

  private static void unpack(COSStream stream, List<String> stop, Sink sink) throws IOException {
    List<String> filters = ImageDecoder.filters(stream);
    // Some writers name a filter twice that they applied once; PDFBox reads them so, too.
    Set<String> applied = new LinkedHashSet<>();
    for (String filter : filters) {
      if (stop.contains(filter)) {
        break;
      }
      applied.add(filter);
    }
    InputStream in = stream.createRawInputStream();
    int left = applied.size();
    try {
      if (left == 0) {
        in.transferTo(sink);
      }
      for (String name : applied) {
        Filter filter = FilterFactory.INSTANCE.getFilter(COSName.getPDFName(name));
        int index = filters.indexOf(name);
        checkFax(name, stream, index);
        if (--left == 0) {
          filter.decode(in, sink, stream, index);
          break;
        }
        Sink between = new Sink(MOST_BETWEEN, true);
        filter.decode(in, between, stream, index);
        in.close();
        in = between.toStream();
      }
    } catch (FullException e) {
      if (!sink.isFull) {
        throw new IOException("a stream that unpacks to too much is not read", e);
      }
    } finally {
      in.close();
    }
  }

  /** The fax decoder makes room for all its rows before it reads any. */
  private static void checkFax(String filter, COSDictionary stream, int index) throws IOException {
    if (!filter.equals("CCITTFaxDecode") && !filter.equals("CCF")) {
      return;
    }
    COSDictionary parameters = ImageDecoder.decodeParameters(stream, index);
    long columns = parameters.getInt(COSName.COLUMNS, 1728);
    long height = stream.getInt(COSName.HEIGHT, COSName.H, 0);
    long rows = height > 0 ? height : parameters.getInt(COSName.ROWS, 0);
    if (columns / 8 * rows > MOST_BETWEEN) {
      throw new IOException("a fax image of " + columns + " × " + rows + " samples is too large");
    }
  }

  /** Takes bytes up to a number. */
  private static final class Sink extends OutputStream {
    private final long most;
    private byte[] bytes; // null where they are only counted
    private long size;
    private boolean isFull;

    Sink(long most, boolean isKept) {
      this.most = most;
      bytes = isKept ? new byte[(int) Math.min(most, 1 << 14)] : null;
    }

    @Override
    public void write(int value) throws IOException {
      write(new byte[] {(byte) value}, 0, 1);
    }

    @Override
    public void write(byte[] from, int offset, int length) throws IOException {
      int taken = (int) Math.min(length, most - size);
      if (bytes != null) {
        if (size + taken > bytes.length) {
          bytes = Arrays.copyOf(bytes, (int) Math.min(most, Math.max(size + taken, 2L * size)));
        }
        System.arraycopy(from, offset, bytes, (int) size, taken);
      }
      size += taken;
      if (taken < length) {
        isFull = true;
        throw new FullException();
      }
    }

    byte[] toBytes() {
      return size == bytes.length ? bytes : Arrays.copyOf(bytes, (int) size);
    }

    InputStream toStream() {
      return new ByteArrayInputStream(bytes, 0, (int) size);
    }
  }
}
