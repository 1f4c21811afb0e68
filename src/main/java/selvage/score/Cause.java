package selvage.score;

import java.util.Locale;
import java.util.Objects;

/**
 * One way in which a print can be off, with the parameters that say how far.
 *
 * @param kind what moves
 * @param ink the colorant that moves; empty for what concerns the whole sheet
 */
public record Cause(Kind kind, String ink) {
  /** What can move. */
  public enum Kind {
    /** Tone value of an ink: percent at a tint of 50 %, along 4t(1 − t). */
    TONE(1),
    /** Density of an ink's solid: percent of itself. */
    DENSITY(1),
    /** The substrate's colour: ΔL*, Δa*, Δb* of the paper, under all that is printed. */
    PAPER(3),
    /** All colours alike: ΔL*, Δa*, Δb*. */
    CAST(3),
    /** The hue of all colours: degrees about the neutral axis of CIELAB. */
    HUE(1),
    /** A spot ink's recipe: ΔL*, Δa*, Δb* of its solid, tints in proportion. */
    RECIPE(3);

    private final int parameters;

    Kind(int parameters) {
      this.parameters = parameters;
    }

    /** How many numbers say how far it moved. */
    public int parameters() {
      return parameters;
    }

    /** Returns the word that stands in JSON. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** The unit of its numbers. */
    public String unit() {
      return switch (this) {
        case TONE, DENSITY -> "percent";
        case HUE -> "degrees";
        case PAPER, CAST, RECIPE -> "lab";
      };
    }
  }

  public Cause {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(ink, "ink");
  }
}
