package selvage.score;

import org.apache.commons.math3.fitting.leastsquares.ValueAndJacobianFunction;
import org.apache.commons.math3.linear.RealMatrix;
import org.apache.commons.math3.linear.RealVector;
import org.apache.commons.math3.util.Pair;

/** A model whose values and slopes are each worked out by themselves, when they are asked for. */
interface PointModel extends ValueAndJacobianFunction {
  @Override
  default Pair<RealVector, RealMatrix> value(RealVector point) {
    double[] at = point.toArray();
    return new Pair<>(computeValue(at), computeJacobian(at));
  }
}
