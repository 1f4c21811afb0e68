package selvage.separation;

import com.twelvemonkeys.imageio.stream.ByteArrayImageInputStream;
import java.awt.image.Raster;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageReader;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;

/** Decodes image streams to samples, straight from their filters. */
final class ImageDecoder {
  private static final List<String> DCT = List.of("DCTDecode", "DCT");
  private static final List<String> JPX = List.of("JPXDecode");

  private final FindingList findings;
  private final long mostBytes;
  private final ImageCache cache;

  ImageDecoder(FindingList findings, long mostBytes, ImageCache cache) {
    this.findings = findings;
    this.mostBytes = mostBytes;
    this.cache = cache;
  }

  /**
   * Decodes an image XObject or mask.
   *
   * @param components of its colour space; 0 to take what the data have (JPX)
   * @param where for findings
   */
  ImageData decode(COSStream stream, int components, String where) throws IOException {
    ImageData data = cache.get(stream);
    if (data == null) {
      data = decodeNew(stream, components, where);
      cache.put(stream, data);
    }
    return data;
  }

  private ImageData decodeNew(COSStream stream, int components, String where) throws IOException {
    List<String> filters = filters(stream);
    String last = filters.isEmpty() ? "" : filters.get(filters.size() - 1);
    if (DCT.contains(last)) {
      return new JpegDecoder(findings, mostBytes)
          .decode(encoded(stream, DCT), decodeParameters(stream, filters.size() - 1), where);
    }
    if (JPX.contains(last)) {
      return jpx(encoded(stream, JPX));
    }
    int bits = bits(stream, last);
    int width = size(stream, COSName.WIDTH, COSName.W);
    int height = size(stream, COSName.HEIGHT, COSName.H);
    long expected = ImageData.rowBytes(width, components, bits) * height;
    checkSize(expected, width, height);
    if (filters.contains("JBIG2Decode")) {
      ImageReaders.fillWithAll();
    }
    byte[] data = StreamBytes.first(stream, expected);
    return packed(width, height, components, bits, data, where);
  }

  /** Wraps the decoded data of an inline image. */
  ImageData inline(COSDictionary parameters, int components, byte[] data, String where)
      throws IOException {
    int width = size(parameters, COSName.WIDTH, COSName.W);
    int height = size(parameters, COSName.HEIGHT, COSName.H);
    int bits = bits(parameters, "");
    checkSize(ImageData.rowBytes(width, components, bits) * height, width, height);
    return packed(width, height, components, bits, data, where);
  }

  private ImageData packed(
      int width, int height, int components, int bits, byte[] data, String where) {
    long expected = ImageData.rowBytes(width, components, bits) * height;
    if (data.length < expected) {
      findings.warning(
          "image-truncated",
          where
              + ": its data end after "
              + data.length
              + " of "
              + expected
              + " bytes; the rest counts as 0");
    }
    return new ImageData(width, height, components, bits, data);
  }

  private void checkSize(long bytes, int width, int height) throws IOException {
    if (bytes > Math.min(mostBytes, Integer.MAX_VALUE - 64)) {
      throw new IOException(
          "an image of " + width + " × " + height + " samples is too large to be decoded");
    }
  }

  private static int size(COSDictionary dictionary, COSName name, COSName brief)
      throws IOException {
    int size = dictionary.getInt(name, brief, 0);
    if (size <= 0) {
      throw new IOException("an image whose " + name.getName() + " is " + size);
    }
    return size;
  }

  private static int bits(COSDictionary dictionary, String filter) throws IOException {
    boolean mask = dictionary.getBoolean(COSName.IMAGE_MASK, COSName.IM, false);
    boolean bilevel = filter.equals("CCITTFaxDecode") || filter.equals("JBIG2Decode");
    int bits = mask || bilevel ? 1 : dictionary.getInt(COSName.BITS_PER_COMPONENT, COSName.BPC, 8);
    if (bits != 1 && bits != 2 && bits != 4 && bits != 8 && bits != 16) {
      throw new IOException("an image of " + bits + " bits a component");
    }
    return bits;
  }

  static List<String> filters(COSDictionary dictionary) {
    COSBase stated = dictionary.getDictionaryObject(COSName.FILTER, COSName.F);
    List<String> filters = new ArrayList<>();
    if (stated instanceof COSName name) {
      filters.add(name.getName());
    } else if (stated instanceof COSArray array) {
      for (int i = 0; i < array.size(); i++) {
        if (array.getObject(i) instanceof COSName name) {
          filters.add(name.getName());
        }
      }
    }
    return filters;
  }

  static COSDictionary decodeParameters(COSDictionary dictionary, int index) {
    COSBase stated = dictionary.getDictionaryObject(COSName.DECODE_PARMS, COSName.DP);
    if (stated instanceof COSArray array && index < array.size()) {
      stated = array.getObject(index);
    }
    return stated instanceof COSDictionary parameters ? parameters : new COSDictionary();
  }

  private byte[] encoded(COSStream stream, List<String> stop) throws IOException {
    return StreamBytes.before(stop, stream, mostBytes);
  }

  private ImageData jpx(byte[] bytes) throws IOException {
    List<ImageReader> readers = ImageReaders.of("JPEG2000");
    if (readers.isEmpty()) {
      throw new IOException("no reader for JPEG 2000 is there");
    }
    ImageReader reader = readers.get(0);
    try (var in = new ByteArrayImageInputStream(bytes)) {
      reader.setInput(in, true, true);
      int width = reader.getWidth(0);
      int height = reader.getHeight(0);
      checkSize(4L * width * height, width, height);
      Raster raster;
      try {
        raster = reader.readRaster(0, null);
      } catch (RuntimeException e) {
        raster = reader.read(0).getRaster();
      }
      return ofRaster(raster);
    } catch (RuntimeException e) {
      throw new IOException("a JPEG 2000 image that can't be decoded: " + Reason.of(e), e);
    } finally {
      reader.dispose();
    }
  }

  /** The samples of a raster of up to 16 bits a component; 8 bits are kept, others are scaled. */
  static ImageData ofRaster(Raster raster) {
    int width = raster.getWidth();
    int height = raster.getHeight();
    int bands = raster.getNumBands();
    int depth = raster.getSampleModel().getSampleSize(0);
    boolean wide = depth > 8;
    byte[] data = new byte[width * height * bands * (wide ? 2 : 1)];
    int[] row = new int[width * bands];
    int most = (1 << depth) - 1;
    int at = 0;
    for (int y = 0; y < height; y++) {
      raster.getPixels(raster.getMinX(), raster.getMinY() + y, width, 1, row);
      for (int value : row) {
        if (wide) {
          int scaled = depth == 16 ? value : (int) (value * 65535L / most);
          data[at++] = (byte) (scaled >> 8);
          data[at++] = (byte) scaled;
        } else {
          data[at++] = (byte) (depth == 8 ? value : value * 255 / most);
        }
      }
    }
    return new ImageData(width, height, bands, wide ? 16 : 8, data);
  }
}
