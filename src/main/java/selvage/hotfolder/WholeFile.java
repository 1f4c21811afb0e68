package selvage.hotfolder;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Locale;

/** Whether a file ends as files of its kind end, so that it is not half of a copy. */
final class WholeFile {
  /** Where readers look for the header and the end mark of a PDF (common practice, no source). */
  private static final int PDF_MARGIN = 2048;

  private WholeFile() {}

  /** What the first and the last bytes say. */
  enum Look {
    /** It ends as its kind ends, or is of a kind without an end mark. */
    WHOLE,
    /** It lacks its end, or all. */
    CUT
  }

  /**
   * Looks at a file's ends.
   *
   * @throws IOException where it can't be read, for example since it is gone
   */
  static Look of(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      long size = channel.size();
      if (size == 0) {
        return Look.CUT;
      }
      String head = read(channel, 0, (int) Math.min(size, PDF_MARGIN));
      int margin = (int) Math.min(size, PDF_MARGIN);
      String tail = read(channel, size - margin, margin);
      return isWhole(head, tail, channel, size) ? Look.WHOLE : Look.CUT;
    }
  }

  private static boolean isWhole(String head, String tail, FileChannel channel, long size)
      throws IOException {
    if (head.contains("%PDF-")) {
      return tail.contains("%%EOF");
    }
    if (head.startsWith("\u00FF\u00D8")) {
      return tail.contains("\u00FF\u00D9");
    }
    if (head.startsWith("II*\0") && size >= 8) {
      return Integer.toUnsignedLong(Integer.reverseBytes(int32(channel))) + 2 <= size;
    }
    if (head.startsWith("MM\0*") && size >= 8) {
      return Integer.toUnsignedLong(int32(channel)) + 2 <= size;
    }
    String end = tail.strip();
    if (head.stripLeading().startsWith("<") || head.startsWith("\u00EF\u00BB\u00BF<")) {
      return end.endsWith(">");
    }
    if (head.contains("BEGIN_DATA")) {
      return end.toUpperCase(Locale.ROOT).contains("END_DATA");
    }
    return true;
  }

  private static int int32(FileChannel channel) throws IOException {
    ByteBuffer four = ByteBuffer.allocate(4);
    channel.read(four, 4);
    return four.getInt(0);
  }

  private static String read(FileChannel channel, long at, int length) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(length);
    while (bytes.hasRemaining() && channel.read(bytes, at + bytes.position()) > 0) {
      // The loop's condition reads.
    }
    return new String(bytes.array(), 0, bytes.position(), StandardCharsets.ISO_8859_1);
  }

  /** Whether a name is that of a copy under way, or of what desktops leave in folders. */
  static boolean isPassedOver(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    return name.startsWith(".")
        || name.startsWith("~")
        || name.endsWith("~")
        || name.endsWith(".part")
        || name.endsWith(".partial")
        || name.endsWith(".tmp")
        || name.endsWith(".filepart")
        || name.endsWith(".crdownload")
        || name.equals("thumbs.db")
        || name.equals("desktop.ini");
  }

  /** Whether it is a plain file and no link. */
  static boolean isPlain(Path file) {
    return Files.isRegularFile(file, java.nio.file.LinkOption.NOFOLLOW_LINKS);
  }
}
