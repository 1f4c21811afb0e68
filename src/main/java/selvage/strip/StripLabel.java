package selvage.strip;

import java.util.List;

/**
 * What is written beside the patches for people. The items are those that a contract proof carries
 * (STANDARDS: ISO 12647-7, as seen on labels of the trade).
 *
 * @param job the customer's file
 * @param page for example {@code page 1 of 2}
 * @param condition the printing condition that is simulated
 * @param dateTime when it was stamped, for example {@code 2026-11-25 10:03 UTC}
 * @param items further names and values, in order
 */
public record StripLabel(
    String job, String page, String condition, String dateTime, List<Item> items) {
  /** What stands where nothing was told. */
  public static final String NOT_STATED = "not stated";

  /** The word of caution on every strip. */
  public static final String CAUTION =
      "Supports, and does not replace, agreed standards, the instrument maker's instructions and"
          + " the judgement of those who sign the proof.";

  /**
   * A name and what is told of it.
   *
   * @param value {@link #NOT_STATED} where it is blank
   */
  public record Item(String name, String value) {
    public Item {
      if (name.isBlank()) {
        throw new IllegalArgumentException("a label item needs a name");
      }
      value = value.isBlank() ? NOT_STATED : value.strip();
    }
  }

  public StripLabel {
    items = List.copyOf(items);
  }
}
