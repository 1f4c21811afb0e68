package selvage.cli;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.function.Consumer;
import java.util.function.IntConsumer;
import selvage.cli.Declaration.Value;
import selvage.finding.InputException;

/** The options that every command has, and what they bring about. */
final class OutputOptions {
  final Value<String> json;
  final Value<Boolean> quiet;

  OutputOptions(Declaration declaration) {
    json =
        declaration.option(
            String.class,
            "FILE",
            null,
            "Write the machine-readable result to a file, or - for standard output.",
            "--json");
    quiet = declaration.flag("Print errors only.", "--quiet");
    declaration.help("-h", "--help");
  }

  /** Writes a result as JSON. */
  interface JsonResult {
    void writeTo(JsonGenerator json) throws IOException;
  }

  boolean isJsonOnStandardOutput() {
    return "-".equals(json.get());
  }

  /**
   * Checks that {@code --json} names a place that a file can go to, before any work is done.
   *
   * @throws InputException where its folder does not exist
   */
  void checkJsonTarget() throws InputException {
    if (json.get() == null || isJsonOnStandardOutput()) {
      return;
    }
    Path target = Path.of(json.get()).toAbsolutePath();
    if (target.getParent() == null || !Files.isDirectory(target.getParent())) {
      throw InputException.of(
          json.get(), "the folder " + target.getParent() + " does not exist; make it first");
    }
  }

  /**
   * Writes a result where {@code --json} says, if it was given. A file appears whole or not at all.
   */
  void writeJson(PrintWriter out, JsonResult result) throws IOException {
    if (json.get() == null) {
      return;
    }
    JsonFactory factory = new JsonFactory();
    if (isJsonOnStandardOutput()) {
      StringWriter text = new StringWriter();
      try (JsonGenerator generator = factory.createGenerator(text)) {
        generator.useDefaultPrettyPrinter();
        result.writeTo(generator);
      }
      out.println(text);
      return;
    }
    Path target = Path.of(json.get()).toAbsolutePath();
    Path temporary = Files.createFile(target.resolveSibling(partName(target)));
    try {
      try (JsonGenerator generator =
          factory.createGenerator(temporary.toFile(), JsonEncoding.UTF8)) {
        generator.useDefaultPrettyPrinter();
        result.writeTo(generator);
      }
      Files.move(temporary, target, StandardCopyOption.REPLACE_EXISTING);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  /** Of no other process or moment; {@code createTempFile} would first gather randomness. */
  private static String partName(Path target) {
    String moment = Long.toString(System.nanoTime(), Character.MAX_RADIX);
    return "." + target.getFileName() + "-" + ProcessHandle.current().pid() + "-" + moment;
  }

  /**
   * Tells of pages on standard error, where that is a terminal and {@code --quiet} is not given.
   */
  IntConsumer pageProgress(PrintWriter err) {
    Consumer<String> steps = stepProgress(err);
    return page -> steps.accept("page " + page);
  }

  /**
   * Tells of the steps of long work on standard error, under the same conditions; an empty step
   * clears the line.
   */
  Consumer<String> stepProgress(PrintWriter err) {
    if (quiet.get() || !isErrorATerminal()) {
      return step -> {};
    }
    return step -> {
      err.print("\r\u001b[K" + (step.isEmpty() ? "" : step + " …\r"));
      err.flush();
    };
  }

  /** Whether standard error is a terminal, as far as the system tells (Linux does). */
  private static boolean isErrorATerminal() {
    try {
      Path target = Files.readSymbolicLink(Path.of("/proc/self/fd/2"));
      return target.startsWith("/dev/pts") || target.toString().startsWith("/dev/tty");
    } catch (IOException | RuntimeException e) {
      return false;
    }
  }
}
