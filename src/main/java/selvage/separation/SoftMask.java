package selvage.separation;

/** Opacities over part of the page's raster, in Tint units; one value holds elsewhere. */
final class SoftMask {
  private final int left;
  private final int top;
  private final int width;
  private final int height;
  private final char[] alphas;
  private final char outside;

  /**
   * A mask.
   *
   * @param left column of the first opacity in the page's raster
   * @param top its row
   * @param alphas row by row
   * @param outside holds elsewhere
   */
  SoftMask(int left, int top, int width, int height, char[] alphas, char outside) {
    this.left = left;
    this.top = top;
    this.width = width;
    this.height = height;
    this.alphas = alphas;
    this.outside = outside;
  }

  char at(int x, int y) {
    int column = x - left;
    int row = y - top;
    return column >= 0 && column < width && row >= 0 && row < height
        ? alphas[row * width + column]
        : outside;
  }
}
