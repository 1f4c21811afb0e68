package selvage.draw;

import static selvage.draw.Inks.cmyk;

import java.io.IOException;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;

/** The flyer's front: an evening by the sea, a claim, the glazes. */
final class FlyerPage {
  private static final PDColor PAPER = cmyk(0, 0, 0, 0);
  private static final PDColor BLACK = cmyk(0, 0, 0, 100);

  private static final String[] LEFT = {
    "Oddlemere is four people, one kiln and a",
    "strip of coast where the clay lies open.",
    "We dig it in spring, let it rest through a",
    "winter, and press each tile in wooden",
    "moulds that we cut ourselves.",
    "",
    "No two tiles are quite alike. Lay forty of",
    "them and you will see the shore."
  };

  private static final String[] STEPS = {"100", "60", "20"};

  private final Canvas canvas;
  private final Ornament ornament;
  private final Inks inks;

  FlyerPage(Canvas canvas, Inks inks) {
    this.canvas = canvas;
    this.ornament = new Ornament(canvas);
    this.inks = inks;
  }

  void draw(PDImageXObject shore) throws IOException {
    canvas.image(shore, -3, 137, 216, 163);
    ornament.mark(PAPER, inks.reed(100), 15, 262, 20);
    canvas.boldText(PAPER, 15.5, -0.2, 40, 268.6, "oddlemere");
    canvas.text(PAPER, 4.4, 2.05, 41, 262, "TILEWORKS");
    claim();
    story();
    glazes();
    foot();
  }

  private void claim() throws IOException {
    canvas.rectangle(inks.dune(100), -3, 103, 216, 34);
    canvas.boldText(PAPER, 10.6, -0.1, 15, 122.6, "Pressed by hand,");
    canvas.boldText(PAPER, 10.6, -0.1, 15, 110.4, "fired by the tide.");
    canvas.overprint(true);
    for (int i = 0; i < 4; i++) {
      double x = 125 + 22 * i;
      canvas.quarterDisc(inks.reed(i % 2 == 0 ? 60 : 100), x, 103, 22, 0);
      canvas.quarterDisc(inks.reed(i % 2 == 0 ? 100 : 20), x + 22, 137, 12, 2);
    }
    canvas.overprint(false);
  }

  private void story() throws IOException {
    canvas.overprint(true);
    double y = 90;
    for (String line : LEFT) {
      canvas.text(BLACK, 3.75, 0, 15, y, line);
      y -= line.isEmpty() ? 3 : 5.4;
    }
    canvas.overprint(false);
    canvas.line(inks.dune(100), 0.6, 15, 45.6, 33, 45.6);
    canvas.text(inks.dune(100), 3.75, 0, 15, 39, "Open workshop, every first Sunday");
  }

  private void glazes() throws IOException {
    double side = 21;
    for (int i = 0; i < 3; i++) {
      double tint = Double.parseDouble(STEPS[i]);
      double x = 105 + (side + 2) * i;
      swatch(inks.dune(tint), x, 70, side, "Dune " + STEPS[i]);
      swatch(inks.reed(tint), x, 40, side, "Reed " + STEPS[i]);
    }
    double x = 105 + (side + 2) * 3;
    swatch(inks.both(100, 60), x, 70, side, "Kelp");
    swatch(inks.both(20, 60), x, 40, side, "Lagoon");
  }

  private void swatch(PDColor color, double x, double y, double side, String name)
      throws IOException {
    canvas.rectangle(color, x, y, side, side);
    canvas.text(BLACK, 2.7, 0.05, x, y - 4, name);
  }

  private void foot() throws IOException {
    canvas.rectangle(cmyk(11, 9, 10, 0), -3, -3, 216, 31);
    PDColor[] greys = {
      cmyk(6, 5, 5, 0), cmyk(12, 9, 9, 0), cmyk(25, 19, 19, 0), cmyk(37, 29, 29, 0),
      cmyk(50, 40, 40, 0), cmyk(62, 52, 52, 0), cmyk(75, 66, 66, 0), cmyk(60, 50, 50, 40),
      cmyk(60, 40, 40, 100)
    };
    ornament.steps(greys, 105, 9, 90, 9);
    canvas.text(BLACK, 2.7, 0.05, 105, 5, "Nine greys, from sea fog to wet slate");
    canvas.text(
        BLACK, 3.3, 0, 15, 14.4, "Oddlemere Tileworks, The Old Net Loft, Oddlemere Staithe");
    canvas.text(
        cmyk(0, 0, 0, 65), 3.3, 0, 15, 9, "An invented workshop: nothing here is for sale.");
  }
}
