package selvage.separation;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;

/**
 * Writes the rows of a TIFF image as PDF images, each part of its channels on its own. A large
 * image becomes a stack of bands; each repeats the last row of the one above, so that no gap can
 * open between them.
 */
final class TiffBands {
  /** Bytes of a band's samples: what a reader must hold at a time. */
  private static final int BAND_BYTES = 24 << 20;

  /** Makes an image without data. */
  interface Maker {
    COSStream make(ImagePart part, int rows, int bits) throws IOException;
  }

  /** Places an image on the page. */
  interface Placer {
    void place(COSStream image, int from, int to, boolean over);
  }

  /** One part of the band that is being written. */
  private static final class Open {
    final ImagePart part;
    final COSStream image;
    final OutputStream out;
    final Deflater deflater; // null where the samples are not compressed
    final byte[] row;

    Open(ImagePart part, COSStream image, OutputStream out, Deflater deflater, byte[] row) {
      this.part = part;
      this.image = image;
      this.out = out;
      this.deflater = deflater;
      this.row = row;
    }
  }

  private record Placed(COSStream image, int from, int to) {}

  private final TiffPage page;
  private final TiffLayout layout;
  private final TiffRows rows;
  private final boolean compressed;
  private final List<Placed> over = new ArrayList<>();

  TiffBands(TiffPage page, TiffRows rows, boolean compressed) {
    this.page = page;
    this.layout = page.layout();
    this.rows = rows;
    this.compressed = compressed;
  }

  void write(Maker maker, Placer placer) throws IOException {
    byte[] row = new byte[layout.rowBytes()];
    int bandRows = Math.max(2, Math.min(layout.height, BAND_BYTES / row.length));
    for (int top = 0; top < layout.height; top += bandRows) {
      int from = Math.max(0, top - 1);
      int to = Math.min(layout.height, top + bandRows);
      List<Open> open = open(maker, to - from);
      try {
        if (from < top) {
          writeRow(open, row);
        }
        for (int y = top; y < to; y++) {
          rows.next(row);
          writeRow(open, row);
        }
      } finally {
        close(open);
      }
      place(open, from, to, placer);
    }
    over.forEach(one -> placer.place(one.image, one.from, one.to, true));
  }

  private List<Open> open(Maker maker, int height) throws IOException {
    List<Open> open = new ArrayList<>();
    for (ImagePart part : page.parts()) {
      COSStream image = maker.make(part, height, layout.bits);
      OutputStream out = new BufferedOutputStream(image.createRawOutputStream(), 1 << 16);
      Deflater deflater = null;
      if (compressed) {
        image.setItem(COSName.FILTER, COSName.FLATE_DECODE);
        deflater = new Deflater(Deflater.BEST_SPEED);
        out = new DeflaterOutputStream(out, deflater, 1 << 16);
      }
      byte[] row =
          new byte
              [Math.toIntExact(
                  ImageData.rowBytes(layout.width, part.samples().length, layout.bits))];
      open.add(new Open(part, image, out, deflater, row));
    }
    return open;
  }

  private static void close(List<Open> open) throws IOException {
    for (Open one : open) {
      one.out.close();
      if (one.deflater != null) {
        one.deflater.end();
      }
    }
  }

  private void place(List<Open> open, int from, int to, Placer placer) {
    COSStream base = open.get(0).image;
    for (Open one : open) {
      switch (one.part.role()) {
        case BASE -> placer.place(base, from, to, false);
        case OVERPRINT -> over.add(new Placed(one.image, from, to));
        case MASK -> base.setItem(COSName.SMASK, one.image);
      }
    }
  }

  private void writeRow(List<Open> open, byte[] row) throws IOException {
    for (Open one : open) {
      select(one.part, row, one.row);
      one.out.write(one.row);
    }
  }

  private void select(ImagePart part, byte[] row, byte[] into) {
    int[] samples = part.samples();
    int n = samples.length;
    if (n == layout.samples && isInOrder(samples)) {
      System.arraycopy(row, 0, into, 0, into.length);
    } else {
      for (int x = 0; x < layout.width; x++) {
        for (int c = 0; c < n; c++) {
          SampleRow.copy(row, x * layout.samples + samples[c], into, x * n + c, layout.bits);
        }
      }
    }
    if (part.kind() == ImagePart.Kind.LAB) {
      withoutSign(into);
    }
  }

  private static boolean isInOrder(int[] samples) {
    for (int i = 0; i < samples.length; i++) {
      if (samples[i] != i) {
        return false;
      }
    }
    return true;
  }

  /** Moves a* and b* from a sign to 0 at their least. */
  private void withoutSign(byte[] row) {
    int bytes = layout.bits / 8;
    for (int x = 0; x < layout.width; x++) {
      row[(3 * x + 1) * bytes] ^= (byte) 0x80;
      row[(3 * x + 2) * bytes] ^= (byte) 0x80;
    }
  }
}
