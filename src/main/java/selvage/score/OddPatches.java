package selvage.score;

import java.util.ArrayList;
import java.util.List;

/**
 * Chooses causes by the patches that agree, and finds those that do not: a patch that was misread
 * pulls at every cause, and hides those that are there. All causes together say what a patch should
 * be, so that what is off for a cause of its own, as a spot ink or a hue, is not taken for misread.
 */
final class OddPatches {
  /** A patch is never called odd for less, in ΔE*ab. */
  private static final double LEAST = 2.0;

  /** The part of the patches that may be left out; where more are odd, none is. */
  private static final double MOST = 0.1;

  /**
   * Causes and the patches that speak against them.
   *
   * @param result without these patches
   * @param rows rising
   */
  record Found(CauseFitResult result, List<Integer> rows) {}

  private final CauseFit fit;
  private final double[] weights; // the fit's own: 0 leaves a patch out
  private final int most;
  private final List<Integer> out = new ArrayList<>();

  /**
   * For a fit.
   *
   * @param weights that the fit goes by, all 1; changed here
   */
  OddPatches(CauseFit fit, double[] weights) {
    this.fit = fit;
    this.weights = weights;
    this.most = (int) (MOST * weights.length);
  }

  /** Fits. */
  Found find() {
    double[] everything = fit.everything();
    double[] at = everything;
    int odd = fit.deletion(at).oddest(LEAST);
    while (odd >= 0 && out.size() < most) {
      leaveOut(odd);
      at = fit.everything(at);
      odd = fit.deletion(at).oddest(LEAST);
    }
    if (odd >= 0) {
      return new Found(fitAll(everything), List.of());
    }
    at = confirmed(at);
    CauseFitResult result = fit.fit(at);
    while ((odd = fit.deletion(result).oddest(LEAST)) >= 0) {
      if (out.size() == most) {
        return new Found(fitAll(everything), List.of());
      }
      leaveOut(odd);
      result = fit.fit(fit.everything(at));
    }
    return new Found(result, out.stream().sorted().toList());
  }

  private void leaveOut(int row) {
    weights[row] = 0;
    out.add(row);
  }

  private CauseFitResult fitAll(double[] everything) {
    out.forEach(row -> weights[row] = 1);
    return fit.fit(everything);
  }

  /** Takes back those that are not odd beside all others; returns the fit of what is in. */
  private double[] confirmed(double[] at) {
    double[] now = at;
    for (int row : List.copyOf(out)) {
      weights[row] = 1;
      double[] with = fit.everything(now);
      if (fit.deletion(with).isOdd(row, LEAST)) {
        weights[row] = 0;
      } else {
        out.remove(Integer.valueOf(row));
        now = with;
      }
    }
    return now;
  }
}
