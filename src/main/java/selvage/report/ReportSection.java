package selvage.report;

import java.util.List;

/**
 * A part of a report that not every score has: a diagnosis, corrected values, repeatability.
 *
 * @param title its heading
 * @param lines sentences, in order
 * @param table below them: its heading, then its rows, all of one length; empty for none
 */
public record ReportSection(String title, List<String> lines, List<List<String>> table) {
  public ReportSection {
    lines = List.copyOf(lines);
    table = table.stream().map(List::copyOf).toList();
    if (title.isBlank() || (lines.isEmpty() && table.isEmpty())) {
      throw new IllegalArgumentException("a section needs a title and something below it");
    }
    for (List<String> row : table) {
      if (row.size() != table.get(0).size() || row.isEmpty()) {
        throw new IllegalArgumentException(title + ": rows of unequal length");
      }
    }
  }

  /** A section of sentences. */
  public ReportSection(String title, List<String> lines) {
    this(title, lines, List.of());
  }
}
