package selvage.separation;

/**
 * The states of colours that are rounded first, to half steps of eight bits, so that a smooth
 * change makes no more mixtures than anyone can tell apart and each is worked out once.
 */
final class LatticeStates {
  private static final int STEPS = 510;
  private static final int KEY_BITS = 10;
  private static final int MOST_KEYED = 6;

  private final ColorStates states;
  private final float[] range;
  private final double[] stepsPerUnit;
  private final int[] steps;
  private final float[] rounded;
  private final Memo memo = new Memo();
  private long lastKey = -1;
  private int lastState;

  /**
   * States of a space's colours.
   *
   * @param range least and greatest value a component
   */
  LatticeStates(ColorStates states, float[] range) {
    this.states = states;
    this.range = range;
    int components = states.space().components();
    stepsPerUnit = new double[components];
    steps = new int[components];
    rounded = new float[components];
    for (int i = 0; i < components; i++) {
      double span = range[2 * i + 1] - range[2 * i];
      stepsPerUnit[i] = span == 0 ? 0 : STEPS / span;
    }
  }

  /** The state of a colour; values outside the range count as the nearest limit. */
  int of(float[] color) {
    long key = 0;
    for (int i = 0; i < steps.length; i++) {
      double place = (color[i] - range[2 * i]) * stepsPerUnit[i];
      int step = place > 0 ? (int) (Math.min(STEPS, place) + 0.5) : 0;
      key = key << KEY_BITS | step;
      steps[i] = step;
    }
    if (steps.length > MOST_KEYED) {
      return states.of(rounded());
    }
    if (key != lastKey) {
      int known = memo.get(key);
      if (known == Memo.ABSENT) {
        known = states.ofNew(rounded());
        memo.put(key, known);
      }
      lastKey = key;
      lastState = known;
    }
    return lastState;
  }

  private float[] rounded() {
    for (int i = 0; i < steps.length; i++) {
      double span = range[2 * i + 1] - range[2 * i];
      rounded[i] = (float) (range[2 * i] + span * steps[i] / STEPS);
    }
    return rounded;
  }
}
