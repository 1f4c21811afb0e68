package selvage.sheet;

import java.awt.geom.AffineTransform;

/**
 * A rectangle by its corners, in user space units or in millimetres as its holder says.
 *
 * @param urx not below {@code llx}
 * @param ury not below {@code lly}
 */
record Rectangle(double llx, double lly, double urx, double ury) {
  Rectangle {
    if (!(urx >= llx && ury >= lly)) {
      throw new IllegalArgumentException(
          "rectangle from " + llx + ", " + lly + " to " + urx + ", " + ury);
    }
  }

  double width() {
    return urx - llx;
  }

  double height() {
    return ury - lly;
  }

  /** The rectangle's image under a transform of quarter turns, scaling and shifts. */
  Rectangle transformed(AffineTransform transform) {
    double[] corners = {llx, lly, urx, ury};
    transform.transform(corners, 0, corners, 0, 2);
    return new Rectangle(
        Math.min(corners[0], corners[2]),
        Math.min(corners[1], corners[3]),
        Math.max(corners[0], corners[2]),
        Math.max(corners[1], corners[3]));
  }

  /** The part inside another; the other where nothing is left. */
  Rectangle within(Rectangle outer) {
    double left = Math.max(llx, outer.llx);
    double bottom = Math.max(lly, outer.lly);
    double right = Math.min(urx, outer.urx);
    double top = Math.min(ury, outer.ury);
    return right > left && top > bottom ? new Rectangle(left, bottom, right, top) : outer;
  }

  /** The smallest rectangle around both. */
  Rectangle union(Rectangle other) {
    return new Rectangle(
        Math.min(llx, other.llx),
        Math.min(lly, other.lly),
        Math.max(urx, other.urx),
        Math.max(ury, other.ury));
  }
}
