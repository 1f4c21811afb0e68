package selvage.separation;

import java.io.IOException;
import java.util.Arrays;

/** The states along a one-parameter shading, worked out once for each of many steps. */
final class ParametricStates {
  private static final int STEPS = 2048;
  private static final int UNKNOWN = -2;

  private final ShadingFunctions functions;
  private final ColorStates states;
  private final float low;
  private final float high;
  private final int[] known = new int[STEPS + 1];

  /**
   * States over a domain.
   *
   * @param low the parameter at 0, and {@code high} at 1
   */
  ParametricStates(ShadingFunctions functions, ColorStates states, float low, float high) {
    this.functions = functions;
    this.states = states;
    this.low = low;
    this.high = high;
    Arrays.fill(known, UNKNOWN);
  }

  /** The state at a position from 0 to 1; {@link RowSource#NONE} where the function fails. */
  int at(double position) {
    int step = (int) (Math.max(0, Math.min(1, position)) * STEPS + 0.5);
    if (known[step] == UNKNOWN) {
      try {
        known[step] = states.of(functions.eval(low + (high - low) * step / STEPS));
      } catch (IOException | RuntimeException e) {
        known[step] = RowSource.NONE;
      }
    }
    return known[step];
  }
}
