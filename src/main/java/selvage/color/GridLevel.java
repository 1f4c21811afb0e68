package selvage.color;

/**
 * The C × M × Y grid of one tint of black, ready for trilinear interpolation of roots (the square
 * roots of X/Xn, Y/Yn, Z/Zn). Immutable.
 */
final class GridLevel {
  private final double black;
  private final ToneCurve[] curves;
  private final int[] sizes;
  private final double[] roots; // C slowest, three values a point

  /**
   * Takes the arrays as they are.
   *
   * @param black tint in percent
   * @param curves of C, M, Y
   * @param sizes points along C, M, Y, each at least 2
   * @param roots three values a grid point, C slowest, Y fastest
   */
  GridLevel(double black, ToneCurve[] curves, int[] sizes, double[] roots) {
    if (roots.length != 3 * sizes[0] * sizes[1] * sizes[2]) {
      throw new IllegalArgumentException("grid of " + roots.length + " values");
    }
    this.black = black;
    this.curves = curves;
    this.sizes = sizes;
    this.roots = roots;
  }

  double black() {
    return black;
  }

  /** The least number of points along an axis. */
  int coarsest() {
    return Math.min(sizes[0], Math.min(sizes[1], sizes[2]));
  }

  /** Roots at a tint; the three values go to {@code out} from {@code at}. */
  void interpolate(double c, double m, double y, double[] out, int at) {
    double pc = position(0, c);
    double pm = position(1, m);
    double py = position(2, y);
    int ic = cell(pc, 0);
    int im = cell(pm, 1);
    int iy = cell(py, 2);
    double tc = pc - ic;
    double tm = pm - im;
    double ty = py - iy;
    int stepM = 3 * sizes[2];
    int stepC = stepM * sizes[1];
    int base = ic * stepC + im * stepM + 3 * iy;
    double w11 = tc * tm;
    double w10 = tc - w11;
    double w01 = tm - w11;
    double w00 = 1 - tc - w01;
    for (int i = 0; i < 3; i++) {
      int p = base + i;
      double near =
          w00 * roots[p]
              + w01 * roots[p + stepM]
              + w10 * roots[p + stepC]
              + w11 * roots[p + stepC + stepM];
      p += 3;
      double far =
          w00 * roots[p]
              + w01 * roots[p + stepM]
              + w10 * roots[p + stepC]
              + w11 * roots[p + stepC + stepM];
      out[at + i] = near + ty * (far - near);
    }
  }

  private double position(int axis, double percent) {
    ToneCurve curve = curves[axis];
    return curve.position(curve.segment(percent), percent);
  }

  private int cell(double position, int axis) {
    return Math.min((int) position, sizes[axis] - 2);
  }
}
