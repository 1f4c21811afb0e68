package selvage.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParameterException;

/**
 * What a command is called, what it does and what may be said to it, told to picocli by its
 * builders. Its annotations would do the same, and cost each start some 70 ms: the Java runtime
 * makes a class for every kind of annotation that it reads.
 */
final class Declaration {
  /** An argument's value, once the command line is read. */
  static final class Value<T> {
    private final ArgSpec argument;

    private Value(ArgSpec argument) {
      this.argument = argument;
    }

    /** The value given, else the default, else null; an empty list where none of many was given. */
    T get() {
      return argument.getValue();
    }
  }

  private final CommandSpec spec;

  /**
   * Begins a command.
   *
   * @param action what it does
   * @param description one paragraph
   */
  Declaration(Callable<Integer> action, String description) {
    spec = CommandSpec.wrapWithoutInspection(action);
    spec.usageMessage().description(description);
  }

  /** What stands below the options in the command's help. */
  void footer(String... lines) {
    spec.usageMessage().footer(lines);
  }

  /**
   * An option with a value.
   *
   * @param type any that picocli converts: a number, a path, text, an enum
   * @param label stands for the value in the help
   * @param standard the default as it would be typed, or null for none
   * @param names with their dashes
   */
  <T> Value<T> option(
      Class<T> type, String label, String standard, String description, String... names) {
    return added(option(type, label, description, names).defaultValue(standard).build());
  }

  /** As {@link #option(Class, String, String, String, String...)}, and it must be given. */
  <T> Value<T> required(Class<T> type, String label, String description, String... names) {
    return added(option(type, label, description, names).required(true).build());
  }

  /** An option that may be given several times. */
  <T> Value<List<T>> options(Class<T> type, String label, String description, String... names) {
    return added(
        option(List.class, label, description, names)
            .auxiliaryTypes(type)
            .initialValue(List.of())
            .build());
  }

  /** An option without a value. */
  Value<Boolean> flag(String description, String... names) {
    return added(
        OptionSpec.builder(names)
            .type(boolean.class)
            .arity("0")
            .initialValue(false)
            .description(description)
            .build());
  }

  /** The option that explains the command and does nothing else. */
  void help(String... names) {
    spec.addOption(
        OptionSpec.builder(names)
            .type(boolean.class)
            .arity("0")
            .usageHelp(true)
            .description("Explain this command.")
            .build());
  }

  /** The argument at a place of its own, which must be given unless it has a default. */
  <T> Value<T> parameter(
      int index, Class<T> type, String label, String standard, String description) {
    return added(
        PositionalParamSpec.builder()
            .index(String.valueOf(index))
            .arity(standard == null ? "1" : "0..1")
            .required(standard == null)
            .type(type)
            .paramLabel(label)
            .defaultValue(standard)
            .description(description)
            .build());
  }

  /** All arguments from a place on, at least one. */
  <T> Value<List<T>> parameters(int index, Class<T> type, String label, String description) {
    return added(
        PositionalParamSpec.builder()
            .index(index + "..*")
            .arity("1..*")
            .required(true)
            .type(List.class)
            .auxiliaryTypes(type)
            .paramLabel(label)
            .description(description)
            .build());
  }

  CommandSpec spec() {
    return spec;
  }

  PrintWriter out() {
    return spec.commandLine().getOut();
  }

  PrintWriter err() {
    return spec.commandLine().getErr();
  }

  /** A wrong use of the command line: what is wrong, then the help, and exit status 2. */
  ParameterException misuse(String message) {
    return new ParameterException(spec.commandLine(), message);
  }

  private static OptionSpec.Builder option(
      Class<?> type, String label, String description, String... names) {
    return OptionSpec.builder(names).type(type).paramLabel(label).description(description);
  }

  private <T> Value<T> added(ArgSpec argument) {
    spec.add(argument);
    return new Value<>(argument);
  }
}
