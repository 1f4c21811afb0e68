package selvage.color;

import selvage.finding.InputException;

/**
 * Gray or RGB by a tone curve and a matrix to XYZ, adapted to D50. The rows of the matrix are
 * scaled so that full RGB is exactly white.
 */
final class CalibratedColor implements SourceColor {
  /** sRGB's primaries and D65 (IEC 61966-2-1), x and y of red, green, blue, white [srgb]. */
  private static final double[] SRGB_XY = {0.64, 0.33, 0.30, 0.60, 0.15, 0.06, 0.3127, 0.3290};

  /** The Bradford cone responses (ICC.1:2022, annex E) [icc1]. */
  private static final double[][] BRADFORD = {
    {0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}
  };

  private final double[][] matrix; // to X/Xn, Y/Yn, Z/Zn; null for gray
  private final double[] gamma; // null for the curve of sRGB

  private CalibratedColor(double[][] matrix, double[] gamma) {
    this.matrix = matrix;
    this.gamma = gamma;
  }

  static CalibratedColor srgb() {
    return new CalibratedColor(srgbToRatios(), null);
  }

  /** From linear sRGB to X/Xn, Y/Yn, Z/Zn, adapted to D50; each row sums to 1. */
  static double[][] srgbToRatios() {
    double[][] primaries = new double[3][3];
    for (int i = 0; i < 3; i++) {
      double[] xyz = xyzOf(SRGB_XY[2 * i], SRGB_XY[2 * i + 1]);
      for (int row = 0; row < 3; row++) {
        primaries[row][i] = xyz[row];
      }
    }
    double[] white = xyzOf(SRGB_XY[6], SRGB_XY[7]);
    double[] shares = Matrix3.apply(Matrix3.inverse(primaries), white);
    for (double[] row : primaries) {
      for (int i = 0; i < 3; i++) {
        row[i] *= shares[i];
      }
    }
    return adapted(primaries, white);
  }

  static CalibratedColor gray(double gamma) {
    return new CalibratedColor(null, new double[] {gamma > 0 ? gamma : 1});
  }

  static CalibratedColor rgb(double[] whitePoint, double[] gamma, double[] matrix)
      throws InputException {
    double[][] rows = new double[3][3];
    boolean sound = whitePoint.length == 3 && gamma.length == 3 && matrix.length == 9;
    for (int i = 0; i < 9 && sound; i++) {
      rows[i % 3][i / 3] = matrix[i];
      sound = Double.isFinite(matrix[i]);
    }
    for (int i = 0; i < 3 && sound; i++) {
      sound = whitePoint[i] > 0.01 && whitePoint[i] < 10 && gamma[i] > 0 && gamma[i] < 100;
      sound &= rows[i][0] + rows[i][1] + rows[i][2] > 0.01;
    }
    if (!sound) {
      throw InputException.of(
          "CalRGB colour space",
          "expected a white point, three positive exponents and a matrix whose rows add up to the"
              + " white, found other numbers");
    }
    return new CalibratedColor(adapted(rows, whitePoint), gamma.clone());
  }

  @Override
  public int components() {
    return matrix == null ? 1 : 3;
  }

  @Override
  public double[] relativeLab(double... values) {
    if (matrix == null) {
      return new double[] {116 * ReferenceWhite.f(linear(values[0], 0)) - 16, 0, 0};
    }
    double r = linear(values[0], 0);
    double g = linear(values[1], 1);
    double b = linear(values[2], 2);
    double[] f = new double[3];
    for (int i = 0; i < 3; i++) {
      double ratio = matrix[i][0] * r + matrix[i][1] * g + matrix[i][2] * b;
      f[i] = ReferenceWhite.f(Math.max(0, ratio));
    }
    return new double[] {116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])};
  }

  private double linear(double value, int component) {
    double v = value > 0 ? Math.min(1, value) : 0;
    if (gamma != null) {
      return gamma[component] == 1 ? v : StrictMath.pow(v, gamma[component]);
    }
    return srgbLinear(v);
  }

  /** The linear light of a coded value, both 0 to 1 (IEC 61966-2-1) [srgb]. */
  static double srgbLinear(double coded) {
    return coded <= 0.04045 ? coded / 12.92 : StrictMath.pow((coded + 0.055) / 1.055, 2.4);
  }

  private static double[] xyzOf(double x, double y) {
    return new double[] {x / y, 1, (1 - x - y) / y};
  }

  /** A matrix to XYZ of a white, to ratios of XYZ over D50 instead; each row sums to 1. */
  private static double[][] adapted(double[][] toXyz, double[] white) {
    Xyz d50 = ReferenceWhite.ICC_PCS.xyz();
    double[] from = Matrix3.apply(BRADFORD, white);
    double[] to =
        Matrix3.apply(BRADFORD, new double[] {d50.x() / 100, d50.y() / 100, d50.z() / 100});
    double[][] cones = Matrix3.product(BRADFORD, toXyz);
    for (int row = 0; row < 3; row++) {
      for (int i = 0; i < 3; i++) {
        cones[row][i] *= to[row] / from[row];
      }
    }
    double[][] result = Matrix3.product(Matrix3.inverse(BRADFORD), cones);
    for (double[] row : result) {
      double sum = row[0] + row[1] + row[2];
      for (int i = 0; i < 3; i++) {
        row[i] /= sum;
      }
      row[2] = 1 - row[0] - row[1];
    }
    return result;
  }
}
