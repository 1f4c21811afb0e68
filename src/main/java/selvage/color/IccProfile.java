package selvage.color;

import java.nio.charset.StandardCharsets;
import selvage.finding.InputException;

/**
 * The header and tag table of an ICC profile, version 2 or 4 [icc1]. Every place is checked against
 * the length of the bytes before it is read.
 */
final class IccProfile {
  private static final int HEADER = 128;
  private static final int MOST_TAGS = 1000;

  private final String name;
  private final byte[] bytes;
  private final int tagCount;

  private IccProfile(String name, byte[] bytes, int tagCount) {
    this.name = name;
    this.bytes = bytes;
    this.tagCount = tagCount;
  }

  /** Whether bytes carry the mark of an ICC profile. */
  static boolean isProfile(byte[] bytes) {
    return bytes.length >= HEADER
        && bytes[36] == 'a'
        && bytes[37] == 'c'
        && bytes[38] == 's'
        && bytes[39] == 'p';
  }

  /**
   * Reads header and tag table.
   *
   * @param name for messages
   * @throws InputException where the bytes are no profile, end early, or have another version
   */
  static IccProfile parse(String name, byte[] bytes) throws InputException {
    if (!isProfile(bytes)) {
      throw InputException.of(
          name, "expected an ICC profile, found no \"acsp\" at byte 36; give another file");
    }
    IccProfile header = new IccProfile(name, bytes.clone(), 0);
    long size = header.u32(0);
    if (size > bytes.length || bytes.length < HEADER + 4) {
      throw header.broken("expected " + size + " bytes as the header says, found " + bytes.length);
    }
    if (header.version() != 2 && header.version() != 4) {
      throw header.broken("expected profile version 2 or 4, found " + header.version());
    }
    long count = header.u32(HEADER);
    if (count > MOST_TAGS || HEADER + 4 + 12 * count > bytes.length) {
      throw header.broken("expected room for its table of " + count + " tags, found none");
    }
    IccProfile profile = new IccProfile(name, header.bytes, (int) count);
    for (int tag = 0; tag < count; tag++) {
      long offset = profile.u32(HEADER + 8 + 12 * tag);
      long length = profile.u32(HEADER + 12 + 12 * tag);
      if (offset + length > bytes.length) {
        throw profile.broken(
            "expected the tag \""
                + profile.signature(HEADER + 4 + 12 * tag)
                + "\" within the file, found it past the end");
      }
    }
    return profile;
  }

  /** The profile as the user or the job names it, for messages. */
  String name() {
    return name;
  }

  /** The major version, 2 or 4. */
  int version() {
    return bytes[8] & 0xFF;
  }

  /** The device class, for example {@code prtr}. */
  String deviceClass() {
    return signature(12);
  }

  /** The space of the device values, for example {@code CMYK} or {@code "RGB "}. */
  String dataSpace() {
    return signature(16);
  }

  /** The profile connection space: {@code "Lab "} or {@code "XYZ "}. */
  String connectionSpace() {
    return signature(20);
  }

  /** The number of device components; 0 for spaces that are not used here. */
  int components() {
    return switch (dataSpace()) {
      case "GRAY" -> 1;
      case "RGB ", "Lab " -> 3;
      case "CMYK" -> 4;
      default -> 0;
    };
  }

  /**
   * The profile's description; empty where it has none that can be read.
   *
   * @return the text of {@code desc}: ASCII in version 2, the first language in version 4
   */
  String description() {
    int at = find("desc");
    int end = at < 0 ? 0 : at + size("desc");
    if (at < 0 || end - at < 12) {
      return "";
    }
    String type = signature(at);
    if (type.equals("desc")) {
      long length = Math.min(u32(at + 8), end - at - 12);
      return text(at + 12, (int) length, StandardCharsets.ISO_8859_1);
    }
    if (type.equals("mluc") && end - at >= 28) {
      long length = u32(at + 20);
      long offset = u32(at + 24);
      if (offset + length <= end - at) {
        return text(at + (int) offset, (int) length, StandardCharsets.UTF_16BE);
      }
    }
    return "";
  }

  private String text(int at, int length, java.nio.charset.Charset charset) {
    String text = new String(bytes, at, length, charset);
    int end = text.indexOf('\0');
    return (end < 0 ? text : text.substring(0, end)).strip();
  }

  /**
   * The media's white over the white of the connection space, in X, Y, Z; all 1 where the profile
   * has no {@code wtpt}. Monitors of version 2 count as adapted: their white is the connection
   * space's.
   *
   * @throws InputException where the tag is broken or no white
   */
  XyzScale mediaWhite() throws InputException {
    int at = find("wtpt");
    if (at < 0 || (version() == 2 && deviceClass().equals("mntr"))) {
      return XyzScale.NONE;
    }
    double[] white = xyz("wtpt");
    if (!(white[1] > 0.05 && white[1] < 1.5 && white[0] > 0.05 && white[2] > 0.01)) {
      throw broken("expected a white point, found one with Y of " + white[1]);
    }
    Xyz connection = ReferenceWhite.ICC_PCS.xyz();
    return new XyzScale(
        100 * white[0] / connection.x(),
        100 * white[1] / connection.y(),
        100 * white[2] / connection.z());
  }

  /**
   * The value of a tag of type XYZ, Y = 1 for white.
   *
   * @throws InputException where the tag is missing or of another type
   */
  double[] xyz(String tag) throws InputException {
    int at = find(tag);
    if (at < 0 || size(tag) < 20 || !signature(at).equals("XYZ ")) {
      throw broken("expected a tag \"" + tag + "\" of type XYZ, found none");
    }
    return new double[] {fixed(at + 8), fixed(at + 12), fixed(at + 16)};
  }

  /** Where a tag's data begin; -1 where the profile does not have it. */
  int find(String tag) {
    for (int i = 0; i < tagCount; i++) {
      if (signature(HEADER + 4 + 12 * i).equals(tag)) {
        return (int) u32(HEADER + 8 + 12 * i);
      }
    }
    return -1;
  }

  /** The length of a tag's data that the profile has. */
  int size(String tag) {
    for (int i = 0; i < tagCount; i++) {
      if (signature(HEADER + 4 + 12 * i).equals(tag)) {
        return (int) u32(HEADER + 12 + 12 * i);
      }
    }
    return 0;
  }

  /** The message for a profile that can't be used. */
  InputException broken(String problem) {
    return InputException.of(name, problem + "; give a sound ICC profile");
  }

  /**
   * Makes sure that a range lies within the profile.
   *
   * @param what for the message
   */
  void require(long at, long length, String what) throws InputException {
    if (at < 0 || length < 0 || at + length > bytes.length) {
      throw broken("expected " + what + " within the profile, found them past its end");
    }
  }

  int u8(int at) {
    return bytes[at] & 0xFF;
  }

  int u16(int at) {
    return ((bytes[at] & 0xFF) << 8) | (bytes[at + 1] & 0xFF);
  }

  long u32(int at) {
    return ((long) u16(at) << 16) | u16(at + 2);
  }

  /** A number of type s15Fixed16. */
  double fixed(int at) {
    return (int) u32(at) / 65536.0;
  }

  String signature(int at) {
    return new String(bytes, at, 4, StandardCharsets.ISO_8859_1);
  }
}
