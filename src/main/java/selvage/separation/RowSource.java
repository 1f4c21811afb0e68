package selvage.separation;

/** What is painted at each sample: an image, a shading, a group's result. */
interface RowSource {
  /** An entry of {@code states} where nothing is painted. */
  int NONE = -1;

  /**
   * Fills a row.
   *
   * @param y the row of the page's raster
   * @param x0 the first column
   * @param x1 the column after the last
   * @param states takes x1 - x0 indices into the page's {@link StateTable}, or {@link #NONE}
   * @param alphas takes as many opacities in Tint units; untouched where {@link #hasAlpha} is false
   */
  void row(int y, int x0, int x1, int[] states, char[] alphas);

  /** Whether opacities are given; otherwise the source is opaque. */
  boolean hasAlpha();
}
