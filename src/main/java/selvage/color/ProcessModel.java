package selvage.color;

/**
 * The colour of process tints, relative to the paper. Implementations are immutable; each thread
 * brings its own scratch room.
 */
interface ProcessModel {
  /** Room for intermediate values; not to be shared between threads. */
  double[] scratch();

  /**
   * The colour of process tints, media-relative: paper is 100, 0, 0.
   *
   * @param cmyk C, M, Y, K as fractions 0 to 1
   * @param scratch from {@link #scratch}
   * @param lab takes L*, a*, b*
   */
  void relativeLab(double[] cmyk, double[] scratch, double[] lab);
}
