package selvage.separation;

import java.util.Arrays;

/**
 * A raster of states that a transparency group, or the page itself, is composited on.
 *
 * <p>A cell holds the group's own opacity and, in a non-isolated group, the colour accumulated with
 * the backdrop (ISO 32000-2, 11.4.8); {@link #initial} holds the backdrop as it was. A group's
 * layer has cells for those rows only that something is painted on; {@link Compositor} adds them as
 * they are needed, since the bounds of most groups are far larger than what is in them.
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
  final boolean knockout;
  final Blending blending;

  /** What a non-isolated group lies on; null where isolated. */
  final Layer backdrop;

  /** The cells of the rows that are held, row by row. */
  int[] cells;

  /** The backdrop's state for each of {@link #cells}; null where isolated. */
  int[] initial;

  private int heldTop;
  private int heldBottom;

  // What has been painted on lies within these.
  private int touchedLeft;
  private int touchedTop;
  private int touchedRight;
  private int touchedBottom;

  private Layer(
      int left,
      int top,
      int right,
      int bottom,
      Layer backdrop,
      boolean knockout,
      Blending blending) {
    this.left = left;
    this.top = top;
    this.width = right - left;
    this.height = bottom - top;
    this.backdrop = backdrop;
    this.knockout = knockout;
    this.blending = blending;
    this.cells = new int[0];
    this.initial = backdrop == null ? null : new int[0];
    this.heldTop = top;
    this.heldBottom = top;
    this.touchedLeft = right;
    this.touchedTop = bottom;
    this.touchedRight = left;
    this.touchedBottom = top;
  }

  /** An isolated layer that holds all its rows; every cell is blank. */
  static Layer isolated(
      int left, int top, int right, int bottom, boolean knockout, Blending blending) {
    Layer layer = new Layer(left, top, right, bottom, null, knockout, blending);
    layer.hold(top, bottom);
    return layer;
  }

  /**
   * A group's layer, which holds no row as yet.
   *
   * @param backdrop what it lies on; null where isolated
   */
  static Layer group(
      int left,
      int top,
      int right,
      int bottom,
      Layer backdrop,
      boolean knockout,
      Blending blending) {
    return new Layer(left, top, right, bottom, backdrop, knockout, blending);
  }

  /** The first row that is held. */
  int heldTop() {
    return heldTop;
  }

  /** The row after the last that is held. */
  int heldBottom() {
    return heldBottom;
  }

  /**
   * Holds rows, and half as many again as it held before, so that rows are not added one by one.
   * The cells of new rows are blank.
   *
   * @param from at least {@link #top}
   * @param to at most {@link #bottom}
   */
  void hold(int from, int to) {
    boolean isNew = heldTop == heldBottom;
    int spare = (heldBottom - heldTop) / 2;
    int first = isNew ? from : Math.min(heldTop, from < heldTop ? from - spare : heldTop);
    int end = isNew ? to : Math.max(heldBottom, to > heldBottom ? to + spare : heldBottom);
    first = Math.max(top, first);
    end = Math.min(bottom(), end);
    int at = isNew ? 0 : (heldTop - first) * width;
    cells = moved(cells, at, (end - first) * width);
    initial = initial == null ? null : moved(initial, at, (end - first) * width);
    heldTop = first;
    heldBottom = end;
  }

  private static int[] moved(int[] old, int to, int length) {
    int[] moved = new int[length];
    System.arraycopy(old, 0, moved, to, old.length);
    return moved;
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

  /** Where a sample's cell is; its row must be held. */
  int offset(int x, int y) {
    return (y - heldTop) * width + x - left;
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
