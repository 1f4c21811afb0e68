package selvage.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * The entry point of the runnable jar. Only the command that was asked for is built: a command line
 * with all of them would double the start of a short run.
 */
public final class Main {
  private static final Map<String, Supplier<Object>> COMMANDS = commands();

  private Main() {}

  private static Map<String, Supplier<Object>> commands() {
    Map<String, Supplier<Object>> commands = new LinkedHashMap<>();
    commands.put("survey", SurveyCommand::new);
    commands.put("stamp", StampCommand::new);
    commands.put("rehearse", RehearseCommand::new);
    commands.put("score", ScoreCommand::new);
    commands.put("demo", DemoCommand::new);
    return commands;
  }

  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    // What PDFBox would log is a finding here; loading a logger would slow every start.
    System.setProperty("org.apache.commons.logging.Log", "org.apache.commons.logging.impl.NoOpLog");
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
    CommandLine root = new CommandLine(rootSpec());
    Supplier<Object> command = args.length == 0 ? null : COMMANDS.get(args[0]);
    if (command != null) {
      root.addSubcommand(args[0], new CommandLine(command.get()));
    } else {
      COMMANDS.forEach((name, supplier) -> root.addSubcommand(name, supplier.get()));
    }
    root.setOut(out);
    root.setErr(err);
    root.setCaseInsensitiveEnumValuesAllowed(true);
    root.setExecutionExceptionHandler(new FailureHandler());
    root.setExecutionStrategy(
        parsed -> {
          if (!parsed.hasSubcommand() && CommandLine.printHelpIfRequested(parsed)) {
            return ExitStatus.DONE;
          }
          if (!parsed.hasSubcommand()) {
            root.usage(err);
            return ExitStatus.USAGE;
          }
          return new CommandLine.RunLast().execute(parsed);
        });
    try {
      return root.execute(args);
    } catch (OutOfMemoryError | StackOverflowError e) {
      return FailureHandler.exhausted(e, err);
    }
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
