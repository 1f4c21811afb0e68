package selvage.cli;

import java.io.File;
import java.io.FileInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/**
 * What Linux tells of this process in {@code /proc/self}. Elsewhere it tells nothing. {@link
 * ProcessHandle} knows the same, but needs 10 ms to get ready and cuts long command lines.
 */
final class ProcessFacts {
  private static final String SELF = "/proc/self";
  private static final byte[] JAR = "-jar".getBytes(StandardCharsets.US_ASCII);

  private ProcessFacts() {}

  /**
   * Whether this process's command line is {@code java -jar FILE} and {@code count} arguments, with
   * no option of Java's.
   */
  static boolean isPlainStart(int count) {
    try {
      return isPlainStart(read("cmdline"), count);
    } catch (IOException e) {
      return false;
    }
  }

  /** The same for a command line's words, each ended by a zero. */
  static boolean isPlainStart(byte[] words, int count) {
    int found = 0;
    int second = 0;
    for (int i = 0; i < words.length; i++) {
      if (words[i] == 0) {
        found++;
        if (found == 1) {
          second = i + 1;
        } else if (found == 2 && !isJar(words, second, i)) {
          return false;
        }
      }
    }
    return found == count + 3;
  }

  private static boolean isJar(byte[] words, int start, int end) {
    if (end - start != JAR.length) {
      return false;
    }
    for (int i = 0; i < JAR.length; i++) {
      if (words[start + i] != JAR[i]) {
        return false;
      }
    }
    return true;
  }

  /** This process's number, or null where it is not known. */
  static String id() {
    try {
      String name = new File(SELF).getCanonicalFile().getName();
      return name.isEmpty() || name.charAt(0) > '9' ? null : name;
    } catch (IOException e) {
      return null;
    }
  }

  /** The number of the process that started this one; 1 or another after that one's end. */
  static String parentId() throws IOException {
    return parentId(new String(read("stat"), StandardCharsets.ISO_8859_1));
  }

  /** The fourth field; the second is a name in parentheses, which may hold anything. */
  static String parentId(String stat) {
    int start = stat.indexOf(' ', stat.lastIndexOf(')') + 2) + 1;
    return stat.substring(start, stat.indexOf(' ', start));
  }

  private static byte[] read(String name) throws IOException {
    try (FileInputStream in = new FileInputStream(SELF + "/" + name)) {
      return in.readAllBytes();
    }
  }
}
