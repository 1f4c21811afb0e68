package selvage.color;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Assumptions;

/** An independent colour engine: the {@code transicc} tool of Debian's liblcms2-utils. */
final class Transicc {
  static final int RELATIVE = 1;
  static final int ABSOLUTE = 3;

  private Transicc() {}

  /** Skips the calling test where the tool is missing. */
  static void assumePresent() {
    boolean found = false;
    for (String folder : System.getenv().getOrDefault("PATH", "").split(":", -1)) {
      found |= Files.isExecutable(Path.of(folder, "transicc"));
    }
    Assumptions.assumeTrue(found, "transicc (package liblcms2-utils) is not installed");
  }

  /**
   * Converts device values to Lab.
   *
   * @param values rows of device values as the tool takes them: percent for CMYK, 0 to 255 for RGB
   *     and gray
   * @return L*, a*, b* a row, four decimals
   */
  static List<double[]> toLab(Path profile, int intent, List<double[]> values)
      throws IOException, InterruptedException {
    return convert(List.of("-i" + profile, "-o*Lab4", "-t" + intent, "-n"), values);
  }

  static List<double[]> convert(List<String> options, List<double[]> values)
      throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add("transicc");
    command.addAll(options);
    Path input = Files.createTempFile("transicc", ".txt");
    try {
      StringBuilder text = new StringBuilder();
      for (double[] row : values) {
        for (double value : row) {
          text.append(String.format(Locale.ROOT, "%.6f%n", value));
        }
      }
      Files.writeString(input, text);
      Process process =
          new ProcessBuilder(command)
              .redirectInput(input.toFile())
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start();
      List<double[]> rows = new ArrayList<>();
      try (BufferedReader lines =
          new BufferedReader(
              new InputStreamReader(process.getInputStream(), StandardCharsets.US_ASCII))) {
        String line;
        while ((line = lines.readLine()) != null) {
          String[] cells = line.strip().split(" +", -1);
          if (cells.length >= 3) {
            double[] row = new double[cells.length];
            for (int i = 0; i < cells.length; i++) {
              row[i] = Double.parseDouble(cells[i]);
            }
            rows.add(row);
          }
        }
      }
      process.waitFor();
      return rows;
    } finally {
      Files.delete(input);
    }
  }
}
