package selvage.comparison;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import selvage.ledger.Calibration;

/**
 * Makes a trend of a source's proofs. A new stage begins at each calibration of the proofing
 * system; its first proofs are the baseline, and the charts begin behind them, each from its
 * centre.
 *
 * @param ewma the chart's figures
 * @param baselineProofs how many make a baseline, 2 or more
 */
record TrendChart(Ewma ewma, int baselineProofs) {
  TrendChart {
    if (baselineProofs < 2) {
      throw new IllegalArgumentException("a baseline of " + baselineProofs);
    }
  }

  /**
   * The trend.
   *
   * @param points in order of time, without charts
   * @param calibrations of the proofing system, in order of time
   */
  Trend of(ScoredPair.Source source, List<Trend.Point> points, List<Calibration> calibrations) {
    List<Trend.Stage> stages = new ArrayList<>();
    int next = 0;
    for (int i = -1; i < calibrations.size(); i++) {
      Optional<Calibration> begin = i < 0 ? Optional.empty() : Optional.of(calibrations.get(i));
      Optional<Instant> end =
          i + 1 < calibrations.size()
              ? Optional.of(calibrations.get(i + 1).time())
              : Optional.empty();
      int first = next;
      while (next < points.size()
          && (end.isEmpty() || points.get(next).time().isBefore(end.get()))) {
        next++;
      }
      if (next > first) {
        stages.add(stage(begin, points.subList(first, next)));
      }
    }
    return new Trend(source, stages);
  }

  private Trend.Stage stage(Optional<Calibration> begin, List<Trend.Point> points) {
    Optional<Instant> time = begin.map(Calibration::time);
    String note = begin.map(Calibration::note).orElse("");
    if (points.size() <= baselineProofs) {
      return new Trend.Stage(time, note, Optional.empty(), points);
    }
    double[] centre = new double[3];
    double[] sigma = new double[3];
    for (int axis = 0; axis < 3; axis++) {
      SummaryStatistics values = new SummaryStatistics();
      for (Trend.Point point : points.subList(0, baselineProofs)) {
        values.addValue(point.mean().axis(axis));
      }
      centre[axis] = values.getMean();
      sigma[axis] = values.getStandardDeviation() / c4(baselineProofs);
    }
    LabMean middle = new LabMean(centre[0], centre[1], centre[2]);
    LabMean spread = new LabMean(sigma[0], sigma[1], sigma[2]);
    List<Trend.Point> charted = new ArrayList<>(points.subList(0, baselineProofs));
    LabMean average = middle;
    for (int i = baselineProofs; i < points.size(); i++) {
      Trend.Point point = points.get(i);
      average = next(average, point.mean());
      LabMean limit = limit(spread, i - baselineProofs + 1);
      charted.add(
          new Trend.Point(
              point.time(),
              point.proof(),
              point.mean(),
              Optional.of(new Trend.Chart(average, middle, limit))));
    }
    return new Trend.Stage(
        time, note, Optional.of(new Trend.Baseline(baselineProofs, middle, spread)), charted);
  }

  private LabMean next(LabMean average, LabMean value) {
    return new LabMean(
        ewma.next(average.dl(), value.dl()),
        ewma.next(average.da(), value.da()),
        ewma.next(average.db(), value.db()));
  }

  private LabMean limit(LabMean sigma, int number) {
    return new LabMean(
        ewma.limit(sigma.dl(), number),
        ewma.limit(sigma.da(), number),
        ewma.limit(sigma.db(), number));
  }

  /** Of n normal values the mean sample standard deviation, in standard deviations. */
  static double c4(int n) {
    return Math.sqrt(2.0 / (n - 1))
        * Math.exp(Gamma.logGamma(n / 2.0) - Gamma.logGamma((n - 1) / 2.0));
  }

  /** The alarms of a trend, by time and axis. */
  static List<Trend.Alarm> alarms(Trend trend) {
    List<Trend.Alarm> alarms = new ArrayList<>();
    for (Trend.Stage stage : trend.stages()) {
      if (stage.baseline().isPresent()) {
        for (int axis = 0; axis < 3; axis++) {
          addAlarms(stage, stage.baseline().get().centre().axis(axis), axis, alarms);
        }
      }
    }
    alarms.sort(Comparator.comparing(Trend.Alarm::time).thenComparingInt(Trend.Alarm::axis));
    return alarms;
  }

  private static void addAlarms(
      Trend.Stage stage, double centre, int axis, List<Trend.Alarm> alarms) {
    Trend.Alarm open = null;
    for (Trend.Point point : stage.points()) {
      boolean beyond = point.chart().isPresent() && point.chart().get().isAlarm(axis);
      if (beyond) {
        Trend.Chart chart = point.chart().get();
        open =
            open == null
                ? new Trend.Alarm(
                    point.time(),
                    point.proof(),
                    axis,
                    chart.average().axis(axis),
                    centre,
                    chart.limit().axis(axis),
                    1)
                : new Trend.Alarm(
                    open.time(),
                    open.proof(),
                    axis,
                    open.average(),
                    centre,
                    open.limit(),
                    open.lasted() + 1);
      } else if (open != null) {
        alarms.add(open);
        open = null;
      }
    }
    if (open != null) {
      alarms.add(open);
    }
  }
}
