package selvage.separation;

import java.util.Arrays;

/**
 * A raster of states that a transparency group, or the page itself, is composited on.
 *
 * <p>A cell holds the group's own opacity and, in a non-isolated group, the colour accumulated with
 * the backdrop (ISO 32000-2, 11.4.8); {@link #initial} holds the backdrop as it was.
 */
final class Layer {
  /** How the process slots of a layer are to be read. */
  enum Blending {
    /** Slots 0 to 3 are C, M, Y, K. */
    CMYK,
    /** Slots 0 to 2 are 1 − R, 1 − G, 1 − B; slot 3 is unused. */
    RGB,
    /** Slot 3 is 1 − gray; slots 0 to 2 are unused. */
    GRAY
  }

  final int left;
  final int top;
  final int width;
  final int height;
  final int[] cells;
  final int[] initial; // null where isolated
  final boolean knockout;
  final Blending blending;

  // What has been painted on lies within these.
  private int touchedLeft;
  private int touchedTop;
  private int touchedRight;
  private int touchedBottom;

  private Layer(
      int left,
      int top,
      int width,
      int height,
      int[] initial,
      boolean knockout,
      Blending blending) {
    this.left = left;
    this.top = top;
    this.width = width;
    this.height = height;
    this.cells = new int[width * height];
    this.initial = initial;
    this.knockout = knockout;
    this.blending = blending;
    this.touchedLeft = left + width;
    this.touchedTop = top + height;
    this.touchedRight = left;
    this.touchedBottom = top;
  }

  /** An isolated layer; every cell is blank. */
  static Layer isolated(
      int left, int top, int right, int bottom, boolean knockout, Blending blending) {
    return new Layer(left, top, right - left, bottom - top, null, knockout, blending);
  }

  /**
   * A layer on a backdrop.
   *
   * @param backdrop the backdrop's state a cell, row by row
   * @param untouched what each cell is before anything is painted
   */
  static Layer onBackdrop(
      int left,
      int top,
      int right,
      int bottom,
      int[] backdrop,
      int[] untouched,
      boolean knockout,
      Blending blending) {
    Layer layer = new Layer(left, top, right - left, bottom - top, backdrop, knockout, blending);
    System.arraycopy(untouched, 0, layer.cells, 0, untouched.length);
    return layer;
  }

  int right() {
    return left + width;
  }

  int bottom() {
    return top + height;
  }

  /** All its samples. */
  Region region() {
    return Region.ofRectangle(left, top, right(), bottom());
  }

  /** Notes that samples of a row are painted on. */
  void touch(int x0, int x1, int y) {
    touchedLeft = Math.min(touchedLeft, x0);
    touchedRight = Math.max(touchedRight, x1);
    touchedTop = Math.min(touchedTop, y);
    touchedBottom = Math.max(touchedBottom, y + 1);
  }

  /** A rectangle outside of which nothing has been painted. */
  Region touched() {
    return Region.ofRectangle(touchedLeft, touchedTop, touchedRight, touchedBottom);
  }

  int offset(int x, int y) {
    return (y - top) * width + x - left;
  }

  int at(int x, int y) {
    return cells[offset(x, y)];
  }

  int initialAt(int offset) {
    return initial == null ? StateTable.BLANK : initial[offset];
  }

  void fill(int x0, int x1, int y, int state) {
    int from = offset(x0, y);
    Arrays.fill(cells, from, from + x1 - x0, state);
  }
}
