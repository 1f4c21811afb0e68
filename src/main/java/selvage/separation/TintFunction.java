package selvage.separation;

import java.io.IOException;

/**
 * A function of ISO 32000-2, 7.10, made ready to be evaluated many times. Not to be shared between
 * threads.
 */
interface TintFunction {
  /**
   * Evaluates the function.
   *
   * @param in its inputs; values outside the domain count as the nearest limit
   * @param out takes its outputs, as many as there is room for; further elements stay as they are
   * @throws IOException where it can't be evaluated
   */
  void eval(float[] in, float[] out) throws IOException;
}
