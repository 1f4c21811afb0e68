package selvage.color;

import java.util.Arrays;

/**
 * Where a tint lies on one axis of a grid: a position of 2.25 is a quarter of the way from the
 * third tint to the fourth. Between two tints of the axis the way is not straight but follows the
 * ink's own measured ramp, so that the cell's linear interpolation gives the ramp back. Immutable.
 */
final class ToneCurve {
  private static final int BINS = 128;

  private final double[] percents; // rising
  private final double[] positions; // not falling
  private final int[] starts; // the segment that each bin of tints begins in

  private ToneCurve(double[] percents, double[] positions) {
    this.percents = percents;
    this.positions = positions;
    this.starts = new int[BINS + 1];
    int segment = 0;
    for (int bin = 0; bin <= BINS; bin++) {
      while (segment < percents.length - 2 && percents[segment + 1] <= bin * 100.0 / BINS) {
        segment++;
      }
      starts[bin] = segment;
    }
  }

  /**
   * A curve from an ink's ramp. The share of a cell that a tint of the ramp takes is that of its
   * colour on the straight line between the cell's ends, as a mixing model sees colours.
   *
   * @param axis tints in percent, rising, 0 to 100
   * @param rampPercents tints of the ramp, rising
   * @param rampRoots three values a tint, linear in the model's mixing
   */
  static ToneCurve of(double[] axis, double[] rampPercents, double[] rampRoots) {
    int size = axis.length + rampPercents.length;
    double[] percents = new double[size];
    double[] positions = new double[size];
    int count = 0;
    for (int cell = 0; cell < axis.length; cell++) {
      percents[count] = axis[cell];
      positions[count++] = cell;
      int low = Arrays.binarySearch(rampPercents, axis[cell]);
      int high = cell + 1 < axis.length ? Arrays.binarySearch(rampPercents, axis[cell + 1]) : -1;
      double before = 0;
      for (int i = low + 1; low >= 0 && i < high; i++) {
        before = Math.max(before, share(rampRoots, low, high, i));
        percents[count] = rampPercents[i];
        positions[count++] = cell + before;
      }
    }
    return new ToneCurve(Arrays.copyOf(percents, count), Arrays.copyOf(positions, count));
  }

  private static double share(double[] roots, int low, int high, int at) {
    double along = 0;
    double length = 0;
    for (int i = 0; i < 3; i++) {
      double way = roots[3 * high + i] - roots[3 * low + i];
      along += (roots[3 * at + i] - roots[3 * low + i]) * way;
      length += way * way;
    }
    return length == 0 ? 0 : Math.min(1, Math.max(0, along / length));
  }

  /**
   * The segment that a tint lies in.
   *
   * @param percent 0 to 100
   */
  int segment(double percent) {
    int segment = starts[(int) (percent * (BINS / 100.0))];
    while (segment < percents.length - 2 && percents[segment + 1] <= percent) {
      segment++;
    }
    return segment;
  }

  /** The position of a tint in a segment. */
  double position(int segment, double percent) {
    return positions[segment] + (percent - percents[segment]) * slope(segment);
  }

  /** Positions a percent in a segment. */
  double slope(int segment) {
    return (positions[segment + 1] - positions[segment])
        / (percents[segment + 1] - percents[segment]);
  }
}
