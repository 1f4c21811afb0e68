package selvage.report;

import selvage.score.Verdict;

/**
 * The sign of a verdict, told apart by shape: a disc with a tick, a square with a cross, a lozenge
 * with a question mark.
 */
final class VerdictSign {
  private VerdictSign() {}

  /** Draws it about a centre. */
  static void draw(Drawing drawing, Verdict verdict, double x, double y, double radius) {
    double r = radius;
    double stroke = r * 0.26;
    switch (verdict) {
      case PASS -> {
        drawing.disc(x, y, r, Shade.PASS);
        drawing.line(x - 0.46 * r, y + 0.04 * r, x - 0.12 * r, y + 0.38 * r, Shade.ON_SIGN, stroke);
        drawing.line(x - 0.12 * r, y + 0.38 * r, x + 0.48 * r, y - 0.36 * r, Shade.ON_SIGN, stroke);
      }
      case FAIL -> {
        double h = 0.92 * r;
        drawing.box(x - h, y - h, 2 * h, 2 * h, Shade.FAIL);
        double c = 0.42 * r;
        drawing.line(x - c, y - c, x + c, y + c, Shade.ON_SIGN, stroke);
        drawing.line(x - c, y + c, x + c, y - c, Shade.ON_SIGN, stroke);
      }
      case UNDECIDED -> {
        double h = 1.1 * r;
        drawing.polygon(Shade.UNDECIDED, x, y - h, x + h, y, x, y + h, x - h, y);
        drawing.text(x, y + 0.42 * r, 1.2 * r, true, Shade.ON_SIGN, Drawing.Anchor.MIDDLE, "?");
      }
    }
  }

  /** The shade of its words. */
  static Shade shade(Verdict verdict) {
    return switch (verdict) {
      case PASS -> Shade.PASS;
      case FAIL -> Shade.FAIL;
      case UNDECIDED -> Shade.UNDECIDED;
    };
  }
}
