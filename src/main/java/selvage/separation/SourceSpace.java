package selvage.separation;

/** A colour space of the page, seen as ink: what its colours put on each plane. */
abstract class SourceSpace {
  private final int components;
  private final Reach reach;

  SourceSpace(int components, Reach reach) {
    this.components = components;
    this.reach = reach;
  }

  /** The number of components of a colour; 0 for a pattern without an underlying space. */
  final int components() {
    return components;
  }

  final Reach reach() {
    return reach;
  }

  /** The colour that a stream starts with after choosing the space. */
  float[] initialColor() {
    return new float[components];
  }

  /**
   * What the samples of an image stand for when it has no Decode array.
   *
   * @param bits bits a component
   * @return least and greatest value a component
   */
  float[] defaultDecode(int bits) {
    float[] decode = new float[2 * components];
    for (int i = 0; i < components; i++) {
      decode[2 * i + 1] = 1;
    }
    return decode;
  }

  /**
   * Writes a colour's tints into a state row, whose colorant slots are all zero before.
   *
   * @param color at least {@link #components} values, in the space's own ranges; values outside are
   *     clipped
   * @param row a row of the page's {@link StateTable}
   */
  abstract void ink(float[] color, char[] row);

  /** As {@link #ink}, for images and shadings: quick, and as exact as eight bits are. */
  void inkOfMany(float[] color, char[] row) {
    ink(color, row);
  }

  /**
   * Writes a colour as additive device RGB, where the space can say it without going through ink.
   *
   * @param rgb takes three values from 0 to 1
   * @return false where it can't
   */
  boolean rgb(float[] color, float[] rgb) {
    return false;
  }
}
