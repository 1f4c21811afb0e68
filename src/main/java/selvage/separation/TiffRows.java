package selvage.separation;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.Closeable;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.InflaterInputStream;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.filter.FilterFactory;

/**
 * Reads a TIFF image row by row from the top as it is stored. At any time only one row of strips or
 * tiles is open, each decoded as it is read, so that memory does not grow with the image; CCITT and
 * JPEG strips alone are decoded whole.
 */
final class TiffRows implements Closeable {
  /** Bytes of one CCITT or JPEG strip, decoded. */
  private static final long MOST_WHOLE_BYTES = 256L << 20;

  private final TiffLayout layout;
  private final ByteAccess bytes;
  private final FindingList findings;
  private final String where;
  private final byte[] segmentRow;
  private final byte[] planeRow;
  private final List<InputStream> open = new ArrayList<>();
  private int row;

  TiffRows(TiffLayout layout, ByteAccess bytes, FindingList findings, String where) {
    this.layout = layout;
    this.bytes = bytes;
    this.findings = findings;
    this.where = where;
    segmentRow = new byte[layout.segmentRowBytes()];
    planeRow = new byte[Math.toIntExact(ImageData.rowBytes(layout.width, 1, layout.bits))];
  }

  /**
   * Reads the next row.
   *
   * @param into takes {@link TiffLayout#rowBytes} bytes: all samples of each pixel in turn, 16 bits
   *     with the high byte first
   */
  void next(byte[] into) throws IOException {
    if (row % layout.segmentHeight == 0) {
      openRow(row / layout.segmentHeight);
    }
    if (!layout.planar) {
      join(0, into, layout.rowBytes());
    } else {
      for (int plane = 0; plane < layout.samples; plane++) {
        join(plane, planeRow, planeRow.length);
        interleave(plane, into);
      }
    }
    row++;
  }

  /** Puts the rows of the segments side by side. */
  private void join(int plane, byte[] into, int count) throws IOException {
    for (int column = 0; column < layout.across; column++) {
      InputStream in = open.get(plane * layout.across + column);
      int n = in.readNBytes(segmentRow, 0, segmentRow.length);
      if (n < segmentRow.length) {
        throw new EOFException(
            "expected "
                + layout.height
                + " rows, found its data to end in row "
                + (row + 1)
                + "; it was cut off or is damaged");
      }
      undoDifferences();
      int at = column * segmentRow.length;
      System.arraycopy(segmentRow, 0, into, at, Math.min(segmentRow.length, count - at));
    }
  }

  private void undoDifferences() {
    int step = layout.segmentSamples();
    byte[] r = segmentRow;
    if (layout.bits == 16) {
      int high = layout.littleEndian ? 1 : 0;
      int low = 1 - high;
      for (int at = 0; at + 1 < r.length; at += 2) {
        int value = (r[at + high] & 0xff) << 8 | (r[at + low] & 0xff);
        if (layout.differenced && at >= 2 * step) {
          value += (r[at - 2 * step] & 0xff) << 8 | (r[at - 2 * step + 1] & 0xff);
        }
        r[at] = (byte) (value >> 8);
        r[at + 1] = (byte) value;
      }
    } else if (layout.differenced) {
      for (int at = step; at < r.length; at++) {
        r[at] += r[at - step];
      }
    }
  }

  private void interleave(int plane, byte[] into) {
    int n = layout.samples;
    switch (layout.bits) {
      case 8 -> {
        for (int x = 0, at = plane; x < layout.width; x++, at += n) {
          into[at] = planeRow[x];
        }
      }
      case 16 -> {
        for (int x = 0, at = 2 * plane; x < layout.width; x++, at += 2 * n) {
          into[at] = planeRow[2 * x];
          into[at + 1] = planeRow[2 * x + 1];
        }
      }
      default -> {
        for (int x = 0; x < layout.width; x++) {
          SampleRow.copy(planeRow, x, into, x * n + plane, layout.bits);
        }
      }
    }
  }

  private void openRow(int segmentRowIndex) throws IOException {
    close();
    for (int plane = 0; plane < (layout.planar ? layout.samples : 1); plane++) {
      for (int column = 0; column < layout.across; column++) {
        open.add(decoded(plane, segmentRowIndex, column));
      }
    }
  }

  private InputStream decoded(int plane, int segmentRowIndex, int column) throws IOException {
    long at = layout.offset(plane, segmentRowIndex, column);
    long stated = layout.count(plane, segmentRowIndex, column);
    long end = stated < 0 ? bytes.size() : at + stated;
    if (at < 0 || at >= bytes.size() || end > bytes.size()) {
      throw new EOFException(
          "expected " + end + " bytes, found " + bytes.size() + "; it was cut off");
    }
    InputStream in = new Stored(bytes, at, end, layout.reversedBits);
    int rows = layout.rowsOf(segmentRowIndex);
    return switch (layout.compression) {
      case TiffLayout.NONE -> in;
      case TiffLayout.PACK_BITS -> new PackBitsStream(in);
      case TiffLayout.LZW -> new LzwStream(in);
      case TiffLayout.DEFLATE, TiffLayout.OLD_DEFLATE -> new InflaterInputStream(in);
      case TiffLayout.CCITT_RLE, TiffLayout.CCITT_T4, TiffLayout.CCITT_T6 -> fax(in, rows);
      case TiffLayout.JPEG -> jpeg(bytes.readAll(at, checked(end - at)), rows);
      default ->
          throw new IOException(
              "expected a compression that can be read (none, PackBits, LZW, Deflate, CCITT or"
                  + " JPEG), found number "
                  + layout.compression
                  + "; save it with another");
    };
  }

