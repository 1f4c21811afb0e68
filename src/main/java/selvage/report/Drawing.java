package selvage.report;

import selvage.color.Lab;

/** A surface for charts: millimetres from its upper left corner, y downwards. */
interface Drawing {
  /** Which point of a text stands at its x. */
  enum Anchor {
    START,
    MIDDLE,
    END
  }

  /** A filled rectangle. */
  void box(double x, double y, double width, double height, Shade fill);

  /** The outline of a rectangle. */
  void frame(double x, double y, double width, double height, Shade stroke, double lineWidth);

  /** A rectangle in a measured or aimed-at colour. */
  void swatch(double x, double y, double width, double height, Lab color);

  /** A filled circle. */
  void disc(double x, double y, double radius, Shade fill);

  /** A circle in a measured or aimed-at colour, outlined. */
  void dot(double x, double y, double radius, Lab color);

  /** A straight line with round ends. */
  void line(double x1, double y1, double x2, double y2, Shade stroke, double lineWidth);

  /** A line of dashes. */
  void dashes(double x1, double y1, double x2, double y2, Shade stroke, double lineWidth);

  /** A filled polygon: x and y by turns. */
  void polygon(Shade fill, double... points);

  /** A line of text on a baseline; the size is the height of an em in millimetres. */
  void text(double x, double y, double size, boolean bold, Shade fill, Anchor anchor, String text);
}
