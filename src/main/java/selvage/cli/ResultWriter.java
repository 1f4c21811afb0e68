package selvage.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.function.Supplier;
import selvage.finding.InputException;
import selvage.workflow.WholeFile;

/** Hands a result out as the options ask: text, JSON in a file, or JSON on standard output. */
final class ResultWriter {
  /** Writes a result as JSON. */
  interface Json {
    void write(OutputStream out) throws IOException;
  }

  private ResultWriter() {}

  /**
   * Writes a result. Where JSON goes to standard output, no text goes there.
   *
   * @throws InputException where the file can't be written
   */
  static void write(OutputOptions options, PrintWriter out, Supplier<String> text, Json json)
      throws InputException, IOException {
    boolean jsonToOut = "-".equals(options.json);
    if (options.json != null) {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      json.write(bytes);
      if (jsonToOut) {
        out.print(bytes.toString(StandardCharsets.UTF_8));
        out.flush();
      } else {
        WholeFile.write(Path.of(options.json), bytes.toByteArray());
      }
    }
    if (!jsonToOut && !options.quiet) {
      out.print(text.get());
      out.flush();
    }
  }
}
