package selvage.review;

import java.time.Instant;
import java.util.Map;
import java.util.Objects;

/**
 * A change of a review, as it is kept.
 *
 * @param time when
 * @param who the operator's name, or where the change came from
 * @param kind what was done
 * @param page the page that bears the strip; 0 where the change is not about one
 * @param text for people
 * @param choices by page, all as they stood after it; pages not named have the automatic set
 */
public record Change(
    Instant time, String who, Kind kind, int page, String text, Map<Integer, PageChoice> choices) {
  /** What was done. */
  public enum Kind {
    RECEIVED,
    DROPPED,
    ADDED,
    KEPT,
    MOVED,
    COUNTED,
    RESET,
    UNDONE,
    REDONE,
    APPROVED;

    /** Whether it changed a set, and so can be taken back. */
    boolean isOfSet() {
      return switch (this) {
        case DROPPED, ADDED, KEPT, MOVED, COUNTED, RESET -> true;
        default -> false;
      };
    }
  }

  public Change {
    Objects.requireNonNull(time, "time");
    Objects.requireNonNull(who, "who");
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(text, "text");
    choices = Map.copyOf(choices);
  }
}