  private static int checked(long size) throws IOException {
    if (size > MOST_WHOLE_BYTES) {
      throw new IOException(
          "expected strips of at most "
              + (MOST_WHOLE_BYTES >> 20)
              + " MiB, found a larger one; save it with another compression");
    }
    return (int) size;
  }

  /** CCITT coding, where a run of white is 0 whatever the photometric interpretation says. */
  private InputStream fax(InputStream in, int rows) throws IOException {
    if (layout.bits != 1 || layout.segmentSamples() != 1) {
      throw new IOException("expected one bit a pixel in CCITT data, found more");
    }
    int size = checked((long) layout.segmentRowBytes() * rows);
    COSDictionary parameters = new COSDictionary();
    boolean twoDimensional =
        layout.compression == TiffLayout.CCITT_T4 && (layout.t4Options & 1) != 0;
    int k = layout.compression == TiffLayout.CCITT_T6 ? -1 : twoDimensional ? 1 : 0;
    parameters.setItem(COSName.K, COSInteger.get(k));
    parameters.setInt(COSName.COLUMNS, layout.segmentWidth);
    parameters.setInt(COSName.ROWS, rows);
    parameters.setBoolean(COSName.BLACK_IS_1, true);
    parameters.setBoolean(
        COSName.getPDFName("EncodedByteAlign"), layout.compression == TiffLayout.CCITT_RLE);
    COSDictionary stream = new COSDictionary();
    stream.setItem(COSName.FILTER, COSName.CCITTFAX_DECODE);
    stream.setItem(COSName.DECODE_PARMS, parameters);
    stream.setInt(COSName.HEIGHT, rows);
    ByteArrayOutputStream out = new ByteArrayOutputStream(size);
    try (in) {
      FilterFactory.INSTANCE.getFilter(COSName.CCITTFAX_DECODE).decode(in, out, stream, 0);
    }
    return new ByteArrayInputStream(out.toByteArray());
  }

  /** A JPEG strip: its tables stand apart and are put in front of it. */
  private InputStream jpeg(byte[] strip, int rows) throws IOException {
    if (layout.bits != 8) {
      throw new IOException("expected 8 bits a channel in JPEG data, found " + layout.bits);
    }
    byte[] whole = strip;
    byte[] tables = layout.jpegTables;
    if (tables.length > 4 && strip.length > 2) {
      ByteArrayOutputStream joined = new ByteArrayOutputStream(tables.length + strip.length);
      joined.write(tables, 0, tables.length - 2); // without its end mark
      joined.write(strip, 2, strip.length - 2); // without its start mark
      whole = joined.toByteArray();
    }
    COSDictionary parameters = new COSDictionary();
    parameters.setInt("ColorTransform", layout.photometric == 6 ? 1 : 0);
    ImageData data = new JpegDecoder(findings, MOST_WHOLE_BYTES).decode(whole, parameters, where);
    if (data.components() != layout.segmentSamples()
        || data.width() < (layout.across == 1 ? layout.width : layout.segmentWidth)
        || data.height() < rows) {
      throw new IOException("expected JPEG strips as large as the image says, found others");
    }
    return new ByteArrayInputStream(corner(data, layout.segmentRowBytes(), rows));
  }

  @Override
  public void close() throws IOException {
    for (InputStream in : open) {
      in.close();
    }
    open.clear();
  }

  /** The upper left samples of decoded data; what is missing at the right counts as 0. */
  private static byte[] corner(ImageData data, int rowBytes, int rows) {
    int n = data.components();
    byte[] corner = new byte[rowBytes * rows];
    for (int y = 0; y < rows; y++) {
      for (int x = 0; x < Math.min(rowBytes, n * data.width()); x++) {
        corner[y * rowBytes + x] = (byte) data.sample(x / n, y, x % n);
      }
    }
    return corner;
  }

  /** A strip or tile as it lies in the file. */
  private static final class Stored extends InputStream {
    private final ByteAccess bytes;
    private final long end;
    private final boolean reversed;
    private final byte[] buffer;
    private long at;
    private int next;
    private int filled;

    Stored(ByteAccess bytes, long at, long end, boolean reversed) {
      this.bytes = bytes;
      this.at = at;
      this.end = end;
      this.reversed = reversed;
      buffer = new byte[(int) Math.max(1, Math.min(8192, end - at))];
    }

    private boolean fill() throws IOException {
      if (next < filled) {
        return true;
      }
      int most = (int) Math.min(buffer.length, end - at);
      int n = most <= 0 ? -1 : bytes.read(at, buffer, 0, most);
      if (n <= 0) {
        return false;
      }
      if (reversed) {
        for (int i = 0; i < n; i++) {
          buffer[i] = (byte) (Integer.reverse(buffer[i]) >>> 24);
        }
      }
      at += n;
      next = 0;
      filled = n;
      return true;
    }

    @Override
    public int read() throws IOException {
      return fill() ? buffer[next++] & 0xff : -1;
    }

    @Override
    public int read(byte[] into, int from, int count) throws IOException {
      if (count == 0) {
        return 0;
      }
      if (!fill()) {
        return -1;
      }
      int n = Math.min(count, filled - next);
      System.arraycopy(buffer, next, into, from, n);
      next += n;
      return n;
    }
  }
}
