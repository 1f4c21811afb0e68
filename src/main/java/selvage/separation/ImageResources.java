package selvage.separation;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The image resource block that image editors leave in TIFF (tag 34377) and JPEG (APP13): which
 * extra channels are spot inks, their names and colours, and the resolution. Layout from memory of
 * its published description; what can't be read counts as absent.
 */
final class ImageResources {
  private static final int RESOLUTION = 1005;
  private static final int CHANNEL_NAMES = 1006;
  private static final int CHANNEL_KINDS = 1007;
  private static final int UNICODE_NAMES = 1045;
  private static final int CHANNEL_KINDS_NEW = 1077;
  private static final int SPOT = 2;

  /**
   * An extra channel that is a spot ink; its samples are 0 where the ink is solid.
   *
   * @param name may be empty
   * @param color null where it is stated in a way that is not read
   */
  record SpotChannel(String name, InkColor color) {}

  private final Map<Integer, byte[]> resources = new HashMap<>();

  ImageResources(byte[] block) {
    int at = 0;
    while (at + 12 <= block.length
        && block[at] == '8'
        && block[at + 1] == 'B'
        && block[at + 2] == 'I'
        && block[at + 3] == 'M') {
      int id = u16(block, at + 4);
      int name = 1 + (block[at + 6] & 0xff);
      int size = at + 6 + name + (name & 1);
      if (size + 4 > block.length) {
        return;
      }
      long count = u32(block, size);
      int start = size + 4;
      if (count > block.length - start) {
        return;
      }
      byte[] data = new byte[(int) count];
      System.arraycopy(block, start, data, 0, data.length);
      resources.putIfAbsent(id, data);
      at = start + data.length + (data.length & 1);
    }
  }

  private static int u16(byte[] b, int at) {
    return (b[at] & 0xff) << 8 | (b[at + 1] & 0xff);
  }

  private static long u32(byte[] b, int at) {
    return (long) u16(b, at) << 16 | u16(b, at + 2);
  }

  /** The stated resolution, 16.16 fixed point, an inch; assumed where there is none. */
  ImageResolution resolution() {
    byte[] data = resources.getOrDefault(RESOLUTION, new byte[0]);
    return data.length < 12
        ? ImageResolution.ASSUMED
        : ImageResolution.of(u32(data, 0) / 65536.0, u32(data, 8) / 65536.0, false);
  }

  /** What each extra channel is, in their order: a spot, or null for another channel. */
  List<SpotChannel> channels() {
    byte[] kinds = resources.getOrDefault(CHANNEL_KINDS_NEW, new byte[0]);
    int at = 4;
    int step = 13;
    if (kinds.length < at + step) {
      kinds = resources.getOrDefault(CHANNEL_KINDS, new byte[0]);
      at = 0;
      step = 14;
    }
    List<String> names = names();
    List<SpotChannel> channels = new ArrayList<>();
    for (int i = 0; at + 13 <= kinds.length; i++, at += step) {
      boolean named = i < names.size() && !names.get(i).isBlank();
      channels.add(
          kinds[at + 12] == SPOT
              ? new SpotChannel(named ? names.get(i).strip() : "", color(kinds, at))
              : null);
    }
    return channels;
  }

  private List<String> names() {
    List<String> names = new ArrayList<>();
    byte[] wide = resources.get(UNICODE_NAMES);
    for (int at = 0; wide != null && at + 4 <= wide.length; ) {
      long length = u32(wide, at);
      at += 4;
      if (2 * length > wide.length - at) {
        break;
      }
      String name = new String(wide, at, (int) (2 * length), StandardCharsets.UTF_16BE);
      names.add(name.endsWith("\0") ? name.substring(0, name.length() - 1) : name);
      at += (int) (2 * length);
    }
    byte[] brief = resources.get(CHANNEL_NAMES);
    for (int at = 0; names.isEmpty() && brief != null && at < brief.length; ) {
      int length = brief[at++] & 0xff;
      if (length > brief.length - at) {
        break;
      }
      names.add(new String(brief, at, length, StandardCharsets.ISO_8859_1));
      at += length;
    }
    return names;
  }

  private static InkColor color(byte[] b, int at) {
    int a = u16(b, at + 2);
    int c = u16(b, at + 4);
    int d = u16(b, at + 6);
    int e = u16(b, at + 8);
    return switch (u16(b, at)) {
      case 0 -> InkColor.rgb(a / 65535f, c / 65535f, d / 65535f);
      case 2 -> InkColor.cmyk(1 - a / 65535f, 1 - c / 65535f, 1 - d / 65535f, 1 - e / 65535f);
      case 7 -> InkColor.lab(a / 100f, (short) c / 100f, (short) d / 100f);
      default -> null;
    };
  }
}
