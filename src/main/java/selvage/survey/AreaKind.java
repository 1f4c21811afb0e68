package selvage.survey;

import java.util.Locale;

/** Which box of the page is counted. */
public enum AreaKind {
  TRIM,
  BLEED,
  MEDIA;

  /** Returns the word that stands in JSON and on the command line. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
