package selvage.cli;

import java.io.IOException;
import java.util.Arrays;

/**
 * The second process's first class: {@link Main}, and an eye on the process that started it. Where
 * that is gone without a word (killed, out of memory), this one ends as well.
 */
public final class Launched extends Thread {
  private static final int INTERVAL_MS = 500;

  /** As a shell reports a process that was killed. */
  private static final int KILLED = 137;

  private final String launcher;

  private Launched(String launcher) {
    super("launcher watch");
    this.launcher = launcher;
    setDaemon(true);
  }

  /**
   * Runs a command.
   *
   * @param args the number of the process that started this one (0: none to watch), then the
   *     program's own arguments
   */
  public static void main(String[] args) {
    if (!args[0].equals("0")) {
      new Launched(args[0]).start();
    }
    Main.main(Arrays.copyOfRange(args, 1, args.length));
  }

  @Override
  public void run() {
    try {
      do {
        sleep(INTERVAL_MS); // First of all: a short run ends without a look.
      } while (ProcessFacts.parentId().equals(launcher));
    } catch (InterruptedException | IOException e) {
      return; // What can't be watched is left alone.
    }
    Runtime.getRuntime().halt(KILLED);
  }
}
