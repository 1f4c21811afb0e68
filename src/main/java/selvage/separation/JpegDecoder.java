package selvage.separation;

import com.twelvemonkeys.imageio.stream.ByteArrayImageInputStream;
import java.awt.image.DataBufferByte;
import java.awt.image.PixelInterleavedSampleModel;
import java.awt.image.Raster;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageReader;
import org.apache.pdfbox.cos.COSDictionary;

/**
 * Decodes DCT data to the components that were compressed, and undoes the YCbCr or YCCK transform
 * as ISO 32000-2, table 13, says: by the Adobe marker, else by ColorTransform, else for three
 * components. No inversion is guessed: what the numbers mean is the Decode array's to say.
 */
final class JpegDecoder {
  private final FindingList findings;
  private final long mostBytes;

  JpegDecoder(FindingList findings, long mostBytes) {
    this.findings = findings;
    this.mostBytes = mostBytes;
  }

  /** What the markers before the first scan say. */
  private record Header(
      int width, int height, int components, int adobeTransform, boolean rgbIds) {}

  ImageData decode(byte[] bytes, COSDictionary parameters, String where) throws IOException {
    Header header = header(bytes);
    if ((long) header.width * header.height * header.components
        > Math.min(mostBytes, Integer.MAX_VALUE - 64)) {
      throw new IOException(
          "an image of " + header.width + " × " + header.height + " samples is too large");
    }
    Raster raster = read(bytes, where);
    int bands = raster.getNumBands();
    byte[] data = interleaved(raster);
    int transform = header.adobeTransform;
    if (transform < 0) {
      int standard = bands == 3 && !header.rgbIds ? 1 : 0;
      transform = parameters.getInt("ColorTransform", standard);
    }
    if (transform != 0 && bands >= 3) {
      fromYcc(data, bands);
    }
    return new ImageData(raster.getWidth(), raster.getHeight(), bands, 8, data);
  }

  /** Tries each JPEG reader there is: one reads what another refuses. */
  private Raster read(byte[] bytes, String where) throws IOException {
    List<ImageReader> readers = new ArrayList<>();
    ImageReader own = ImageReaders.ownJpeg();
    if (own != null) {
      readers.add(own);
    }
    Exception failure = null;
    for (int i = 0; i < readers.size(); i++) {
      ImageReader reader = readers.get(i);
      try (var in = new ByteArrayImageInputStream(bytes)) {
        reader.setInput(in, true, true);
        List<String> damage = new ArrayList<>();
        reader.addIIOReadWarningListener((source, warning) -> damage.add(warning));
        Raster raster = reader.readRaster(0, null);
        if (!damage.isEmpty()) {
          findings.warning(
              "image-damaged",
              where
                  + ": JPEG data that are damaged ("
                  + damage.get(0)
                  + "); part of the image may be wrong; look at it, or ask for the file again");
        }
        if (failure != null) {
          findings.note(
              "image-second-reader",
              where + ": JPEG data that one decoder refused (" + Reason.of(failure) + ")");
        }
        return raster;
      } catch (IOException | RuntimeException e) {
        failure = e;
        if (i == 0 && reader == own) {
          readers.addAll(ImageReaders.of("JPEG"));
        }
      } finally {
        reader.dispose();
      }
    }
    throw new IOException(
        "JPEG data that can't be decoded: " + (failure == null ? "no reader" : Reason.of(failure)),
        failure);
  }

  private static byte[] interleaved(Raster raster) {
    int bands = raster.getNumBands();
    if (raster.getDataBuffer() instanceof DataBufferByte buffer
        && raster.getSampleModel() instanceof PixelInterleavedSampleModel model
        && model.getPixelStride() == bands
        && model.getScanlineStride() == bands * raster.getWidth()
        && buffer.getOffset() == 0) {
      int[] offsets = model.getBandOffsets();
      boolean inOrder = true;
      for (int b = 0; b < bands; b++) {
        inOrder &= offsets[b] == b;
      }
      if (inOrder) {
        return buffer.getData();
      }
    }
    int[] row = new int[raster.getWidth() * bands];
    byte[] data = new byte[row.length * raster.getHeight()];
    int at = 0;
    for (int y = 0; y < raster.getHeight(); y++) {
      raster.getPixels(raster.getMinX(), raster.getMinY() + y, raster.getWidth(), 1, row);
      for (int value : row) {
        data[at++] = (byte) value;
      }
    }
    return data;
  }

  private static Header header(byte[] b) throws IOException {
    int adobe = -1;
    int at = 2;
    while (at + 9 < b.length) {
      if ((b[at] & 0xff) != 0xff) {
        at++;
        continue;
      }
      int marker = b[at + 1] & 0xff;
      if (marker == 0xff || marker == 0 || marker == 1 || (marker >= 0xd0 && marker <= 0xd8)) {
        at += marker == 0xff ? 1 : 2;
        continue;
      }
      int length = (b[at + 2] & 0xff) << 8 | (b[at + 3] & 0xff);
      boolean frame =
          marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
      if (marker == 0xee
          && length >= 14
          && at + 15 < b.length
          && b[at + 4] == 'A'
          && b[at + 5] == 'd'
          && b[at + 6] == 'o'
          && b[at + 7] == 'b'
          && b[at + 8] == 'e') {
        adobe = b[at + 15] & 0xff;
      }
      if (frame) {
        int components = b[at + 9] & 0xff;
        boolean rgbIds =
            components == 3
                && at + 16 < b.length
                && b[at + 10] == 'R'
                && b[at + 13] == 'G'
                && b[at + 16] == 'B';
        return new Header(
            (b[at + 7] & 0xff) << 8 | (b[at + 8] & 0xff),
            (b[at + 5] & 0xff) << 8 | (b[at + 6] & 0xff),
            components,
            // An Adobe marker may follow the frame header; none met in practice does.
            adobe,
            rgbIds);
      }
      at += 2 + length;
    }
    throw new IOException("JPEG data without a frame header");
  }

  /** YCbCr to RGB, or YCCK to CMYK (the first three inverted), by ITU-T T.871. */
  private static void fromYcc(byte[] data, int bands) {
    for (int at = 0; at + bands <= data.length; at += bands) {
      float y = data[at] & 0xff;
      float cb = (data[at + 1] & 0xff) - 128;
      float cr = (data[at + 2] & 0xff) - 128;
      int r = clip(y + 1.402f * cr);
      int g = clip(y - 0.344136f * cb - 0.714136f * cr);
      int b = clip(y + 1.772f * cb);
      boolean four = bands == 4;
      data[at] = (byte) (four ? 255 - r : r);
      data[at + 1] = (byte) (four ? 255 - g : g);
      data[at + 2] = (byte) (four ? 255 - b : b);
    }
  }

  private static int clip(float value) {
    int rounded = (int) (value + 0.5f);
    return value < 0 ? 0 : Math.min(255, rounded);
  }
}
