package selvage.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.apache.commons.logging.LogFactory;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * The entry point of the runnable jar. Only the command that was asked for is built, and the
 * classes of its work are loaded meanwhile: a short run is mostly its start.
 */
public final class Main {
  private static final Map<String, Supplier<CommandSpec>> COMMANDS = commands();

  private Main() {}

  private static Map<String, Supplier<CommandSpec>> commands() {
    Map<String, Supplier<CommandSpec>> commands = new LinkedHashMap<>();
    commands.put("survey", () -> new SurveyCommand().spec());
    commands.put("stamp", () -> new StampCommand().spec());
    commands.put("rehearse", () -> new RehearseCommand().spec());
    commands.put("score", () -> new ScoreCommand().spec());
    commands.put("compare", () -> new CompareCommand().spec());
    commands.put("ledger", () -> new LedgerCommand().spec());
    commands.put("watch", () -> new WatchCommand().spec());
    commands.put("serve", () -> new ServeCommand().spec());
    commands.put("password", () -> new PasswordCommand().spec());
    commands.put("demo", () -> new DemoCommand().spec());
    commands.put(WatchWorkerCommand.NAME, () -> new WatchWorkerCommand().spec());
    return commands;
  }

  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.setProperty(LogFactory.FACTORY_PROPERTY, SilentLogFactory.class.getName());
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    int status = run(args, out, err);
    out.flush();
    err.flush();
    System.exit(status);
  }

  /**
   * Runs one command.
   *
   * @return the exit status, see {@link ExitStatus}
   */
  static int run(String[] args, PrintWriter out, PrintWriter err) {
    Supplier<CommandSpec> command = args.length == 0 ? null : COMMANDS.get(args[0]);
    Startup startup = command == null ? null : Startup.begin();
    CommandLine line = command == null ? root() : new CommandLine(command.get());
    line.setOut(out);
    line.setErr(err);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setExecutionExceptionHandler(new FailureHandler());
    try {
      if (startup == null) {
        return line.execute(args);
      }
      line.setCommandName("selvage " + args[0]);
      line.setExecutionStrategy(
          parsed -> {
            startup.await();
            return new CommandLine.RunLast().execute(parsed);
          });
      return line.execute(Arrays.copyOfRange(args, 1, args.length));
    } catch (OutOfMemoryError | StackOverflowError e) {
      return FailureHandler.exhausted(e, err);
    }
  }

  /** The program without a command: it explains itself. */
  private static CommandLine root() {
    CommandLine root = new CommandLine(rootSpec());
    COMMANDS.forEach((name, supplier) -> root.addSubcommand(name, supplier.get()));
    root.getSubcommands().get(WatchWorkerCommand.NAME).getCommandSpec().usageMessage().hidden(true);
    root.setExecutionStrategy(
        parsed -> {
          if (CommandLine.printHelpIfRequested(parsed)) {
            return ExitStatus.DONE;
          }
          root.usage(root.getErr());
          return ExitStatus.USAGE;
        });
    return root;
  }

  private static CommandSpec rootSpec() {
    CommandSpec spec = CommandSpec.create();
    spec.name("selvage");
    spec.usageMessage()
        .description(
            "Control strips made of a print job's own colours, and the verdict on a measured"
                + " proof.")
        .footer(
            "",
            "Results support, and do not replace, agreed standards, the instrument maker's",
            "instructions and the judgement of those who sign the proof.");
    spec.mixinStandardHelpOptions(true);
    spec.version("selvage 0.1.0");
    return spec;
  }
}
