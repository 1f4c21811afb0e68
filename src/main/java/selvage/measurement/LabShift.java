package selvage.measurement;

import java.util.Locale;
import selvage.color.Lab;

/**
 * A difference between two CIELAB colours.
 *
 * @param l ΔL*, −100 to 100
 * @param a Δa*, −100 to 100
 * @param b Δb*, −100 to 100
 */
public record LabShift(double l, double a, double b) {
  /** No difference. */
  public static final LabShift NONE = new LabShift(0, 0, 0);

  public LabShift {
    if (!(Math.abs(l) <= 100 && Math.abs(a) <= 100 && Math.abs(b) <= 100)) {
      throw new IllegalArgumentException(
          "a shift of " + l + ", " + a + ", " + b + "; expected −100 to 100 each");
    }
  }

  /** A colour moved by a part of the shift; L* stays at 0 or above. */
  public Lab applied(Lab lab, double part) {
    return new Lab(Math.max(0, lab.l() + part * l), lab.a() + part * a, lab.b() + part * b);
  }

  boolean isNone() {
    return equals(NONE);
  }

  @Override
  public String toString() {
    return String.format(Locale.ROOT, "%+.2f,%+.2f,%+.2f", l, a, b);
  }
}
