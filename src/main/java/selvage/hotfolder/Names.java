package selvage.hotfolder;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;

/**
 * Finds names for results that nobody has, and keeps them until the results are there. Safe for use
 * by many threads.
 */
final class Names {
  /**
   * The most bytes of a stem. File systems take 255 for a name; endings and the names of files
   * under way need the rest.
   */
  private static final int MOST_BYTES = 180;

  private final Set<Path> kept = new HashSet<>();

  /**
   * Keeps a stem: the given one, else with {@code -2}, {@code -3} and so on, such that no file of
   * these endings is there.
   *
   * @param folder where the files will lie
   * @param stem wished for; shortened where it is too long
   * @return the stem as a path; {@link #letGo} it in the end
   */
  synchronized Path keep(Path folder, String stem, List<String> endings) {
    String wished = shortened(stem);
    for (int n = 1; ; n++) {
      Path free = folder.resolve(n == 1 ? wished : wished + "-" + n);
      if (!kept.contains(free) && isFree(free, endings)) {
        kept.add(free);
        return free;
      }
    }
  }

  synchronized void letGo(Path stem) {
    kept.remove(stem);
  }

  private static boolean isFree(Path stem, List<String> endings) {
    for (String ending : endings) {
      if (Files.exists(with(stem, ending), java.nio.file.LinkOption.NOFOLLOW_LINKS)) {
        return false;
      }
    }
    return true;
  }

  /** A stem with an ending. */
  static Path with(Path stem, String ending) {
    return stem.resolveSibling(stem.getFileName() + ending);
  }

  /** A name without its last ending. */
  static String stem(String name) {
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }

  /** A name's last ending with its dot, or nothing. */
  static String ending(String name) {
    return name.substring(stem(name).length());
  }

  /** At most {@value #MOST_BYTES} bytes; what was cut is stood for by eight letters. */
  static String shortened(String stem) {
    byte[] bytes = stem.getBytes(StandardCharsets.UTF_8);
    if (bytes.length <= MOST_BYTES) {
      return stem;
    }
    String mark = "~" + digest(bytes).substring(0, 8);
    StringBuilder text = new StringBuilder();
    int length = mark.length();
    for (int c : stem.codePoints().toArray()) {
      length += Character.toString(c).getBytes(StandardCharsets.UTF_8).length;
      if (length > MOST_BYTES) {
        break;
      }
      text.appendCodePoint(c);
    }
    return text + mark;
  }

  private static String digest(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
