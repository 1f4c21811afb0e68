package selvage.workflow;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import selvage.finding.InputException;
import selvage.report.HtmlReport;
import selvage.report.PdfReport;
import selvage.report.PdfSticker;
import selvage.report.ProofReport;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/**
 * Writes reports of scores; all files appear together or not at all.
 *
 * @param reports PDF or HTML, by the file's ending ({@link #isReport})
 * @param stickers PDF of small labels
 * @param time stands on them
 */
public record WriteReports(List<Path> reports, List<Path> stickers, Instant time) {
  public WriteReports {
    reports = List.copyOf(reports);
    stickers = List.copyOf(stickers);
    Objects.requireNonNull(time, "time");
    for (Path report : reports) {
      if (!isReport(report)) {
        throw new IllegalArgumentException("neither .pdf nor .html: " + report);
      }
    }
  }

  /** Whether a file's name ends as that of a report: {@code .pdf}, {@code .html}, {@code .htm}. */
  public static boolean isReport(Path file) {
    return isPdf(file) || isHtml(file);
  }

  private static boolean isPdf(Path file) {
    return lower(file).endsWith(".pdf");
  }

  private static boolean isHtml(Path file) {
    return lower(file).endsWith(".html") || lower(file).endsWith(".htm");
  }

  private static String lower(Path file) {
    return String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
  }

  /**
   * Writes.
   *
   * @param strips the strips file that was scored
   * @param inputs the measurements that were scored; no report may replace one
   * @param outcome what came of it
   * @throws InputException where the strips file can't be read or a target can't be written
   */
  public void run(Path strips, List<Path> inputs, ScoreProof.Outcome outcome)
      throws InputException, IOException {
    for (Path target : Stream.concat(reports.stream(), stickers.stream()).toList()) {
      checkTarget(target, strips);
      for (Path input : inputs) {
        checkTarget(target, input);
      }
    }
    StripsFile file = StripsJson.read(strips);
    List<ProofReport> made =
        outcome.scores().stream()
            .map(score -> ProofReport.of(file, score, outcome.mending(), time))
            .toList();
    try (StagedFiles files = new StagedFiles()) {
      for (Path report : reports) {
        if (isPdf(report)) {
          files.add(report, out -> PdfReport.write(made, out));
        } else {
          files.add(report, out -> out.write(HtmlReport.of(made).getBytes(StandardCharsets.UTF_8)));
        }
      }
      for (Path sticker : stickers) {
        files.add(sticker, out -> PdfSticker.write(made, out));
      }
      files.publish();
    }
  }

  private static void checkTarget(Path target, Path input) throws InputException {
    if (target.toAbsolutePath().normalize().equals(input.toAbsolutePath().normalize())) {
      throw InputException.of(
          target.toString(), "would overwrite what is scored; give the report another name");
    }
  }
}
