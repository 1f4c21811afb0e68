package selvage.finding;

import java.util.Locale;

/** How much a {@link Finding} matters to the reader of a result. */
public enum Severity {
  /** Worth knowing; the result stands as it is. */
  NOTE,
  /** The result may differ from what the press prints; someone should look. */
  WARNING,
  /** Part of the result is missing or was refused. */
  ERROR;

  /** Returns the word that stands in JSON: {@code note}, {@code warning} or {@code error}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
