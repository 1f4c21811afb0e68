package selvage.measurement;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import selvage.color.ColorDifference;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.strip.Patch;
import selvage.strip.PatchSet;
import selvage.strip.Strip;

/**
 * How well readings fit the patches that their file names. Ids are numbers on paper: another
 * strip's may be the same, and a row read from its other end gives each reading a wrong one. A bad
 * print differs from its aims, but its patches still differ from each other as the aims do. The
 * limits are house rules.
 */
final class StatedFit {
  private static final int LEAST_READINGS = 6;

  /** Mean ΔE*ab above which the colours are asked for another order. */
  private static final double DOUBTFUL = 6;

  /** 1 − d/r of a set, d and r as in {@link ColorAlignment}, below which it is another strip's. */
  private static final double LEAST_FIT = 0.4;

  /** Mean ΔE*ab over all pairs below which a strip's colours are too much alike to tell. */
  private static final double LEAST_SPREAD = 8;

  /** ΔE*ab that no print of the right strip has in many patches. */
  private static final double FAR = 25;

  private static final double MOST_FAR = 0.25;

  /** A reading this far from its own aim and this near to another's was likely misread. */
  private static final double MISREAD_FROM = 15;

  private static final double MISREAD_TO = 4;

  private record Pair(Patch patch, Reading reading, double distance) {}

  private final Strip strip;
  private final Measurement measurement;
  private final List<Pair> pairs = new ArrayList<>();
  private final double ofAll;
  private final double mean;

  private StatedFit(
      Strip strip,
      Measurement measurement,
      List<SheetPatch> printed,
      Map<Patch, List<Reading>> found) {
    this.strip = strip;
    this.measurement = measurement;
    double sum = 0;
    for (Map.Entry<Patch, List<Reading>> one : found.entrySet()) {
      for (Reading reading : one.getValue()) {
        double distance = ColorDifference.de76(one.getKey().aim().lab(), reading.lab());
        pairs.add(new Pair(one.getKey(), reading, distance));
        sum += distance;
      }
    }
    mean = pairs.isEmpty() ? 0 : sum / pairs.size();
    ofAll =
        mean <= DOUBTFUL
                || !ColorAlignment.isComparable(measurement.readings().size(), printed.size())
            ? 0
            : ColorAlignment.meanOfAll(ColorAlignment.distances(measurement.readings(), printed));
  }

  static StatedFit of(
      Strip strip,
      Measurement measurement,
      List<SheetPatch> printed,
      Map<Patch, List<Reading>> found) {
    return new StatedFit(strip, measurement, printed, found);
  }

  /** Mean ΔE*ab between readings and aims. */
  double meanDe76() {
    return mean;
  }

  /** Whether the colours should be asked for another order. */
  boolean isDoubtful() {
    return pairs.size() >= LEAST_READINGS && mean > DOUBTFUL;
  }

  /**
   * Refuses readings that are plainly not of these patches.
   *
   * @throws InputException naming the worst
   */
  void require() throws InputException {
    if (!isDoubtful() || ofAll < LEAST_SPREAD) {
      return;
    }
    boolean unfit = false;
    for (PatchSet set : PatchSet.values()) {
      double sum = 0;
      int count = 0;
      int far = 0;
      for (Pair pair : pairs) {
        if (pair.patch().set() == set) {
          sum += Math.min(RowAlignment.CAP, pair.distance());
          far += pair.distance() > FAR ? 1 : 0;
          count++;
        }
      }
      unfit |=
          count >= LEAST_READINGS
              && (1 - sum / count / ofAll < LEAST_FIT || far > MOST_FAR * count);
    }
    if (!unfit) {
      return;
    }
    Pair worst = pairs.get(0);
    for (Pair pair : pairs) {
      worst = pair.distance() > worst.distance() ? pair : worst;
    }
    throw InputException.at(
        measurement.source(),
        worst.reading().line(),
        worst.patch().id(),
        String.format(
            Locale.ROOT,
            "expected colours of strip %s, found readings that differ from its aims by ΔE*ab %.1f"
                + " on average (here %.1f), as those of another strip do; check that this is its"
                + " measurement",
            strip.stripId(),
            mean,
            worst.distance()));
  }

  /** Names readings that fit another patch much better than their own. */
  void findMisreadings(List<Finding> findings) {
    for (Pair pair : pairs) {
      if (pair.distance() < MISREAD_FROM) {
        continue;
      }
      for (Patch other : strip.patches()) {
        if (ColorDifference.de76(other.aim().lab(), pair.reading().lab()) < MISREAD_TO) {
          findings.add(
              Finding.warning(
                  "reading-fits-another-patch",
                  String.format(
                      Locale.ROOT,
                      "%s:%d: the reading of %s differs from its aim by ΔE*ab %.1f, but fits %s;"
                          + " check that it was not misread",
                      measurement.source(),
                      pair.reading().line(),
                      pair.patch().id(),
                      pair.distance(),
                      other.id())));
          break;
        }
      }
    }
  }
}
