package selvage.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.time.Clock;
import java.time.Duration;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;
import selvage.hotfolder.EventLog;
import selvage.hotfolder.Watch;
import selvage.hotfolder.WatchSettings;

/** {@code watch --settings FILE}, or {@code watch --in DIR --out DIR ...}. */
final class WatchCommand implements Callable<Integer> {
  private static final Duration GRACE = Duration.ofSeconds(20);

  private final Declaration declaration =
      new Declaration(
          this,
          "Watches hot folders: jobs dropped in come back stamped, measurements as scores, and what"
              + " can't be used is refused with the reason. Runs until it is stopped.");

  private final WatchOptions options = new WatchOptions(declaration, null);

  private final Value<Integer> port =
      declaration.option(
          Integer.class,
          "N",
          null,
          "Show health and metrics on this port of the loopback address. Default: nowhere.",
          "--port");

  private final Value<Boolean> drain =
      declaration.flag("End once nothing is left to do, instead of watching on.", "--drain");

  private final Value<EventLog.Form> log =
      declaration.option(
          EventLog.Form.class,
          "FORM",
          "text",
          "Form of the log on standard error: text, or json (an object a line). Default:"
              + " ${DEFAULT-VALUE}.",
          "--log");

  WatchCommand() {
    declaration.help("-h", "--help");
    declaration.footer(
        "",
        "A job NAME.pdf becomes NAME.proof.pdf and NAME.proof.strips.json in the outgoing folder,",
        "or lies in the refused folder beside NAME.why.txt. Stop with SIGTERM or Ctrl-C: work in",
        "hand is finished or returned.",
        "",
        "Results support, and do not replace, agreed standards, the instrument maker's",
        "instructions and the judgement of those who sign the proof.");
  }

  CommandSpec spec() {
    return declaration.spec();
  }

  @Override
  public Integer call() throws InputException, IOException, InterruptedException {
    WatchSettings wanted =
        options.wanted(
            port.get() == null
                ? OptionalInt.empty()
                : OptionalInt.of(options.within("--port", port.get(), 0, 1, 65535)));
    PrintWriter err = declaration.err();
    Watch watch =
        new Watch(
            wanted,
            WatchOptions.workerCommand(wanted.workerMegabytes()),
            new EventLog(err, log.get(), Clock.systemUTC()),
            Clock.systemUTC());
    Thread stopper =
        new Thread(
            () -> {
              try {
                watch.stop(GRACE);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              err.flush();
              Runtime.getRuntime().halt(ExitStatus.DONE);
            },
            "stop");
    Runtime.getRuntime().addShutdownHook(stopper);
    watch.run(drain.get());
    try {
      Runtime.getRuntime().removeShutdownHook(stopper);
    } catch (IllegalStateException e) {
      // It is stopping already, and the hook ends the program.
      stopper.join();
    }
    return ExitStatus.DONE;
  }
}
