package selvage.separation;

import java.io.IOException;

/**
 * How the samples of a TIFF image lie in the file: size, bits, strips or tiles, compression.
 * Checked at birth, so that whoever reads on can trust the figures.
 */
final class TiffLayout {
  static final int NONE = 1;
  static final int CCITT_RLE = 2;
  static final int CCITT_T4 = 3;
  static final int CCITT_T6 = 4;
  static final int LZW = 5;
  static final int JPEG = 7;
  static final int DEFLATE = 8;
  static final int PACK_BITS = 32773;
  static final int OLD_DEFLATE = 32946;

  /** Bytes of one row, so that a few rows always fit in memory. */
  private static final long MOST_ROW_BYTES = 64L << 20;

  /** Bytes of a whole image, uncompressed: a bound on time and on temporary files. */
  private static final long MOST_BYTES = 4L << 30;

  private static final int MOST_SAMPLES = 64;

  final int width;
  final int height;
  final int samples;
  final int bits;
  final boolean planar;
  final boolean littleEndian;
  final int compression;
  final boolean differenced;
  final boolean reversedBits;
  final int t4Options;
  final int photometric;
  final byte[] jpegTables;

  /** Columns and rows of a strip or tile; the last strip may be lower. */
  final int segmentWidth;

  final int segmentHeight;
  final boolean tiled;
  final int across;
  final int down;
  private final long[] offsets;
  private final long[] counts;

  TiffLayout(TiffDirectory tags) throws IOException {
    width = size(tags, 256, "width");
    height = size(tags, 257, "height");
    samples = tags.integer(277, 1);
    if (samples < 1 || samples > MOST_SAMPLES) {
      throw new IOException("expected 1 to " + MOST_SAMPLES + " samples a pixel, found " + samples);
    }
    bits = bits(tags);
    long format = tags.number(339, 1);
    if (format != 1 && format != 4) {
      throw new IOException(
          "expected samples that are whole numbers without sign, found sample format "
              + format
              + "; save it with 8 or 16 bits a channel");
    }
    littleEndian = tags.isLittleEndian();
    planar = tags.number(284, 1) == 2 && samples > 1;
    compression = tags.integer(259, NONE);
    differenced = differenced(tags);
    reversedBits = tags.number(266, 1) == 2;
    t4Options = tags.integer(292, 0);
    photometric = photometric(tags);
    jpegTables = tags.bytes(347);
    tiled = tags.has(324) || tags.has(322);
    segmentWidth = tiled ? size(tags, 322, "tile width") : width;
    segmentHeight =
        tiled ? size(tags, 323, "tile height") : Math.max(1, Math.min(height, rows(tags)));
    if (tiled && (segmentWidth > width + 65535 || segmentHeight > height + 65535)) {
      throw new IOException("expected tiles not far larger than the image, found larger ones");
    }
    if (tiled && bits < 8 && (long) segmentWidth * bits % 8 != 0) {
      throw new IOException("expected tiles whose rows end on a byte, found others");
    }
    long rowBytes = ((long) Math.max(width, segmentWidth) * samples * bits + 7) / 8;
    if (rowBytes > MOST_ROW_BYTES || rowBytes * height > MOST_BYTES) {
      throw new IOException(
          "expected an image of at most "
              + (MOST_BYTES >> 30)
              + " GiB, found "
              + width
              + " × "
              + height
              + " of "
              + samples
              + " samples; save it at a lower resolution");
    }
    across = (width + segmentWidth - 1) / segmentWidth;
    down = (height + segmentHeight - 1) / segmentHeight;
    offsets = tags.numbers(tags.has(324) ? 324 : 273);
    counts = tags.numbers(tags.has(325) ? 325 : 279);
    long segments = (long) across * down * (planar ? samples : 1);
    if (offsets.length < segments) {
      throw new IOException(
          "expected the places of "
              + segments
              + " strips or tiles, found "
              + offsets.length
              + "; it is damaged");
    }
  }

  private static int size(TiffDirectory tags, int tag, String what) throws IOException {
    int size = tags.integer(tag, 0);
    if (size < 1 || size > 10_000_000) {
      throw new IOException("expected a " + what + " of 1 to 10,000,000, found " + size);
    }
    return size;
  }

  private static int rows(TiffDirectory tags) throws IOException {
    return tags.integer(278, Integer.MAX_VALUE);
  }

  private int bits(TiffDirectory tags) throws IOException {
    long[] stated = tags.numbers(258);
    long first = stated.length == 0 ? 1 : stated[0];
    for (long one : stated) {
      if (one != first) {
        throw new IOException(
            "expected the same bits for every channel, found " + first + " and " + one);
      }
    }
    if (first != 1 && first != 2 && first != 4 && first != 8 && first != 16) {
      throw new IOException(
          "expected 1, 2, 4, 8 or 16 bits a channel, found " + first + "; save it with 8 or 16");
    }
    return (int) first;
  }

  private boolean differenced(TiffDirectory tags) throws IOException {
    long predictor = tags.number(317, 1);
    boolean applies = compression == LZW || compression == DEFLATE || compression == OLD_DEFLATE;
    if (predictor == 1 || !applies) {
      return false;
    }
    if (predictor != 2 || bits < 8) {
      throw new IOException(
          "expected no predictor, or horizontal differences of 8 or 16 bits, found predictor "
              + predictor
              + " with "
              + bits
              + " bits; save it without");
    }
    return true;
  }

  private int photometric(TiffDirectory tags) throws IOException {
    boolean fax = compression >= CCITT_RLE && compression <= CCITT_T6;
    int guess = fax ? 0 : samples >= 4 ? 5 : samples == 3 ? 2 : 1;
    return tags.integer(262, guess);
  }

  /** Bytes of a row of samples, all samples interleaved, starting on a byte. */
  int rowBytes() {
    return Math.toIntExact(ImageData.rowBytes(width, samples, bits));
  }

  /** Samples of a pixel that one strip or tile holds. */
  int segmentSamples() {
    return planar ? 1 : samples;
  }

  int segmentRowBytes() {
    return Math.toIntExact(ImageData.rowBytes(segmentWidth, segmentSamples(), bits));
  }

  /** Rows that a strip or tile of a row of them holds. */
  int rowsOf(int segmentRow) {
    return tiled ? segmentHeight : Math.min(segmentHeight, height - segmentRow * segmentHeight);
  }

  private int index(int plane, int segmentRow, int column) {
    return (plane * down + segmentRow) * across + column;
  }

  long offset(int plane, int segmentRow, int column) {
    return offsets[index(plane, segmentRow, column)];
  }

  /** How many bytes a strip or tile has in the file; -1 where that is not stated. */
  long count(int plane, int segmentRow, int column) {
    int index = index(plane, segmentRow, column);
    long stated = index < counts.length ? counts[index] : 0;
    if (compression == NONE) {
      long needed = (long) segmentRowBytes() * rowsOf(segmentRow);
      return stated > 0 ? Math.min(stated, needed) : needed;
    }
    return stated > 0 ? stated : -1;
  }
}
