package selvage.cli;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * The process that does the work of this one. As a thread it is what this process does when it is
 * told to end.
 */
final class SecondProcess extends Thread {
  private static final int SECONDS_TO_END = 10;

  private Process process;
  private boolean told;

  SecondProcess() {
    super("end of the second process");
  }

  /** Returns whether the process runs; where it does not, nothing has happened. */
  synchronized boolean start(List<String> command) {
    try {
      Runtime.getRuntime().addShutdownHook(this);
      if (!told) {
        process = new ProcessBuilder(command).inheritIO().start();
      }
      return process != null;
    } catch (IOException | RuntimeException e) {
      return false;
    }
  }

  /** Waits for the process, and ends this one with its exit status. Does not return. */
  void await() {
    while (true) {
      try {
        int status = process.waitFor();
        if (!wasTold()) {
          Runtime.getRuntime().halt(status);
        }
        sleep(Long.MAX_VALUE); // This process is ending already, with the signal's status.
      } catch (InterruptedException e) {
        // Nobody interrupts this thread; the other process's end is what counts.
      }
    }
  }

  @Override
  public void run() {
    Process running = tell();
    if (running == null) {
      return;
    }
    running.destroy();
    try {
      if (!running.waitFor(SECONDS_TO_END, TimeUnit.SECONDS)) {
        running.destroyForcibly();
      }
    } catch (InterruptedException e) {
      running.destroyForcibly();
    }
  }

  private synchronized boolean wasTold() {
    return told;
  }

  private synchronized Process tell() {
    told = true;
    return process;
  }
}
