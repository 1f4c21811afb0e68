package selvage.cli;

import picocli.CommandLine.Option;

/** The options that every command has. */
final class OutputOptions {
  @Option(
      names = "--json",
      paramLabel = "FILE",
      description = "Write the machine-readable result to a file, or - for standard output.")
  String json;

  @Option(names = "--quiet", description = "Print errors only.")
  boolean quiet;

  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Explain this command.")
  boolean help;
}
