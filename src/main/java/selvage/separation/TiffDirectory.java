package selvage.separation;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * One image file directory of a TIFF structure [tiff6], with 32-bit or 64-bit offsets. Values are
 * read when they are asked for, and never more than the file holds.
 */
final class TiffDirectory {
  private static final int MOST_PAGES = 1000;
  private static final int MOST_ENTRIES = 4096;
  private static final int MOST_VALUE_BYTES = 64 << 20;

  private record Entry(int type, long count, long at) {}

  private final ByteAccess bytes;
  private final boolean littleEndian;
  private final Map<Integer, Entry> entries = new HashMap<>();

  private TiffDirectory(ByteAccess bytes, boolean littleEndian) {
    this.bytes = bytes;
    this.littleEndian = littleEndian;
  }

  /** Whether bytes begin as a TIFF structure does. */
  static boolean isTiff(byte[] head) {
    if (head.length < 4) {
      return false;
    }
    boolean little = head[0] == 'I' && head[1] == 'I' && head[3] == 0;
    boolean big = head[0] == 'M' && head[1] == 'M' && head[2] == 0;
    int version = little ? head[2] : head[3];
    return (little || big) && (version == 42 || version == 43);
  }

  /** All directories of the chain, in their order; at least one. */
  static List<TiffDirectory> readAll(ByteAccess bytes) throws IOException {
    byte[] head = bytes.readAll(0, 8);
    if (!isTiff(head)) {
      throw new IOException("expected a TIFF header, found other bytes");
    }
    boolean little = head[0] == 'I';
    boolean wide = head[little ? 2 : 3] == 43;
    TiffDirectory root = new TiffDirectory(bytes, little);
    long at = wide ? root.fixed(8, 8) : root.fixed(4, 4);
    List<TiffDirectory> directories = new ArrayList<>();
    Set<Long> seen = new HashSet<>();
    while (at != 0) {
      if (!seen.add(at) || directories.size() >= MOST_PAGES) {
        throw new IOException(
            "expected at most "
                + MOST_PAGES
                + " directories in a chain that ends, found more or a circle");
      }
      TiffDirectory directory = new TiffDirectory(bytes, little);
      at = directory.read(at, wide);
      directories.add(directory);
    }
    if (directories.isEmpty()) {
      throw new IOException("expected an image, found none");
    }
    return directories;
  }

  /** Reads the entries and returns the place of the next directory, 0 for none. */
  private long read(long at, boolean wide) throws IOException {
    long count = fixed(at, wide ? 8 : 2);
    if (count < 0 || count > MOST_ENTRIES) {
      throw new IOException("expected at most " + MOST_ENTRIES + " entries, found " + count);
    }
    int size = wide ? 20 : 12;
    int room = wide ? 8 : 4;
    long entry = at + (wide ? 8 : 2);
    for (int i = 0; i < count; i++, entry += size) {
      int tag = (int) fixed(entry, 2);
      int type = (int) fixed(entry + 2, 2);
      long values = fixed(entry + 4, room);
      long place = entry + 4 + room;
      if (values < 0 || values > MOST_VALUE_BYTES) {
        continue; // no value is so long; the tag counts as absent
      }
      if (values * width(type) > room) {
        place = fixed(place, room);
      }
      entries.putIfAbsent(tag, new Entry(type, values, place));
    }
    return fixed(entry, room);
  }

  private long fixed(long at, int width) throws IOException {
    return fixed(bytes.readAll(at, width), 0, width);
  }

  private long fixed(byte[] b, int at, int width) {
    long value = 0;
    for (int i = 0; i < width; i++) {
      value = value << 8 | (b[at + (littleEndian ? width - 1 - i : i)] & 0xff);
    }
    return value;
  }

  private static int width(int type) {
    return switch (type) {
      case 1, 2, 6, 7 -> 1;
      case 3, 8 -> 2;
      case 4, 9, 11, 13 -> 4;
      case 5, 10, 12, 16, 17, 18 -> 8;
      default -> 0;
    };
  }

  boolean isLittleEndian() {
    return littleEndian;
  }

  boolean has(int tag) {
    return entries.containsKey(tag);
  }

  /** The raw bytes of a value; empty where the tag is absent. */
  byte[] bytes(int tag) throws IOException {
    Entry entry = entries.get(tag);
    if (entry == null) {
      return new byte[0];
    }
    long size = entry.count * width(entry.type);
    if (size > MOST_VALUE_BYTES) {
      throw new IOException("tag " + tag + ": expected a shorter value, found " + size + " bytes");
    }
    return bytes.readAll(entry.at, (int) size);
  }

  /** Whole numbers; empty where the tag is absent or holds something else. */
  long[] numbers(int tag) throws IOException {
    Entry entry = entries.get(tag);
    if (entry == null || !isWhole(entry.type)) {
      return new long[0];
    }
    int width = width(entry.type);
    byte[] raw = bytes(tag);
    long[] numbers = new long[raw.length / width];
    for (int i = 0; i < numbers.length; i++) {
      numbers[i] = fixed(raw, i * width, width);
    }
    return numbers;
  }

  private static boolean isWhole(int type) {
    return type == 1 || type == 3 || type == 4 || type == 13 || type == 16 || type == 18;
  }

  /** The first number of a value. */
  long number(int tag, long otherwise) throws IOException {
    long[] numbers = numbers(tag);
    return numbers.length == 0 ? otherwise : numbers[0];
  }

  /** The first number as an int; what is larger than an int is the largest. */
  int integer(int tag, int otherwise) throws IOException {
    long number = number(tag, otherwise);
    return number < 0 || number > Integer.MAX_VALUE ? Integer.MAX_VALUE : (int) number;
  }

  /** An unsigned rational, or 0 where it is absent or has no value. */
  double rational(int tag) throws IOException {
    Entry entry = entries.get(tag);
    if (entry == null || entry.type != 5 || entry.count < 1) {
      return number(tag, 0);
    }
    long below = fixed(entry.at + 4, 4);
    return below == 0 ? 0 : (double) fixed(entry.at, 4) / below;
  }

  /** Texts that end with a zero byte each; UTF-8 contains the ASCII that [tiff6] asks for. */
  List<String> texts(int tag) throws IOException {
    byte[] raw = bytes(tag);
    List<String> texts = new ArrayList<>();
    int start = 0;
    for (int i = 0; i <= raw.length; i++) {
      if (i == raw.length ? i > start : raw[i] == 0) {
        texts.add(new String(raw, start, i - start, StandardCharsets.UTF_8));
        start = i + 1;
      }
    }
    return texts;
  }
}
