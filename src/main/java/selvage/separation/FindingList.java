package selvage.separation;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import selvage.finding.Finding;
import selvage.finding.Severity;

/**
 * Gathers findings of a page. What is found again is counted, not repeated, so that a page with ten
 * thousand missing glyphs has one finding of them.
 */
final class FindingList {
  private static final int MOST = 200;

  /** A name from the file may be of any length. */
  private static final int MOST_CHARACTERS = 400;

  private final Map<String, Integer> index = new HashMap<>();
  private final List<Finding> findings = new ArrayList<>();
  private final List<Integer> times = new ArrayList<>();
  private int beyond;

  void warning(String code, String text) {
    add(Finding.warning(code, text));
  }

  void note(String code, String text) {
    add(Finding.note(code, text));
  }

  void error(String code, String text) {
    add(Finding.error(code, text));
  }

  private void add(Finding finding) {
    if (finding.text().length() > MOST_CHARACTERS) {
      finding =
          new Finding(
              finding.code(),
              finding.severity(),
              finding.text().substring(0, MOST_CHARACTERS - 1) + "…");
    }
    Integer known = index.get(finding.code() + finding.text());
    if (known != null) {
      times.set(known, times.get(known) + 1);
    } else if (findings.size() >= MOST) {
      beyond++;
    } else {
      index.put(finding.code() + finding.text(), findings.size());
      findings.add(finding);
      times.add(1);
    }
  }

  List<Finding> toList() {
    List<Finding> list = new ArrayList<>();
    for (int i = 0; i < findings.size(); i++) {
      Finding finding = findings.get(i);
      int count = times.get(i);
      list.add(
          count == 1
              ? finding
              : new Finding(
                  finding.code(), finding.severity(), finding.text() + " (" + count + " times)"));
    }
    if (beyond > 0) {
      list.add(
          new Finding(
              "more-findings", Severity.WARNING, beyond + " further findings are not listed"));
    }
    return list;
  }
}
