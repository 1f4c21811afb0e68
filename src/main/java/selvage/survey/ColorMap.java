package selvage.survey;

/**
 * Where on a page the rows of a census lie: the row of every few samples along and across, and of
 * each row the first sample, so that the smallest area has a place too. Samples are counted from
 * the upper left corner of the counted area, as displayed.
 */
public final class ColorMap {
  /** Samples from one place of a map to the next where nothing is said. */
  public static final int DEFAULT_STEP = 4;

  private final int step;
  private final int width;
  private final int height;
  private final int[] rowOf;
  private final long[] first;

  /**
   * Takes the arrays as they are.
   *
   * @param step samples from one place to the next, at least 1
   * @param width of the counted area in samples
   * @param height of the counted area in samples
   * @param rowOf the census row at each place, line by line
   * @param first by census row, its first sample: line · width + column
   */
  ColorMap(int step, int width, int height, int[] rowOf, long[] first) {
    this.step = step;
    this.width = width;
    this.height = height;
    this.rowOf = rowOf;
    this.first = first;
  }

  /** How many places lie beside each other in so many samples. */
  static int places(int samples, int step) {
    return (samples + step - 1) / step;
  }

  /** Samples from one place to the next, along and across; 1 where the map holds every sample. */
  public int step() {
    return step;
  }

  /** Samples of the counted area, along. */
  public int width() {
    return width;
  }

  /** Samples of the counted area, across. */
  public int height() {
    return height;
  }

  /** Places along. */
  public int columns() {
    return places(width, step);
  }

  /** Places across. */
  public int lines() {
    return places(height, step);
  }

  /** The census row at a place. */
  public int rowAt(int column, int line) {
    return rowOf[line * columns() + column];
  }

  /** The column of a row's first sample. */
  public int firstColumn(int row) {
    return (int) (first[row] % width);
  }

  /** The line of a row's first sample. */
  public int firstLine(int row) {
    return (int) (first[row] / width);
  }
}
