package selvage.draw;

import static selvage.draw.Inks.cmyk;

import java.io.IOException;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/** The back: a wall of tiles, a still life, and four labels for boxes. */
final class LabelPage {
  private static final PDColor PAPER = cmyk(0, 0, 0, 0);
  private static final PDColor BLACK = cmyk(0, 0, 0, 100);
  private static final PDColor RICH_BLACK = cmyk(60, 40, 40, 100);
  private static final PDColor CREAM = cmyk(3, 6, 16, 0);
  private static final PDColor SAND = cmyk(10, 18, 34, 2);

  private static final String[][] PRICES = {
    {"Quarter moon", "10 × 10 cm", "44 a square metre"},
    {"Marram", "10 × 10 cm", "32 a square metre"},
    {"Tideline", "15 × 15 cm", "21 a square metre"},
    {"Ember", "15 × 15 cm", "18 a square metre"}
  };

  private final Canvas canvas;
  private final Ornament ornament;
  private final Inks inks;

  LabelPage(Canvas canvas, Inks inks) {
    this.canvas = canvas;
    this.ornament = new Ornament(canvas);
    this.inks = inks;
  }

  void draw(PDImageXObject stillLife) throws IOException {
    wall();
    canvas.image(stillLife, -3, 93, 129, 99);
    list();
    for (int i = 0; i < 4; i++) {
      label(i, 11 + 48 * i, 12);
    }
  }

  /** Eight by four tiles of 27 mm, bleeding at three sides. */
  private void wall() throws IOException {
    Noise choice = new Noise(29);
    for (int row = 0; row < 4; row++) {
      for (int column = 0; column < 8; column++) {
        double x = -3 + 27 * column;
        double y = 192 + 27 * row;
        int kind = (int) Math.floor((choice.lattice(column, row) + 1) * 2.999);
        int corner = (column + row) % 4;
        switch (kind) {
          case 0 -> ornament.leaves(CREAM, inks.reed(100), inks.dune(100), x, y, 27);
          case 1 -> ornament.leaves(inks.dune(20), inks.dune(100), RICH_BLACK, x, y, 27);
          case 2 ->
              ornament.ripples(
                  CREAM,
                  new PDColor[] {inks.dune(100), CREAM, inks.dune(60), SAND},
                  corner,
                  x,
                  y,
                  27);
          case 3 ->
              ornament.ripples(
                  inks.reed(20),
                  new PDColor[] {inks.reed(60), inks.reed(100), inks.both(60, 100)},
                  corner,
                  x,
                  y,
                  27);
          case 4 -> ornament.sail(inks.reed(60), CREAM, inks.dune(60), x, y, 27);
          default -> ornament.sail(SAND, inks.both(100, 60), PAPER, x, y, 27);
        }
      }
    }
  }

  private void list() throws IOException {
    canvas.rectangle(RICH_BLACK, 126, 93, 87, 99);
    ornament.mark(inks.dune(100), RICH_BLACK, 136, 170, 13);
    canvas.boldText(PAPER, 6.2, 0, 136, 158, "Four shapes,");
    canvas.boldText(PAPER, 6.2, 0, 136, 150, "six glazes");
    double y = 139;
    for (String[] row : PRICES) {
      canvas.text(PAPER, 3.6, 0.02, 136, y, row[0]);
      canvas.text(cmyk(0, 12, 30, 25), 2.9, 0, 136, y - 4.2, row[1] + ", " + row[2]);
      canvas.line(cmyk(0, 0, 0, 60), 0.15, 136, y - 6.6, 199, y - 6.6);
      y -= 11.4;
    }
  }

  private void label(int kind, double x, double y) throws IOException {
    double width = 44;
    double height = 70;
    PDColor head =
        new PDColor[] {inks.reed(100), inks.dune(60), cmyk(70, 15, 20, 0), cmyk(5, 70, 85, 0)}
            [kind];
    canvas.rectangle(CREAM, x, y, width, height);
    canvas.rectangle(head, x, y + 26, width, height - 26);
    double side = 28;
    double tx = x + (width - side) / 2;
    double ty = y + 34;
    switch (kind) {
      case 0 ->
          ornament.ripples(
              CREAM, new PDColor[] {inks.dune(100), CREAM, inks.dune(100)}, 1, tx, ty, side);
      case 1 -> ornament.leaves(CREAM, inks.reed(60), inks.dune(100), tx, ty, side);
      case 2 ->
          ornament.ripples(
              CREAM,
              new PDColor[] {cmyk(90, 40, 25, 0), cmyk(45, 8, 12, 0), CREAM},
              0,
              tx,
              ty,
              side);
      default -> ornament.sail(CREAM, cmyk(15, 90, 95, 5), cmyk(0, 35, 85, 0), tx, ty, side);
    }
    canvas.overprint(true);
    canvas.boldText(BLACK, 4.6, 0, x + 4, y + 18.6, PRICES[kind][0]);
    canvas.text(BLACK, 2.7, 0, x + 4, y + 14.2, PRICES[kind][1] + ", box of 25");
    canvas.overprint(false);
    ornament.steps(trials(kind), x + 4, y + 4, width - 8, 6);
    canvas.frame(cmyk(0, 0, 0, 30), 0.15, x, y, width, height);
  }

  /** Ten steps of a glaze, from a tenth to full. */
  private PDColor[] trials(int kind) {
    PDColor[] steps = new PDColor[10];
    for (int i = 0; i < steps.length; i++) {
      double t = 10.0 * (i + 1);
      steps[i] =
          switch (kind) {
            case 0 -> inks.reed(t);
            case 1 -> inks.dune(t);
            case 2 -> cmyk(0.9 * t, 0.4 * t, 0.25 * t, 0);
            default -> cmyk(0.1 * t, 0.65 * t, 0.8 * t, 0);
          };
    }
    return steps;
  }
}
