package selvage.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.hotfolder.Worker;

/**
 * {@code watch-worker}: what {@code watch} starts for its work. It is in no list of commands;
 * people have no use for it.
 */
final class WatchWorkerCommand implements Callable<Integer> {
  static final String NAME = "watch-worker";

  private final Declaration declaration =
      new Declaration(
          this, "Works for a hot folder: requests on standard input, replies on output.");

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InterruptedException {
    Worker.serve(System.in, System.out);
    return ExitStatus.DONE;
  }
}
