package selvage.separation;

import java.util.Objects;

/**
 * A channel of an image that is one ink.
 *
 * @param name of the colorant
 * @param sample which of a pixel's samples it is, from 0
 * @param none the sample value of no ink, as a fraction of the greatest
 * @param solid the sample value of the solid
 * @param color the solid's colour
 */
record InkChannel(String name, int sample, double none, double solid, InkColor color) {
  InkChannel {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(color, "color");
    if (none == solid) {
      throw new IllegalArgumentException("no ink and solid are the same value");
    }
  }

  /** The tint that a sample of 0 stands for; may lie outside 0 to 1. */
  float low() {
    return (float) (-none / (solid - none));
  }

  /** The tint that the greatest sample stands for. */
  float high() {
    return (float) ((1 - none) / (solid - none));
  }
}
