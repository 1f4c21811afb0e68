package selvage.strip;

import java.util.Locale;

/** Which of the two strips on the sheet a patch belongs to. */
public enum PatchSet {
  JOB,
  STANDARD;

  /** Returns the word that stands in JSON. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
