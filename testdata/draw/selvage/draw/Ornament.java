package selvage.draw;

import java.io.IOException;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;

/** The tiles that the invented workshop presses, as flat figures. */
final class Ornament {
  private final Canvas canvas;

  Ornament(Canvas canvas) {
    this.canvas = canvas;
  }

  /** The workshop's mark: a tile with two waves of quarter discs and a sun. */
  void mark(PDColor color, PDColor ground, double x, double y, double side) throws IOException {
    double half = side / 2;
    canvas.rectangle(color, x, y, side, side);
    canvas.quarterDisc(ground, x, y, half, 0);
    canvas.quarterDisc(ground, x + half, y, half, 0);
    canvas.disc(ground, x + 0.72 * side, y + 0.76 * side, 0.13 * side);
    canvas.rectangle(ground, x, y + half, 0.46 * side, 0.035 * side);
  }

  /** Four leaves that meet in the middle. */
  void leaves(PDColor ground, PDColor leaf, PDColor dot, double x, double y, double side)
      throws IOException {
    double half = side / 2;
    canvas.rectangle(ground, x, y, side, side);
    canvas.quarterDisc(leaf, x, y, half, 0);
    canvas.quarterDisc(leaf, x + side, y, half, 1);
    canvas.quarterDisc(leaf, x + side, y + side, half, 2);
    canvas.quarterDisc(leaf, x, y + side, half, 3);
    canvas.polygon(
        dot,
        x + half,
        y + half - 0.16 * side,
        x + half + 0.16 * side,
        y + half,
        x + half,
        y + half + 0.16 * side,
        x + half - 0.16 * side,
        y + half);
  }

  /** Nested quarter discs in one corner, from the outside in. */
  void ripples(PDColor ground, PDColor[] rings, int corner, double x, double y, double side)
      throws IOException {
    canvas.rectangle(ground, x, y, side, side);
    double cx = corner == 0 || corner == 3 ? x : x + side;
    double cy = corner < 2 ? y : y + side;
    for (int i = 0; i < rings.length; i++) {
      canvas.quarterDisc(rings[i], cx, cy, side * (1 - (double) i / rings.length), corner);
    }
  }

  /** Two triangles and a disc. */
  void sail(PDColor ground, PDColor sail, PDColor sun, double x, double y, double side)
      throws IOException {
    canvas.rectangle(ground, x, y, side, side);
    canvas.polygon(sail, x, y, x + side, y, x + side, y + side);
    canvas.disc(sun, x + 0.3 * side, y + 0.68 * side, 0.16 * side);
  }

  /** A row of equal steps, for glaze trials. */
  void steps(PDColor[] colors, double x, double y, double width, double height) throws IOException {
    for (int i = 0; i < colors.length; i++) {
      canvas.rectangle(colors[i], x + i * width / colors.length, y, width / colors.length, height);
    }
  }
}
