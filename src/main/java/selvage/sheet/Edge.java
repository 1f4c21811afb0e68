package selvage.sheet;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** An edge of the page as displayed, its Rotate applied. */
public enum Edge {
  BOTTOM,
  TOP,
  RIGHT,
  LEFT;

  /** Returns the word that stands in JSON and on the command line. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The edge of a word, if it is one's. */
  public static Optional<Edge> named(String word) {
    return Arrays.stream(values()).filter(edge -> edge.word().equals(word)).findFirst();
  }

  /** Whether a strip along this edge has its rows upright, read from the bottom to the top. */
  public boolean isUpright() {
    return this == RIGHT || this == LEFT;
  }
}
