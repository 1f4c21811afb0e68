package selvage.survey;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import selvage.finding.InputException;

/** Reads page ranges such as {@code 1-3,7}. */
public final class PageRanges {
  private PageRanges() {}

  /**
   * The pages that a text names, rising, each once.
   *
   * @param text null or blank for all
   * @param pageCount how many pages the job has
   * @throws InputException if the text is no list of ranges, or names a page that is not there
   */
  public static List<Integer> parse(String text, int pageCount) throws InputException {
    TreeSet<Integer> pages = new TreeSet<>();
    if (text == null || text.isBlank()) {
      for (int page = 1; page <= pageCount; page++) {
        pages.add(page);
      }
      return new ArrayList<>(pages);
    }
    for (String part : text.split(",", -1)) {
      String range = part.strip();
      int dash = range.indexOf('-');
      int first = number(dash < 0 ? range : range.substring(0, dash), text);
      int last = dash < 0 ? first : number(range.substring(dash + 1), text);
      if (last < first) {
        throw wrong(text, "a range that runs backwards, " + range);
      }
      if (first < 1 || last > pageCount) {
        throw InputException.of(
            "--pages " + text,
            "expected pages from 1 to " + pageCount + ", found " + range + "; the job has no more");
      }
      for (int page = first; page <= last; page++) {
        pages.add(page);
      }
    }
    return new ArrayList<>(pages);
  }

  private static int number(String digits, String text) throws InputException {
    String trimmed = digits.strip();
    if (trimmed.isEmpty()
        || trimmed.length() > 7
        || !trimmed.chars().allMatch(c -> c >= '0' && c <= '9')) {
      throw wrong(text, "'" + digits + "'");
    }
    return Integer.parseInt(trimmed);
  }

  private static InputException wrong(String text, String found) {
    return InputException.of("--pages " + text, "expected ranges such as 1-3,7, found " + found);
  }
}
