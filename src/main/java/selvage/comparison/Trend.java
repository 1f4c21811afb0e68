package selvage.comparison;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * How the mean of reading minus aim of the standard strip went over time, for one proofing system,
 * substrate and condition.
 *
 * @param source which
 * @param stages from calibration to calibration, in order of time
 */
public record Trend(ScoredPair.Source source, List<Stage> stages) {
  /**
   * One proof.
   *
   * @param time when its measurement was taken
   * @param proof its name
   * @param mean over its standard patches
   * @param chart the three axes' averages; empty while the baseline is still made
   */
  public record Point(Instant time, String proof, LabMean mean, Optional<Chart> chart) {}

  /**
   * A point of the three charts.
   *
   * @param average EWMA of each axis
   * @param centre of the stage, by axis
   * @param limit half the width between the limits about the centre, by axis
   */
  public record Chart(LabMean average, LabMean centre, LabMean limit) {
    /** Whether an axis lies beyond its limits. */
    public boolean isAlarm(int axis) {
      return Math.abs(average.axis(axis) - centre.axis(axis)) > limit.axis(axis);
    }
  }

  /**
   * The centre and spread that a stage is held against.
   *
   * @param proofs from how many
   * @param centre mean by axis
   * @param sigma standard deviation by axis: of the sample, over c₄ for its size
   */
  public record Baseline(int proofs, LabMean centre, LabMean sigma) {}

  /**
   * The time between two calibrations.
   *
   * @param begin the calibration; empty where the record begins without one
   * @param note of the calibration
   * @param baseline empty where there are too few proofs
   * @param points in order of time
   */
  public record Stage(
      Optional<Instant> begin, String note, Optional<Baseline> baseline, List<Point> points) {
    public Stage {
      Objects.requireNonNull(begin, "begin");
      Objects.requireNonNull(baseline, "baseline");
      points = List.copyOf(points);
    }
  }

  /**
   * Where an average first lay beyond its limits; the points that followed until it was within them
   * again are one alarm.
   *
   * @param axis 0 for L*, 1 for a*, 2 for b*
   * @param average there
   * @param centre of the stage
   * @param limit half the width there
   * @param lasted points beyond, from 1
   */
  public record Alarm(
      Instant time,
      String proof,
      int axis,
      double average,
      double centre,
      double limit,
      int lasted) {
    /** What it means, for example {@code redder}. */
    public String word() {
      return LabMean.word(axis, average - centre);
    }
  }

  public Trend {
    Objects.requireNonNull(source, "source");
    stages = List.copyOf(stages);
  }
}
