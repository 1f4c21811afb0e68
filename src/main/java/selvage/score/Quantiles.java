package selvage.score;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.commons.math3.distribution.FDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * Quantiles that fits ask for again and again: each costs a search, and there are few degrees of
 * freedom to ask for. Safe for use by several threads.
 */
final class Quantiles {
  /** Of the F test that a cause must pass: a dozen and more are tried. */
  private static final double F_LEVEL = 0.002;

  /** Of a patch that is called odd: it is one of dozens. */
  private static final double ODD_LEVEL = 1e-4;

  /** Of confidence intervals, on one side. */
  private static final double T_LEVEL = 0.025;

  private record Degrees(int more, int free) {}

  private final Map<Degrees, Double> ofF = new ConcurrentHashMap<>();
  private final Map<Integer, Double> ofOdd = new ConcurrentHashMap<>();
  private final Map<Integer, Double> ofT = new ConcurrentHashMap<>();

  /** What F exceeds by chance in 0.2 % of cases, with these degrees of freedom, 1 or more. */
  double f(int more, int free) {
    return ofF.computeIfAbsent(
        new Degrees(more, free),
        key -> new FDistribution(null, more, free).inverseCumulativeProbability(1 - F_LEVEL));
  }

  /**
   * What F of a patch's three numbers exceeds by chance in 0.01 % of cases.
   *
   * @param free degrees of freedom of the others, 1 or more
   */
  double odd(int free) {
    return ofOdd.computeIfAbsent(
        free, key -> new FDistribution(null, 3, free).inverseCumulativeProbability(1 - ODD_LEVEL));
  }

  /** What Student's t exceeds by chance in 2.5 % of cases, with these degrees of freedom. */
  double t(int free) {
    return ofT.computeIfAbsent(
        free, key -> new TDistribution(null, free).inverseCumulativeProbability(1 - T_LEVEL));
  }
}
