package selvage.sheet;

import java.awt.geom.AffineTransform;
import selvage.strip.StripLayout;

/**
 * A strip's place on a page.
 *
 * @param edge of the page as displayed
 * @param layout the strip, laid out for this place
 * @param box in the page's default user space
 * @param stripToUser from the strip's millimetres to user space
 * @param media the media box when the strip is there; the old one where there was room
 * @param extended whether the media grows
 * @param widened whether it grows along the edge too, since the edge is shorter than any strip
 */
record Placement(
    Edge edge,
    StripLayout layout,
    Rectangle box,
    AffineTransform stripToUser,
    Rectangle media,
    boolean extended,
    boolean widened) {

  /** Sides nearer than this, in user space units, are one. */
  private static final double SAME_SIDE = 1e-3;

  /**
   * Places a layout.
   *
   * @param x lower left corner of the strip as displayed, in millimetres; and so {@code y}
   * @param sheet what the media is to be, as displayed
   */
  static Placement at(
      PageFrame frame,
      Edge edge,
      StripLayout layout,
      double x,
      double y,
      Rectangle sheet,
      boolean widened) {
    boolean upright = edge.isUpright();
    double width = upright ? layout.heightMm() : layout.widthMm();
    double height = upright ? layout.widthMm() : layout.heightMm();
    AffineTransform transform = frame.toUser();
    transform.concatenate(
        upright
            ? new AffineTransform(0, 1, -1, 0, x + layout.heightMm(), y)
            : new AffineTransform(1, 0, 0, 1, x, y));
    Rectangle displayed = new Rectangle(x, y, x + width, y + height);
    boolean extended = !sheet.equals(frame.displayedMedia());
    return new Placement(
        edge,
        layout,
        displayed.transformed(frame.toUser()),
        transform,
        extended ? kept(sheet.transformed(frame.toUser()), frame.media()) : frame.media(),
        extended,
        widened);
  }

  /** A grown box whose sides that did not grow are exactly the old ones. */
  private static Rectangle kept(Rectangle grown, Rectangle old) {
    return new Rectangle(
        kept(grown.llx(), old.llx()),
        kept(grown.lly(), old.lly()),
        kept(grown.urx(), old.urx()),
        kept(grown.ury(), old.ury()));
  }

  private static double kept(double grown, double old) {
    return Math.abs(grown - old) < SAME_SIDE ? old : grown;
  }

  /** The crop box when the strip is there, in user space; it grows as far as the media does. */
  Rectangle crop(PageFrame frame) {
    if (!extended) {
      return frame.crop();
    }
    Rectangle old = frame.media();
    Rectangle shown = frame.crop().union(box);
    return new Rectangle(
        media.llx() < old.llx() ? media.llx() : shown.llx(),
        media.lly() < old.lly() ? media.lly() : shown.lly(),
        media.urx() > old.urx() ? media.urx() : shown.urx(),
        media.ury() > old.ury() ? media.ury() : shown.ury());
  }

  /**
   * What of the page's own content may show, in user space: all of the old media, but on the sides
   * where the crop box grows nothing that it hid.
   */
  Rectangle ownContent(PageFrame frame) {
    Rectangle old = frame.crop();
    Rectangle grown = crop(frame);
    Rectangle sheet = frame.media();
    return new Rectangle(
        grown.llx() < old.llx() ? old.llx() : sheet.llx(),
        grown.lly() < old.lly() ? old.lly() : sheet.lly(),
        grown.urx() > old.urx() ? old.urx() : sheet.urx(),
        grown.ury() > old.ury() ? old.ury() : sheet.ury());
  }

  /** By how much the sheet grows across the edge, in millimetres as displayed. */
  double growthMm(PageFrame frame) {
    return acrossMm(frame.displayed(media)) - acrossMm(frame.displayedMedia());
  }

  /** The side of a sheet, as displayed, that is across the edge. */
  double acrossMm(Rectangle sheet) {
    return edge.isUpright() ? sheet.width() : sheet.height();
  }

  /** By how much the sheet grows, in square millimetres as displayed. */
  double addedArea(PageFrame frame) {
    Rectangle before = frame.displayedMedia();
    Rectangle after = frame.displayed(media);
    return after.width() * after.height() - before.width() * before.height();
  }
}
