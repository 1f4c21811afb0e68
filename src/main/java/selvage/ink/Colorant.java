package selvage.ink;

import java.util.List;
import java.util.Locale;

/**
 * An ink of the press or proofing device: a process colorant or a spot colorant, known by its name.
 * Names compare exactly, as PDF names do.
 *
 * @param name the name as the job spells it, decoded (no {@code #20})
 * @param kind process or spot
 */
public record Colorant(String name, Kind kind) implements Comparable<Colorant> {
  /** Where a colorant belongs. */
  public enum Kind {
    /** Cyan, magenta, yellow, black. */
    PROCESS,
    /** Any other named ink. */
    SPOT;

    /** Returns the word that stands in JSON. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public static final Colorant CYAN = new Colorant("Cyan", Kind.PROCESS);
  public static final Colorant MAGENTA = new Colorant("Magenta", Kind.PROCESS);
  public static final Colorant YELLOW = new Colorant("Yellow", Kind.PROCESS);
  public static final Colorant BLACK = new Colorant("Black", Kind.PROCESS);

  /** Cyan, magenta, yellow, black, in this order. */
  public static final List<Colorant> PROCESS = List.of(CYAN, MAGENTA, YELLOW, BLACK);

  public Colorant {
    if (name.isEmpty()) {
      throw new IllegalArgumentException("a colorant needs a name");
    }
  }

  /** Returns the colorant of this name: one of the four process colorants, else a spot. */
  public static Colorant named(String name) {
    for (Colorant process : PROCESS) {
      if (process.name.equals(name)) {
        return process;
      }
    }
    return new Colorant(name, Kind.SPOT);
  }

  /** Whether this is not a process colorant. */
  public boolean isSpot() {
    return kind == Kind.SPOT;
  }

  /** Process colorants first, in the order C, M, Y, K; then spots by name. */
  @Override
  public int compareTo(Colorant other) {
    int a = PROCESS.indexOf(this);
    int b = PROCESS.indexOf(other);
    if (a >= 0 || b >= 0) {
      return Integer.compare(a < 0 ? PROCESS.size() : a, b < 0 ? PROCESS.size() : b);
    }
    return name.compareTo(other.name);
  }

  // Written out: the methods that a record is given cost a start 10 ms when they are first called.

  @Override
  public boolean equals(Object other) {
    return this == other
        || (other instanceof Colorant that && name.equals(that.name) && kind == that.kind);
  }

  @Override
  public int hashCode() {
    return 31 * name.hashCode() + (isSpot() ? 1 : 0);
  }
}
