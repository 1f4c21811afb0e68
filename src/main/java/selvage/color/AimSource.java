package selvage.color;

import java.util.Locale;

/** Where an aim value comes from, best first. */
public enum AimSource {
  /** Measured: a node of the condition's characterization data. */
  CONDITION_NODE,
  /** From the reference printing condition: its profile, or between the nodes of its data. */
  CONDITION,
  /** From the user's spot colour library. */
  LIBRARY,
  /** From the alternate colour that the job gives for a spot. */
  ALTERNATE,
  /** Predicted by a model (spot tints, overprints of spots). */
  PREDICTED;

  /** Returns the word that stands in JSON, for example {@code condition-node}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /**
   * The reverse of {@link #word()}.
   *
   * @throws IllegalArgumentException for any other word
   */
  public static AimSource ofWord(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
