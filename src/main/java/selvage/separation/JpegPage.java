package selvage.separation;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * A JPEG file as a page: its markers are read [t81], its coded data are passed on as they are.
 *
 * <p>Four components with an Adobe marker are inverted, as the writers of that marker have it; four
 * without it are not (common practice, no source).
 */
final class JpegPage implements ImagePage {
  /** Even an empty block of 8 by 8 samples takes more than a bit. */
  private static final int MOST_SAMPLES_PER_BIT = 64;

  private final byte[] bytes;
  private final int end;
  private int width;
  private int height;
  private int components;
  private boolean adobe;
  private boolean scanned;
  private ImageResolution stated = ImageResolution.ASSUMED;
  private ImageResolution elsewhere = ImageResolution.ASSUMED;
  private int orientation = 1;
  private final Map<Integer, byte[]> profileParts = new TreeMap<>();

  /**
   * Reads the markers.
   *
   * @param mostBytes of the decoded samples
   */
  JpegPage(byte[] bytes, long mostBytes) throws IOException {
    this.bytes = bytes;
    end = readMarkers();
    if (components == 0) {
      throw new IOException("expected a frame header, found none");
    }
    if (components != 1 && components != 3 && components != 4) {
      throw new IOException("expected 1, 3 or 4 components, found " + components);
    }
    if ((long) width * height * components > Math.min(mostBytes, Integer.MAX_VALUE - 64)) {
      throw new IOException(
          "expected an image of at most "
              + (mostBytes >> 20)
              + " MiB, found "
              + width
              + " × "
              + height
              + " samples of "
              + components
              + " components; save it at a lower resolution");
    }
    if ((long) width * height / MOST_SAMPLES_PER_BIT / 8 > bytes.length) {
      throw cutOff();
    }
  }

  static boolean isJpeg(byte[] head) {
    return head.length >= 3
        && head[0] == (byte) 0xff
        && head[1] == (byte) 0xd8
        && head[2] == (byte) 0xff;
  }

  private static IOException cutOff() {
    return new IOException("expected data up to an end mark, found none; it was cut off");
  }

  private int u16(int at) {
    return (bytes[at] & 0xff) << 8 | (bytes[at + 1] & 0xff);
  }

  /** Reads all segments and returns the place after the end mark. */
  private int readMarkers() throws IOException {
    int at = 2;
    while (at + 1 < bytes.length) {
      int marker = bytes[at + 1] & 0xff;
      if (bytes[at] != (byte) 0xff || marker == 0 || (marker >= 0xd0 && marker <= 0xd7)) {
        at++; // coded data, or bytes between segments
      } else if (marker == 0xff) {
        at++;
      } else if (marker == 0xd9) {
        if (!scanned) {
          throw new IOException("expected a scan before the end mark, found none");
        }
        return at + 2;
      } else {
        if (at + 4 > bytes.length || at + 2 + u16(at + 2) > bytes.length || u16(at + 2) < 2) {
          throw cutOff();
        }
        segment(marker, at + 4, at + 2 + u16(at + 2));
        at += 2 + u16(at + 2);
      }
    }
    throw cutOff();
  }

  private void segment(int marker, int from, int to) throws IOException {
    switch (marker) {
      case 0xc0, 0xc1, 0xc2 -> frame(from, to);
      case 0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf ->
          throw new IOException(
              "expected a baseline or progressive JPEG, found another process; save it as one of"
                  + " these");
      case 0xda -> scanned = true;
      case 0xe0 -> {
        if (starts(from, to, "JFIF\0") && to - from >= 12 && bytes[from + 7] != 0) {
          stated = ImageResolution.of(u16(from + 8), u16(from + 10), bytes[from + 7] == 2);
        }
      }
      case 0xe1 -> {
        if (starts(from, to, "Exif\0\0")) {
          exif(Arrays.copyOfRange(bytes, from + 6, to));
        }
      }
      case 0xe2 -> {
        if (starts(from, to, "ICC_PROFILE\0") && to - from > 14) {
          profileParts.putIfAbsent(
              bytes[from + 12] & 0xff, Arrays.copyOfRange(bytes, from + 14, to));
        }
      }
      case 0xed -> {
        int name = from; // a name that ends with a zero byte, then the block
        while (name < to && bytes[name] != 0) {
          name++;
        }
        byte[] block = Arrays.copyOfRange(bytes, Math.min(name + 1, to), to);
        otherwise(new ImageResources(block).resolution());
      }
      case 0xee -> adobe |= starts(from, to, "Adobe") && to - from >= 12;
      default -> {}
    }
  }

  private boolean starts(int from, int to, String text) {
    byte[] wanted = text.getBytes(StandardCharsets.ISO_8859_1);
    return to - from >= wanted.length
        && Arrays.equals(bytes, from, from + wanted.length, wanted, 0, wanted.length);
  }

  private void otherwise(ImageResolution other) {
    if (!elsewhere.stated()) {
      elsewhere = other;
    }
  }

  private void frame(int from, int to) throws IOException {
    if (to - from < 6) {
      throw cutOff();
    }
    if (bytes[from] != 8) {
      throw new IOException(
          "expected 8 bits a component, found " + bytes[from] + "; save it with 8");
    }
    height = u16(from + 1);
    width = u16(from + 3);
    components = bytes[from + 5] & 0xff;
    if (width == 0 || height == 0) {
      throw new IOException("expected a width and a height, found " + width + " × " + height);
    }
  }

  /** Resolution and orientation; what can't be read counts as absent. */
  private void exif(byte[] block) {
    try {
      TiffDirectory tags = TiffDirectory.readAll(ByteAccess.of(block)).get(0);
      orientation = tags.integer(274, 1);
      if (tags.number(296, 2) != 1) {
        otherwise(
            ImageResolution.of(tags.rational(282), tags.rational(283), tags.number(296, 2) == 3));
      }
    } catch (IOException e) {
      orientation = 1;
    }
  }

  /** The coded data from the start mark to the end mark. */
  byte[] coded() {
    return end == bytes.length ? bytes : Arrays.copyOf(bytes, end);
  }

  @Override
  public int width() {
    return width;
  }

  @Override
  public int height() {
    return height;
  }

  @Override
  public ImageResolution resolution() {
    return stated.stated() ? stated : elsewhere;
  }

  @Override
  public int orientation() {
    return orientation;
  }

  @Override
  public byte[] profile() {
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    profileParts.values().forEach(whole::writeBytes);
    return whole.toByteArray();
  }

  @Override
  public List<ImagePart> parts() {
    return List.of(
        switch (components) {
          case 1 -> ImagePart.base(ImagePart.Kind.GRAY);
          case 3 -> ImagePart.base(ImagePart.Kind.RGB);
          default ->
              adobe
                  ? ImagePart.base(ImagePart.Kind.CMYK, 1, 0, 1, 0, 1, 0, 1, 0)
                  : ImagePart.base(ImagePart.Kind.CMYK);
        });
  }
}
