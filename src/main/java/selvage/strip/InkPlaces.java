package selvage.strip;

import java.util.stream.IntStream;

/**
 * Places in the space of colour and inks ({@link InkCells}), and how many samples each stands for.
 */
final class InkPlaces {
  private final int dimensions;
  private final double[] weights;
  private final float[] coordinates;

  private InkPlaces(int dimensions, int size) {
    this.dimensions = dimensions;
    this.weights = new double[size];
    this.coordinates = new float[size * dimensions];
  }

  /**
   * Takes means.
   *
   * @param size how many places
   * @param sums of each place its samples, then as many sums of coordinates, weighed by samples, as
   *     there are dimensions; may be longer
   */
  static InkPlaces ofSums(int dimensions, int size, double[] sums) {
    InkPlaces places = new InkPlaces(dimensions, size);
    for (int place = 0; place < size; place++) {
      int at = place * (dimensions + 1);
      places.weights[place] = sums[at];
      for (int d = 0; d < dimensions; d++) {
        places.coordinates[place * dimensions + d] = (float) (sums[at + 1 + d] / sums[at]);
      }
    }
    return places;
  }

  /** The places of so many samples or more. */
  InkPlaces from(double leastWeight) {
    int[] kept =
        IntStream.range(0, weights.length).filter(i -> weights[i] >= leastWeight).toArray();
    InkPlaces places = new InkPlaces(dimensions, kept.length);
    for (int i = 0; i < kept.length; i++) {
      places.weights[i] = weights[kept[i]];
      System.arraycopy(
          coordinates, kept[i] * dimensions, places.coordinates, i * dimensions, dimensions);
    }
    return places;
  }

  /** Three of colour, then one a colorant. */
  int dimensions() {
    return dimensions;
  }

  /** How many places there are. */
  int size() {
    return weights.length;
  }

  /** The samples of a place. */
  double weight(int place) {
    return weights[place];
  }

  /** All places, one after the other; to be read only. */
  float[] coordinates() {
    return coordinates;
  }
}
