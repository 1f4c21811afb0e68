package selvage.report;

import java.util.Locale;
import selvage.color.Lab;

/**
 * A drawing as an SVG element to stand in HTML. Shades are classes, so that the page's style gives
 * them colours for light and dark; measured colours are written as they are.
 */
final class SvgDrawing implements Drawing {
  private final StringBuilder svg = new StringBuilder();
  private final ScreenColor screen;

  /**
   * Begins one.
   *
   * @param kind its class
   * @param description read aloud in its place
   */
  SvgDrawing(ScreenColor screen, double width, double height, String kind, String description) {
    this.screen = screen;
    svg.append("<svg class=\"").append(kind).append("\" viewBox=\"0 0 ");
    svg.append(number(width)).append(' ').append(number(height));
    svg.append("\" role=\"img\" aria-label=\"").append(HtmlText.escaped(description));
    svg.append("\">");
  }

  /** The element; nothing may be drawn after it. */
  String element() {
    return svg.append("</svg>").toString();
  }

  @Override
  public void box(double x, double y, double width, double height, Shade fill) {
    rectangle(x, y, width, height);
    svg.append(" class=\"f-").append(fill.htmlClass()).append("\"/>");
  }

  @Override
  public void frame(
      double x, double y, double width, double height, Shade stroke, double lineWidth) {
    rectangle(x, y, width, height);
    stroke(stroke, lineWidth);
    svg.append(" fill=\"none\"/>");
  }

  @Override
  public void swatch(double x, double y, double width, double height, Lab color) {
    rectangle(x, y, width, height);
    svg.append(" fill=\"").append(hex(screen.of(color))).append("\"/>");
  }

  private void rectangle(double x, double y, double width, double height) {
    svg.append("<rect");
    attribute("x", x);
    attribute("y", y);
    attribute("width", width);
    attribute("height", height);
  }

  @Override
  public void disc(double x, double y, double radius, Shade fill) {
    circle(x, y, radius);
    svg.append(" class=\"f-").append(fill.htmlClass()).append("\"/>");
  }

  @Override
  public void dot(double x, double y, double radius, Lab color) {
    circle(x, y, radius);
    svg.append(" fill=\"").append(hex(screen.of(color))).append('"');
    stroke(Shade.INK, 0.15);
    svg.append("/>");
  }

  private void circle(double x, double y, double radius) {
    svg.append("<circle");
    attribute("cx", x);
    attribute("cy", y);
    attribute("r", radius);
  }

  @Override
  public void line(double x1, double y1, double x2, double y2, Shade stroke, double lineWidth) {
    line(x1, y1, x2, y2);
    stroke(stroke, lineWidth);
    svg.append(" stroke-linecap=\"round\"/>");
  }

  @Override
  public void dashes(double x1, double y1, double x2, double y2, Shade stroke, double lineWidth) {
    line(x1, y1, x2, y2);
    stroke(stroke, lineWidth);
    svg.append(" stroke-dasharray=\"1.2 1\"/>");
  }

  private void line(double x1, double y1, double x2, double y2) {
    svg.append("<line");
    attribute("x1", x1);
    attribute("y1", y1);
    attribute("x2", x2);
    attribute("y2", y2);
  }

  @Override
  public void polygon(Shade fill, double... points) {
    svg.append("<polygon points=\"");
    for (int i = 0; i < points.length; i++) {
      svg.append(i == 0 ? "" : " ").append(number(points[i]));
    }
    svg.append("\" class=\"f-").append(fill.htmlClass()).append("\"/>");
  }

  @Override
  public void text(
      double x, double y, double size, boolean bold, Shade fill, Anchor anchor, String text) {
    svg.append("<text");
    attribute("x", x);
    attribute("y", y);
    attribute("font-size", size);
    if (anchor != Anchor.START) {
      svg.append(" text-anchor=\"").append(anchor == Anchor.END ? "end" : "middle").append('"');
    }
    if (bold) {
      svg.append(" font-weight=\"bold\"");
    }
    svg.append(" class=\"f-").append(fill.htmlClass()).append("\">");
    svg.append(HtmlText.escaped(text)).append("</text>");
  }

  private void stroke(Shade stroke, double lineWidth) {
    svg.append(" class=\"s-").append(stroke.htmlClass()).append('"');
    attribute("stroke-width", lineWidth);
  }

  private void attribute(String name, double value) {
    svg.append(' ').append(name).append("=\"").append(number(value)).append('"');
  }

  private static String number(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value + 0.0);
    int end = text.length();
    while (text.charAt(end - 1) == '0') {
      end--;
    }
    text = text.substring(0, text.charAt(end - 1) == '.' ? end - 1 : end);
    return text.equals("-0") ? "0" : text;
  }

  static String hex(int rgb) {
    return String.format(Locale.ROOT, "#%06x", rgb);
  }
}
