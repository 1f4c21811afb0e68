package selvage.sheet;

import java.util.Locale;

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

  /** Whether a strip along this edge has its rows upright, read from the bottom to the top. */
  public boolean isUpright() {
    return this == RIGHT || this == LEFT;
  }
}
