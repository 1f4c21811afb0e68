package selvage.report;

import java.util.List;
import selvage.comparison.Comparison;
import selvage.comparison.Quartiles;
import selvage.report.Drawing.Anchor;

/** Least, quartiles and greatest of the job strips, the standard strips and their differences. */
final class QuartilePlot {
  private static final double SMALL = 2.2;

  private final Drawing drawing;

  QuartilePlot(Drawing drawing) {
    this.drawing = drawing;
  }

  void draw(Comparison.Differences differences, double x, double y, double width, double height) {
    List<Quartiles> all =
        List.of(differences.job(), differences.standard(), differences.difference());
    List<String> names = List.of("job strip, by area", "standard strip", "job less standard");
    double low = Math.floor(Math.min(0, differences.difference().least()));
    double high = 1;
    for (Quartiles one : all) {
      high = Math.max(high, Math.ceil(one.greatest()));
    }
    double unit = width / (high - low);
    double step = high - low <= 8 ? 1 : Math.ceil((high - low) / 8);
    for (double mark = low; mark <= high; mark += step) {
      double at = x + (mark - low) * unit;
      drawing.line(at, y, at, y + height - 6, Shade.RULE, mark == 0 ? 0.3 : 0.1);
      drawing.text(
          at, y + height - 2.6, SMALL, false, Shade.MUTED, Anchor.MIDDLE, Figures.fixed(mark, 0));
    }
    drawing.text(x + width, y + height + 0.6, SMALL, true, Shade.INK, Anchor.END, "mean ΔE00");
    double row = (height - 6) / 3;
    for (int i = 0; i < 3; i++) {
      Quartiles one = all.get(i);
      double middle = y + row * i + row * 0.62;
      drawing.text(x + 0.8, y + row * i + 3, SMALL, false, Shade.INK, Anchor.START, names.get(i));
      double left = x + (one.lower() - low) * unit;
      double right = x + (one.upper() - low) * unit;
      drawing.line(
          x + (one.least() - low) * unit,
          middle,
          x + (one.greatest() - low) * unit,
          middle,
          Shade.INK,
          0.25);
      drawing.box(left, middle - 2.4, Math.max(0.3, right - left), 4.8, Shade.SURROUND);
      drawing.frame(left, middle - 2.4, Math.max(0.3, right - left), 4.8, Shade.INK, 0.2);
      double median = x + (one.median() - low) * unit;
      drawing.line(median, middle - 2.4, median, middle + 2.4, Shade.INK, 0.5);
    }
  }
}
