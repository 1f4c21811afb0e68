package selvage.cli;

import java.io.File;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * The jar's first class. It runs a short command in a second Java process, whose options and
 * archive of classes suit short work, and which is done sooner than this process would be, although
 * that starts one more. The decision 0031 has the measurements.
 *
 * <p>Only a process started plainly, as {@code java -jar selvage.jar ARGUMENTS}, is doubled:
 * whoever gives Java an option of their own has decided how it runs. Where anything stands in the
 * way, the command runs in this process, as it would without this class. Standard input, output and
 * error are the second process's own, the exit status is passed on, and a signal that ends this
 * process ends the other as well.
 *
 * <p>This class stays with a few classes of the Java runtime, and without lambdas: its own start is
 * part of every run.
 */
public final class Launcher {
  /** Beside the jar, with the jar's name; made by the build. */
  private static final String ARCHIVE_SUFFIX = ".jsa";

  /** From here on, what the second compiler makes is worth the work of making it. */
  private static final long LARGE_BYTES = 8L << 20;

  /** How the build ends an archive. */
  private static final String COMPLETE = "complete";

  private static final String JAR_SUFFIX = ".jar";

  /** Variables by which options reach every Java process; each process reads them anew. */
  private static final String[] OPTION_VARIABLES = {
    "JDK_JAVA_OPTIONS", "JAVA_TOOL_OPTIONS", "_JAVA_OPTIONS"
  };

  private Launcher() {}

  public static void main(String[] args) {
    List<String> command = command(args);
    if (command != null) {
      SecondProcess second = new SecondProcess();
      if (second.start(command)) {
        second.await();
      }
    }
    Main.main(args);
  }

  /** Whether a command is over soon; one that stays, such as a server, keeps its own process. */
  static boolean isShort(String[] args) {
    if (args.length == 0) {
      return true;
    }
    return switch (args[0]) {
      case "survey", "stamp", "rehearse", "score", "demo" -> true;
      default -> args[0].startsWith("-");
    };
  }

  /** The second process's command line, or null where there must be none. */
  private static List<String> command(String[] args) {
    if (!isShort(args)
        || !hasFaithfulText(args)
        || hasOptionVariable()
        || !ProcessFacts.isPlainStart(args.length)) {
      return null;
    }
    String id = ProcessFacts.id();
    String jar;
    try {
      jar = new File(System.getProperty("java.class.path")).getCanonicalPath();
    } catch (IOException e) {
      return null;
    }
    if (id == null || !jar.endsWith(JAR_SUFFIX) || jar.contains(File.pathSeparator)) {
      return null;
    }
    List<String> command = new ArrayList<>();
    command.add(System.getProperty("java.home") + "/bin/java");
    addOptions(command, jar, args);
    command.add("-cp");
    command.add(jar);
    command.add(Launched.class.getName());
    command.add(id);
    for (String argument : args) {
      command.add(argument);
    }
    return command;
  }

  private static void addOptions(List<String> command, String jar, String[] args) {
    command.add("-XX:+IgnoreUnrecognizedVMOptions");
    if (!isLarge(args)) {
      command.add("-XX:TieredStopAtLevel=1");
    }
    command.add("-XX:+UseSerialGC");
    command.add("-XX:-UsePerfData");
    String archive = jar.substring(0, jar.length() - JAR_SUFFIX.length()) + ARCHIVE_SUFFIX;
    if (isComplete(archive)) {
      command.add("-Xshare:auto");
      command.add("-Xlog:cds*=off,class+path*=off");
      command.add("-XX:SharedArchiveFile=" + archive);
    }
  }

  /** Whether one of the arguments names a file that keeps a process at work for several seconds. */
  static boolean isLarge(String[] args) {
    for (String argument : args) {
      if (new File(argument).length() >= LARGE_BYTES) {
        return true;
      }
    }
    return false;
  }

  /**
   * Whether an archive has its mark at the end. Java itself passes over an archive of other classes
   * or of another Java without a word, but crashes on one that was cut short.
   */
  static boolean isComplete(String archive) {
    try (RandomAccessFile file = new RandomAccessFile(archive, "r")) {
      byte[] end = new byte[COMPLETE.length()];
      file.seek(Math.max(0, file.length() - end.length));
      file.readFully(end);
      return COMPLETE.equals(new String(end, StandardCharsets.ISO_8859_1));
    } catch (IOException e) {
      return false;
    }
  }

  /** Whether the arguments come out of a second process's command line as they go in. */
  private static boolean hasFaithfulText(String[] args) {
    if (Charset.defaultCharset().equals(StandardCharsets.UTF_8)
        && "UTF-8".equals(System.getProperty("sun.jnu.encoding"))) {
      return true;
    }
    for (String argument : args) {
      for (int i = 0; i < argument.length(); i++) {
        if (argument.charAt(i) > 0x7E) {
          return false;
        }
      }
    }
    return true;
  }

  private static boolean hasOptionVariable() {
    for (String variable : OPTION_VARIABLES) {
      if (System.getenv(variable) != null) {
        return true;
      }
    }
    return false;
  }
}
