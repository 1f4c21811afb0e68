package selvage.report;

import java.util.List;
import selvage.comparison.ScoredPair;
import selvage.report.Drawing.Anchor;
import selvage.score.Verdict;

/**
 * Each proof by the mean ΔE00 of its standard strip (across) and of its job strip (up): above the
 * diagonal the job's colours are worse off. Escapes are squares, false alarms lozenges.
 */
final class PairPlot {
  private static final double SMALL = 2.2;

  private final Drawing drawing;
  private final List<ScoredPair> pairs;
  private final double top;

  PairPlot(Drawing drawing, List<ScoredPair> pairs) {
    this.drawing = drawing;
    this.pairs = pairs;
    double most = 1;
    for (ScoredPair pair : pairs) {
      most = Math.max(most, Math.max(pair.jobDe00(), pair.standardDe00()));
    }
    this.top = Math.ceil(most * 1.05);
  }

  /** Draws it in a square with its axes' words below and to the left. */
  void draw(double left, double upper, double size) {
    double x = left + 8;
    double side = size - 8;
    drawing.frame(x, upper, side, side, Shade.RULE, 0.2);
    double step = top <= 6 ? 1 : top <= 15 ? 2 : Math.ceil(top / 8);
    for (double mark = 0; mark <= top; mark += step) {
      double at = side * mark / top;
      drawing.line(x + at, upper, x + at, upper + side, Shade.RULE, 0.1);
      drawing.line(x, upper + side - at, x + side, upper + side - at, Shade.RULE, 0.1);
      String text = Figures.fixed(mark, 0);
      drawing.text(x + at, upper + side + 3, SMALL, false, Shade.MUTED, Anchor.MIDDLE, text);
      drawing.text(x - 1, upper + side - at + 0.8, SMALL, false, Shade.MUTED, Anchor.END, text);
    }
    drawing.line(x, upper + side, x + side, upper, Shade.MUTED, 0.15);
    drawing.text(
        x + side, upper + side + 6, SMALL, true, Shade.INK, Anchor.END, "standard strip, ΔE00");
    drawing.text(x + 1, upper + 3, SMALL, true, Shade.INK, Anchor.START, "job strip, ΔE00 by area");
    for (ScoredPair pair : pairs) {
      mark(pair, x + side * pair.standardDe00() / top, upper + side - side * pair.jobDe00() / top);
    }
    double keyY = upper + side + 6;
    drawing.box(x, keyY - 1.6, 1.6, 1.6, Shade.FAIL);
    drawing.text(x + 2.4, keyY, SMALL, false, Shade.INK, Anchor.START, "escape");
    lozenge(x + 14, keyY - 0.8);
    drawing.text(x + 15.8, keyY, SMALL, false, Shade.INK, Anchor.START, "false alarm");
    drawing.disc(x + 32, keyY - 0.8, 0.6, Shade.BAR);
    drawing.text(x + 33.4, keyY, SMALL, false, Shade.INK, Anchor.START, "other");
  }

  private void mark(ScoredPair pair, double x, double y) {
    if (pair.job() == Verdict.FAIL && pair.standard() == Verdict.PASS) {
      drawing.box(x - 0.8, y - 0.8, 1.6, 1.6, Shade.FAIL);
    } else if (pair.job() == Verdict.PASS && pair.standard() == Verdict.FAIL) {
      lozenge(x, y);
    } else {
      drawing.disc(x, y, 0.6, Shade.BAR);
    }
  }

  private void lozenge(double x, double y) {
    drawing.polygon(Shade.UNDECIDED, x, y - 1.1, x + 1.1, y, x, y + 1.1, x - 1.1, y);
  }
}
