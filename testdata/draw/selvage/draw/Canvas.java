package selvage.draw;

import java.io.IOException;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.pdmodel.graphics.state.PDExtendedGraphicsState;
import org.apache.pdfbox.pdmodel.graphics.state.RenderingMode;
import org.apache.pdfbox.util.Matrix;

/** Draws on a page in millimetres from the trim's lower left corner. */
final class Canvas {
  private static final double KAPPA = 0.5522847498;

  private final PDPageContentStream out;
  private final PDFont font;
  private final PDExtendedGraphicsState overprint = state(true);
  private final PDExtendedGraphicsState knockOut = state(false);

  /**
   * Begins to draw.
   *
   * @param trimXPt the trim's left edge in user space
   */
  Canvas(PDPageContentStream out, PDFont font, float trimXPt, float trimYPt) throws IOException {
    this.out = out;
    this.font = font;
    float scale = 72 / 25.4f;
    out.transform(new Matrix(scale, 0, 0, scale, trimXPt, trimYPt));
  }

  private static PDExtendedGraphicsState state(boolean overprints) {
    PDExtendedGraphicsState state = new PDExtendedGraphicsState();
    state.setNonStrokingOverprintControl(overprints);
    state.setStrokingOverprintControl(overprints);
    state.setOverprintMode(overprints ? 1 : 0);
    return state;
  }

  void overprint(boolean on) throws IOException {
    out.setGraphicsStateParameters(on ? overprint : knockOut);
  }

  void rectangle(PDColor color, double x, double y, double width, double height)
      throws IOException {
    out.setNonStrokingColor(color);
    out.addRect((float) x, (float) y, (float) width, (float) height);
    out.fill();
  }

  void line(PDColor color, double width, double x0, double y0, double x1, double y1)
      throws IOException {
    out.setStrokingColor(color);
    out.setLineWidth((float) width);
    out.moveTo((float) x0, (float) y0);
    out.lineTo((float) x1, (float) y1);
    out.stroke();
  }

  void frame(PDColor color, double line, double x, double y, double width, double height)
      throws IOException {
    out.setStrokingColor(color);
    out.setLineWidth((float) line);
    out.addRect((float) x, (float) y, (float) width, (float) height);
    out.stroke();
  }

  void polygon(PDColor color, double... points) throws IOException {
    out.setNonStrokingColor(color);
    out.moveTo((float) points[0], (float) points[1]);
    for (int i = 2; i < points.length; i += 2) {
      out.lineTo((float) points[i], (float) points[i + 1]);
    }
    out.closePath();
    out.fill();
  }

  void disc(PDColor color, double x, double y, double radius) throws IOException {
    out.setNonStrokingColor(color);
    out.moveTo((float) (x + radius), (float) y);
    for (int quarter = 0; quarter < 4; quarter++) {
      arc(x, y, radius, quarter);
    }
    out.closePath();
    out.fill();
  }

  /**
   * A quarter of a disc.
   *
   * @param quarter 0 is to the upper right of the centre, counted counter-clockwise
   */
  void quarterDisc(PDColor color, double x, double y, double radius, int quarter)
      throws IOException {
    out.setNonStrokingColor(color);
    out.moveTo((float) x, (float) y);
    out.lineTo((float) (x + radius * COS[quarter]), (float) (y + radius * COS[(quarter + 3) % 4]));
    arc(x, y, radius, quarter);
    out.closePath();
    out.fill();
  }

  /** The cosine of whole quarter turns; the sine is that of three quarters further. */
  private static final int[] COS = {1, 0, -1, 0};

  private void arc(double x, double y, double radius, int quarter) throws IOException {
    double c = radius * COS[quarter];
    double s = radius * COS[(quarter + 3) % 4];
    out.curveTo(
        (float) (x + c - KAPPA * s),
        (float) (y + s + KAPPA * c),
        (float) (x - s + KAPPA * c),
        (float) (y + c + KAPPA * s),
        (float) (x - s),
        (float) (y + c));
  }

  void image(PDImageXObject image, double x, double y, double width, double height)
      throws IOException {
    out.drawImage(image, (float) x, (float) y, (float) width, (float) height);
  }

  void text(PDColor color, double size, double tracking, double x, double y, String text)
      throws IOException {
    write(color, size, tracking, x, y, text, 0);
  }

  /** Text with an outline of its own colour, for want of a bolder cut. */
  void boldText(PDColor color, double size, double tracking, double x, double y, String text)
      throws IOException {
    write(color, size, tracking, x, y, text, size * 0.035);
  }

  private void write(
      PDColor color, double size, double tracking, double x, double y, String text, double line)
      throws IOException {
    out.beginText();
    out.setNonStrokingColor(color);
    out.setFont(font, (float) size);
    out.setCharacterSpacing((float) tracking);
    if (line > 0) {
      out.setStrokingColor(color);
      out.setLineWidth((float) line);
    }
    out.setRenderingMode(line > 0 ? RenderingMode.FILL_STROKE : RenderingMode.FILL);
    out.newLineAtOffset((float) x, (float) y);
    out.showText(text);
    out.endText();
  }

  /** The width of a line of text. */
  double widthOf(double size, double tracking, String text) throws IOException {
    return font.getStringWidth(text) / 1000 * size + tracking * text.length();
  }
}
