package selvage.color;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * What to send to a device instead of what a job asks for, so that it prints what was meant: a
 * curve an ink, and whole mixtures of their own where curves do not reach.
 *
 * @param curves one an ink at most; an ink without a curve stays as it is
 * @param recipes mixtures replaced as a whole, in their order; they come before the curves
 * @param inkLimitPercent the most total ink that a corrected mixture may have where the job's own
 *     has less; 100 to 400
 */
public record Correction(
    List<Curve> curves, Map<InkMixture, InkMixture> recipes, double inkLimitPercent) {
  private static final int PROCESS_INKS = 4;

  /**
   * The curve of an ink.
   *
   * @param ink the ink
   * @param points by rising tint, the first at 0 and without ink, the last at 100; straight lines
   *     between
   */
  public record Curve(Colorant ink, List<Point> points) {
    public Curve {
      Objects.requireNonNull(ink, "ink");
      points = List.copyOf(points);
      int last = points.size() - 1;
      if (last < 1 || points.get(0).tintPercent() != 0 || points.get(last).tintPercent() != 100) {
        throw new IllegalArgumentException(ink.name() + ": a curve goes from 0 to 100 %");
      }
      for (int i = 1; i <= last; i++) {
        if (!(points.get(i).tintPercent() > points.get(i - 1).tintPercent())) {
          throw new IllegalArgumentException(
              ink.name() + ": the tints of a curve rise, " + points.get(i).tintPercent());
        }
      }
      if (!points.get(0).isBlank()) {
        throw new IllegalArgumentException(ink.name() + ": a tint of 0 % stays without ink");
      }
    }
  }

  /**
   * A point of a curve.
   *
   * @param tintPercent asked for
   * @param correctedPercent of the same ink to send
   * @param addedPercent of C, M, Y, K to send with it
   */
  public record Point(double tintPercent, double correctedPercent, List<Double> addedPercent) {
    public Point {
      addedPercent = List.copyOf(addedPercent);
      if (addedPercent.size() != PROCESS_INKS) {
        throw new IllegalArgumentException("expected C, M, Y, K, found " + addedPercent);
      }
      requireTint(tintPercent);
      requireTint(correctedPercent);
      addedPercent.forEach(Point::requireTint);
    }

    private static void requireTint(double percent) {
      if (!(percent >= 0 && percent <= 100)) {
        throw new IllegalArgumentException("a tint of " + percent + " %; expected 0 to 100");
      }
    }

    boolean isBlank() {
      return correctedPercent == 0 && addedPercent.stream().allMatch(added -> added == 0);
    }
  }

  public Correction {
    curves = List.copyOf(curves);
    recipes = Collections.unmodifiableMap(new LinkedHashMap<>(recipes));
    if (!(inkLimitPercent >= 100 && inkLimitPercent <= 400)) {
      throw new IllegalArgumentException(
          "an ink limit of " + inkLimitPercent + " %; expected 100 to 400");
    }
    if (curves.stream().map(Curve::ink).distinct().count() != curves.size()) {
      throw new IllegalArgumentException("two curves of one ink");
    }
  }

  /** What to send for a mixture. */
  public InkMixture of(InkMixture mixture) {
    InkMixture recipe = recipes.get(mixture);
    return recipe != null ? recipe : byCurves(mixture);
  }

  /** What the curves alone would send for a mixture. */
  public InkMixture byCurves(InkMixture mixture) {
    Map<Colorant, Double> percents = new TreeMap<>();
    mixture.units().forEach((ink, units) -> add(percents, ink, units * (100.0 / Tint.FULL)));
    return limited(percents, Math.max(inkLimitPercent, mixture.totalPercent()));
  }

  private void add(Map<Colorant, Double> percents, Colorant ink, double percent) {
    Curve curve = null;
    for (Curve one : curves) {
      curve = one.ink().equals(ink) ? one : curve;
    }
    if (curve == null) {
      percents.merge(ink, percent, Double::sum);
      return;
    }
    List<Point> points = curve.points();
    int above = 1;
    while (above < points.size() - 1 && points.get(above).tintPercent() < percent) {
      above++;
    }
    Point low = points.get(above - 1);
    Point high = points.get(above);
    double share = (percent - low.tintPercent()) / (high.tintPercent() - low.tintPercent());
    percents.merge(
        ink, between(low.correctedPercent(), high.correctedPercent(), share), Double::sum);
    for (int i = 0; i < PROCESS_INKS; i++) {
      double added = between(low.addedPercent().get(i), high.addedPercent().get(i), share);
      if (added > 0) {
        percents.merge(Colorant.PROCESS.get(i), added, Double::sum);
      }
    }
  }

  private static double between(double low, double high, double share) {
    return low + share * (high - low);
  }

  /** A mixture of tints, clipped at 100 %, scaled down where they sum to more than a limit. */
  public static InkMixture limited(Map<Colorant, Double> percents, double limitPercent) {
    double sum = 0;
    for (double percent : percents.values()) {
      sum += Math.min(100, percent);
    }
    double scale = sum > limitPercent ? limitPercent / sum : 1;
    Map<Colorant, Integer> units = new TreeMap<>();
    percents.forEach(
        (ink, percent) -> units.put(ink, Tint.ofPercent(scale * Math.min(100, percent))));
    return InkMixture.ofUnits(units);
  }
}
