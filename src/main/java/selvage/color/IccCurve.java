package selvage.color;

import selvage.finding.InputException;

/** A one-dimensional curve of an ICC profile, from 0..1 to 0..1: a table or a formula. */
final class IccCurve {
  private static final int MOST_ENTRIES = 65536;

  /** The numbers of parameters of the formula types 0 to 4 (ICC.1:2022, 10.18) [icc1]. */
  private static final int[] PARAMETERS = {1, 3, 4, 5, 7};

  private final double[] table; // null for a formula
  private final int type;
  private final double[] parameters;
  private final int length; // bytes in the profile

  IccCurve(double[] table, int type, double[] parameters, int length) {
    this.table = table;
    this.type = type;
    this.parameters = parameters;
    this.length = length;
  }

  /** A curve of table values from 0 to 1, evenly spaced; at least two. */
  static IccCurve ofTable(double[] table) {
    return new IccCurve(table, 0, null, 0);
  }

  /** y = x to the power of gamma. */
  static IccCurve ofGamma(double gamma) {
    return new IccCurve(null, 0, new double[] {gamma}, 0);
  }

  /**
   * Reads a curve of type {@code curv} or {@code para}.
   *
   * @throws InputException where there is none or it runs past the profile's end
   */
  static IccCurve read(IccProfile profile, int at) throws InputException {
    profile.require(at, 12, "a curve");
    return switch (profile.signature(at)) {
      case "curv" -> readTable(profile, at);
      case "para" -> readFormula(profile, at);
      default ->
          throw profile.broken(
              "expected a curve at byte " + at + ", found \"" + profile.signature(at) + "\"");
    };
  }

  private static IccCurve readTable(IccProfile profile, int at) throws InputException {
    long count = profile.u32(at + 8);
    if (count > MOST_ENTRIES) {
      throw profile.broken(
          "expected a curve of at most " + MOST_ENTRIES + " entries, found " + count);
    }
    profile.require(at + 12, 2 * count, "a curve's entries");
    int bytes = 12 + 2 * (int) count;
    if (count == 0) {
      return new IccCurve(null, 0, new double[] {1}, bytes);
    }
    if (count == 1) {
      return new IccCurve(null, 0, new double[] {profile.u16(at + 12) / 256.0}, bytes);
    }
    double[] table = new double[(int) count];
    for (int i = 0; i < count; i++) {
      table[i] = profile.u16(at + 12 + 2 * i) / 65535.0;
    }
    return new IccCurve(table, 0, null, bytes);
  }

  private static IccCurve readFormula(IccProfile profile, int at) throws InputException {
    int type = profile.u16(at + 8);
    if (type >= PARAMETERS.length) {
      throw profile.broken("expected a curve formula of type 0 to 4, found " + type);
    }
    int count = PARAMETERS[type];
    profile.require(at + 12, 4L * count, "a curve's parameters");
    double[] parameters = new double[7];
    for (int i = 0; i < count; i++) {
      parameters[i] = profile.fixed(at + 12 + 4 * i);
    }
    return new IccCurve(null, type, parameters, 12 + 4 * count);
  }

  /** The bytes that the curve takes in the profile, rounded up to four. */
  int paddedLength() {
    return (length + 3) & ~3;
  }

  /** The curve's value, kept within 0 to 1. */
  double at(double x) {
    double y;
    if (table != null) {
      double place = Math.min(1, Math.max(0, x)) * (table.length - 1);
      int below = Math.min((int) place, table.length - 2);
      y = table[below] + (place - below) * (table[below + 1] - table[below]);
    } else {
      y = formula(Math.min(1, Math.max(0, x)));
    }
    return y >= 0 ? Math.min(1, y) : 0; // also for what is no number
  }

  private double formula(double x) {
    double[] p = parameters;
    double gamma = p[0];
    if (type == 0) {
      return gamma == 1 ? x : StrictMath.pow(x, gamma);
    }
    double a = p[1];
    double b = p[2];
    return switch (type) {
      case 1 -> a * x + b >= 0 ? StrictMath.pow(a * x + b, gamma) : 0;
      case 2 -> (a * x + b >= 0 ? StrictMath.pow(a * x + b, gamma) : 0) + p[3];
      case 3 -> x >= p[4] ? StrictMath.pow(a * x + b, gamma) : p[3] * x;
      default -> x >= p[4] ? StrictMath.pow(a * x + b, gamma) + p[5] : p[3] * x + p[6];
    };
  }
}
