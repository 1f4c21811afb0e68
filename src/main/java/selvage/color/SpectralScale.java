package selvage.color;

import java.util.Optional;

/**
 * Whether the reflectances of a file run to 1 or to 100: files write both, some under one name. The
 * lightest value of the whole file tells, whatever the file's form.
 */
public enum SpectralScale {
  /** From 0 to 1. */
  UNIT(1),
  /** From 0 to 100. */
  PERCENT(100);

  /** The lightest value up to which spectra run from 0 to 1; fluorescing paper exceeds 1. */
  private static final double UNIT_TOP = 1.5;

  /** The lightest value from which they run from 0 to 100: no paper, and no light ink, has less. */
  private static final double PERCENT_LEAST = 15;

  /** Readings of a dark trap may come out a little below 0. */
  private static final double LEAST = -0.02;

  private static final double MOST = 2;

  private final double top;

  SpectralScale(double top) {
    this.top = top;
  }

  /** The scale of a file with this lightest value; empty where the value tells neither. */
  public static Optional<SpectralScale> of(double lightest) {
    if (lightest <= UNIT_TOP) {
      return Optional.of(UNIT);
    }
    return lightest >= PERCENT_LEAST ? Optional.of(PERCENT) : Optional.empty();
  }

  /** The value of a perfect white: 1 or 100. */
  public int top() {
    return (int) top;
  }

  /** A file's value as a reflectance from 0 to 1. */
  public double reflectance(double value) {
    return value / top;
  }

  /** Whether a file's value can be a reflectance; fluorescence may double it. */
  public boolean takes(double value) {
    double reflectance = value / top;
    return reflectance >= LEAST && reflectance <= MOST;
  }
}
