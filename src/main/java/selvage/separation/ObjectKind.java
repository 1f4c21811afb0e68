package selvage.separation;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;

/** The kinds of page object that leave ink. */
public enum ObjectKind {
  FILL(1),
  STROKE(2),
  TEXT(4),
  IMAGE(8),
  SHADING(16),
  ANNOTATION(32);

  private final int bit;

  ObjectKind(int bit) {
    this.bit = bit;
  }

  /** Returns the word that stands in JSON. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** This kind's bit in a set of kinds. */
  public int bit() {
    return bit;
  }

  /** The kinds whose bits are set. */
  public static Set<ObjectKind> ofBits(int bits) {
    EnumSet<ObjectKind> kinds = EnumSet.noneOf(ObjectKind.class);
    for (ObjectKind kind : values()) {
      if ((bits & kind.bit()) != 0) {
        kinds.add(kind);
      }
    }
    return kinds;
  }
}
