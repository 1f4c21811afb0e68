package selvage.separation;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Keeps the glyphs of a text object from being painted over one another where they are translucent
 * (ISO 32000-1, 9.3.8): of glyphs alike in colour, one is as good as the other where they overlap.
 */
final class TextKnockout {
  /** Glyphs that a later one may reach back to. */
  private static final int MOST_KEPT = 16;

  private final Deque<Region> painted = new ArrayDeque<>();
  private CarriedColor color;

  /** A text object begins. */
  void begin() {
    painted.clear();
  }

  /**
   * What is left of a glyph to be painted.
   *
   * @param own its colour; a change of colour begins anew
   */
  Region rest(Region glyph, CarriedColor own) {
    if (own != color) {
      painted.clear();
      color = own;
    }
    Region rest = glyph;
    for (Region before : painted) {
      rest = rest.without(before);
    }
    if (!rest.isEmpty()) {
      if (painted.size() == MOST_KEPT) {
        painted.removeFirst();
      }
      painted.addLast(rest);
    }
    return rest;
  }
}
