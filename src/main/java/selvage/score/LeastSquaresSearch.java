package selvage.score;

import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.fitting.leastsquares.ParameterValidator;
import org.apache.commons.math3.fitting.leastsquares.ValueAndJacobianFunction;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;

/**
 * Non-linear least squares (Levenberg and Marquardt [marquardt1963]) that gives the best point it
 * came to. Where steps run out before the search is done, as they do along an edge where a tint is
 * held at 0 or 100 %, that is not where it began.
 *
 * @param costTolerance relative change of the misfit at which a search is done
 * @param pointTolerance the same of the point
 * @param evaluations how often the model may be asked
 * @param iterations how many steps may be taken
 */
record LeastSquaresSearch(
    double costTolerance, double pointTolerance, int evaluations, int iterations) {

  /** Searches from a point, everywhere. */
  double[] from(double[] start, double[] target, ValueAndJacobianFunction model) {
    return from(start, target, model, point -> point);
  }

  /**
   * Searches.
   *
   * @param start where to begin
   * @param target what the model should give
   * @param within moves a point to where it is allowed
   */
  double[] from(
      double[] start, double[] target, ValueAndJacobianFunction model, ParameterValidator within) {
    Remembered remembered = new Remembered(model, target, start);
    try {
      return new LevenbergMarquardtOptimizer()
          .withCostRelativeTolerance(costTolerance)
          .withParameterRelativeTolerance(pointTolerance)
          .optimize(
              new LeastSquaresBuilder()
                  .start(start)
                  .target(target)
                  .model(remembered)
                  .lazyEvaluation(true)
                  .maxEvaluations(evaluations)
                  .maxIterations(iterations)
                  .parameterValidator(within)
                  .build())
          .getPoint()
          .toArray();
    } catch (MathIllegalStateException e) {
      return remembered.best;
    }
  }

  /** A model that keeps the point where it came nearest to the target. */
  private static final class Remembered implements PointModel {
    private final ValueAndJacobianFunction model;
    private final double[] target;
    private double least = Double.POSITIVE_INFINITY;
    private double[] best;

    Remembered(ValueAndJacobianFunction model, double[] target, double[] start) {
      this.model = model;
      this.target = target;
      this.best = start;
    }

    @Override
    public RealVector computeValue(double[] at) {
      RealVector value = model.computeValue(at);
      double sum = 0;
      for (int i = 0; i < target.length; i++) {
        double left = target[i] - value.getEntry(i);
        sum += left * left;
      }
      if (sum < least) {
        least = sum;
        best = at.clone();
      }
      return value;
    }

    @Override
    public RealMatrix computeJacobian(double[] at) {
      return model.computeJacobian(at);
    }
  }
}
