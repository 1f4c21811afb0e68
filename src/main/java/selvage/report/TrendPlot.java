package selvage.report;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import selvage.comparison.Trend;
import selvage.report.Drawing.Anchor;

/** The control charts of a trend, one an axis, over time. */
final class TrendPlot {
  private static final double SMALL = 2.2;
  private static final double INSET = 9;

  private final Drawing drawing;
  private final Trend trend;
  private final long begin;
  private final double span;

  TrendPlot(Drawing drawing, Trend trend) {
    this.drawing = drawing;
    this.trend = trend;
    long first = Long.MAX_VALUE;
    long last = Long.MIN_VALUE;
    for (Trend.Stage stage : trend.stages()) {
      for (Trend.Point point : stage.points()) {
        first = Math.min(first, point.time().getEpochSecond());
        last = Math.max(last, point.time().getEpochSecond());
      }
    }
    this.begin = first;
    this.span = Math.max(1, last - first);
  }

  /** Draws the chart of one axis: 0 for L*, 1 for a*, 2 for b*. */
  void draw(int axis, double x, double y, double width, double height) {
    double reach = reach(axis);
    double left = x + INSET;
    double inner = width - INSET - 2;
    double zero = y + height / 2;
    double unit = height / 2 / reach;
    drawing.frame(left, y, inner, height, Shade.RULE, 0.2);
    double step = reach <= 1 ? 0.5 : reach <= 3 ? 1 : Math.ceil(reach / 3);
    for (double mark = -Math.floor(reach / step) * step; mark <= reach; mark += step) {
      double at = zero - mark * unit;
      drawing.line(left, at, left + inner, at, Shade.RULE, mark == 0 ? 0.3 : 0.1);
      String text = Figures.signed(mark, step < 1 ? 1 : 0);
      drawing.text(left - 1, at + 0.8, SMALL, false, Shade.MUTED, Anchor.END, text);
    }
    String name = "mean Δ" + ComparisonText.AXES[axis] + " of the standard strip";
    drawing.text(left, y - 1, 2.7, true, Shade.INK, Anchor.START, name);
    dates(left, y + height, inner);
    for (Trend.Stage stage : trend.stages()) {
      if (stage.begin().isPresent()) {
        double at = across(stage.begin().get(), left, inner);
        drawing.dashes(at, y, at, y + height, Shade.INK, 0.25);
      }
      stage(stage, axis, new Frame(left, inner, zero, unit));
    }
  }

  private record Frame(double left, double inner, double zero, double unit) {}

  private void dates(double left, double y, double inner) {
    int marks = 6;
    for (int i = 0; i <= marks; i++) {
      double at = left + 2 + (inner - 4) * i / marks;
      Instant time = Instant.ofEpochSecond(begin + Math.round(span * i / marks));
      Anchor anchor = i == 0 ? Anchor.START : i == marks ? Anchor.END : Anchor.MIDDLE;
      drawing.text(at, y + 3, SMALL, false, Shade.MUTED, anchor, ComparisonText.day(time));
    }
  }

  private double across(Instant time, double left, double inner) {
    double share = (time.getEpochSecond() - begin) / span;
    return left + 2 + (inner - 4) * Math.min(1, Math.max(0, share));
  }

  private void stage(Trend.Stage stage, int axis, Frame frame) {
    List<double[]> average = new ArrayList<>();
    List<double[]> lower = new ArrayList<>();
    List<double[]> upper = new ArrayList<>();
    List<double[]> alarms = new ArrayList<>();
    for (Trend.Point point : stage.points()) {
      double at = across(point.time(), frame.left(), frame.inner());
      double value = frame.zero() - point.mean().axis(axis) * frame.unit();
      if (point.chart().isEmpty()) {
        drawing.disc(at, value, 0.6, Shade.BAR);
        drawing.disc(at, value, 0.4, Shade.ON_SIGN);
        continue;
      }
      drawing.disc(at, value, 0.5, Shade.BAR);
      Trend.Chart chart = point.chart().get();
      double centre = stage.baseline().orElseThrow().centre().axis(axis);
      double limit = chart.limit().axis(axis);
      double[] mean = {at, frame.zero() - chart.average().axis(axis) * frame.unit()};
      average.add(mean);
      lower.add(new double[] {at, frame.zero() - (centre - limit) * frame.unit()});
      upper.add(new double[] {at, frame.zero() - (centre + limit) * frame.unit()});
      if (chart.isAlarm(axis)) {
        alarms.add(mean);
      }
    }
    polyline(lower, Shade.SURROUND, 0.4);
    polyline(upper, Shade.SURROUND, 0.4);
    polyline(average, Shade.INK, 0.3);
    for (double[] alarm : alarms) {
      drawing.box(alarm[0] - 0.8, alarm[1] - 0.8, 1.6, 1.6, Shade.FAIL);
    }
  }

  private void polyline(List<double[]> points, Shade shade, double weight) {
    for (int i = 1; i < points.size(); i++) {
      drawing.line(
          points.get(i - 1)[0],
          points.get(i - 1)[1],
          points.get(i)[0],
          points.get(i)[1],
          shade,
          weight);
    }
  }

  private double reach(int axis) {
    double most = 0.5;
    for (Trend.Stage stage : trend.stages()) {
      for (Trend.Point point : stage.points()) {
        most = Math.max(most, Math.abs(point.mean().axis(axis)));
        if (point.chart().isPresent()) {
          double centre = stage.baseline().orElseThrow().centre().axis(axis);
          most = Math.max(most, Math.abs(centre) + point.chart().get().limit().axis(axis));
        }
      }
    }
    return most * 1.1;
  }
}
