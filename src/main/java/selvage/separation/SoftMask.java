package selvage.separation;

/** Opacities over part of the page's raster, in Tint units; one value holds elsewhere. */
record SoftMask(int left, int top, int width, int height, char[] alphas, char outside) {
  char at(int x, int y) {
    int column = x - left;
    int row = y - top;
    return column >= 0 && column < width && row >= 0 && row < height
        ? alphas[row * width + column]
        : outside;
  }
}
