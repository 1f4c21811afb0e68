package selvage.strip;

import java.util.stream.IntStream;

/** Work on the places of an array, split among the processors; each place is visited once. */
final class Parallel {
  /** A stretch of places, from one to before another. */
  interface Part {
    void run(int from, int to);
  }

  private Parallel() {}

  /**
   * Runs a part over all places.
   *
   * @param chunk how many places a task takes; so many that they take a tenth of a millisecond
   */
  static void each(int size, int chunk, Part part) {
    int chunks = (size + chunk - 1) / chunk;
    if (chunks <= 1) {
      part.run(0, size);
      return;
    }
    IntStream.range(0, chunks)
        .parallel()
        .forEach(i -> part.run(i * chunk, Math.min(size, (i + 1) * chunk)));
  }
}
