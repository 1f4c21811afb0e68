package selvage.cli;

/**
 * CIEDE2000 written once more from its publication, step by step, without the program's classes.
 */
final class IndependentDifference {
  private IndependentDifference() {}

  /** Sharma, Wu, Dalal: Color Research and Application 30(1), 2005, equations 2 to 22. */
  static double de00(double[] one, double[] two) {
    double meanC = (Math.hypot(one[1], one[2]) + Math.hypot(two[1], two[2])) / 2;
    double g = 0.5 * (1 - Math.sqrt(Math.pow(meanC, 7) / (Math.pow(meanC, 7) + Math.pow(25, 7))));
    double a1 = (1 + g) * one[1];
    double a2 = (1 + g) * two[1];
    double c1 = Math.hypot(a1, one[2]);
    double c2 = Math.hypot(a2, two[2]);
    double h1 = hue(a1, one[2]);
    double h2 = hue(a2, two[2]);
    double dh = c1 * c2 == 0 ? 0 : h2 - h1;
    dh = dh > 180 ? dh - 360 : dh < -180 ? dh + 360 : dh;
    double dbigH = 2 * Math.sqrt(c1 * c2) * Math.sin(Math.toRadians(dh / 2));
    double l = (one[0] + two[0]) / 2;
    double c = (c1 + c2) / 2;
    double h = h1 + h2;
    if (c1 * c2 != 0) {
      boolean apart = Math.abs(h1 - h2) > 180;
      h = !apart ? h / 2 : h < 360 ? (h + 360) / 2 : (h - 360) / 2;
    }
    double t =
        1
            - 0.17 * Math.cos(Math.toRadians(h - 30))
            + 0.24 * Math.cos(Math.toRadians(2 * h))
            + 0.32 * Math.cos(Math.toRadians(3 * h + 6))
            - 0.20 * Math.cos(Math.toRadians(4 * h - 63));
    double rotation =
        -Math.sin(Math.toRadians(60 * Math.exp(-Math.pow((h - 275) / 25, 2))))
            * 2
            * Math.sqrt(Math.pow(c, 7) / (Math.pow(c, 7) + Math.pow(25, 7)));
    double sl = 1 + 0.015 * (l - 50) * (l - 50) / Math.sqrt(20 + (l - 50) * (l - 50));
    double sc = 1 + 0.045 * c;
    double sh = 1 + 0.015 * c * t;
    double x = (two[0] - one[0]) / sl;
    double y = (c2 - c1) / sc;
    double z = dbigH / sh;
    return Math.sqrt(x * x + y * y + z * z + rotation * y * z);
  }

  private static double hue(double a, double b) {
    double degrees = Math.toDegrees(Math.atan2(b, a));
    return degrees < 0 ? degrees + 360 : degrees;
  }
}
