package selvage.strip;

/**
 * The rows of a census in a few parts, each to be summed up by itself. The parts depend on the
 * number of rows alone, so that sums come out the same, bit for bit, on any machine.
 */
final class RowParts {
  /** Work on one part. */
  interface Part {
    void run(int part, int from, int to);
  }

  private static final int LEAST_ROWS = 16_384;
  private static final int MOST_PARTS = 4;

  private final int rows;
  private final int rowsAPart;
  private final int count;

  private RowParts(int rows) {
    this.rows = rows;
    this.rowsAPart = Math.max(LEAST_ROWS, (rows + MOST_PARTS - 1) / MOST_PARTS);
    this.count = Math.max(1, (rows + rowsAPart - 1) / rowsAPart);
  }

  /** Parts some rows. */
  static RowParts of(int rows) {
    return new RowParts(rows);
  }

  /** How many parts there are, at least one. */
  int count() {
    return count;
  }

  /** Works on all parts, split among the processors. */
  void each(Part work) {
    Parallel.each(
        count,
        1,
        (from, to) -> {
          for (int part = from; part < to; part++) {
            work.run(part, part * rowsAPart, Math.min(rows, (part + 1) * rowsAPart));
          }
        });
  }

  /** The sums of all parts, place by place, in the parts' order. */
  static double[] added(double[][] ofParts) {
    double[] all = ofParts[0];
    for (int part = 1; part < ofParts.length; part++) {
      for (int i = 0; i < all.length; i++) {
        all[i] += ofParts[part][i];
      }
    }
    return all;
  }
}
