package selvage.color;

import java.util.function.UnaryOperator;

/** ICC profiles of invented devices. */
final class TestProfiles {
  private static final double[] PAPER = {0.86, 0.88, 0.70};

  private TestProfiles() {}

  /** A CMYK output profile of version 2 with 16-bit tables both ways. */
  static byte[] cmykVersion2() {
    return cmyk(2, 2)
        .tag("A2B1", IccWriter.table(2, 4, 3, 9, ink(IccEncoding.LAB_LEGACY)))
        .tag("B2A1", IccWriter.table(2, 3, 4, 17, separation(IccEncoding.LAB_LEGACY)))
        .bytes();
  }

  /** The same with 8-bit tables. */
  static byte[] cmykEightBit() {
    return cmyk(2, 1)
        .tag("A2B1", IccWriter.table(1, 4, 3, 7, ink(IccEncoding.LAB)))
        .tag("B2A1", IccWriter.table(1, 3, 4, 9, separation(IccEncoding.LAB)))
        .bytes();
  }

  /** A CMYK output profile of version 4 with an {@code mAB } table. */
  static byte[] cmykVersion4() {
    return cmyk(4, 2).tag("A2B1", IccWriter.modernTable(4, 7, ink(IccEncoding.LAB))).bytes();
  }

  /** A CMYK output profile that has only perceptual tables, through XYZ. */
  static byte[] cmykPerceptualOnly() {
    return new IccWriter(2, "prtr", "CMYK", "XYZ ")
        .tag("wtpt", IccWriter.xyz(PAPER[0], PAPER[1], PAPER[2]))
        .tag("A2B0", IccWriter.table(2, 4, 3, 9, ink(IccEncoding.XYZ)))
        .bytes();
  }

  /** An RGB monitor profile by curves and matrix, version 2 or 4. */
  static byte[] rgb(int version) {
    byte[] curve =
        version == 2
            ? IccWriter.gamma(2.2)
            : IccWriter.formula(3, 2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045);
    return new IccWriter(version, "mntr", "RGB ", "XYZ ")
        .tag("desc", IccWriter.description("invented monitor"))
        .tag("wtpt", IccWriter.xyz(0.9642, 1, 0.8249))
        .tag("rXYZ", IccWriter.xyz(0.6097, 0.3111, 0.0195))
        .tag("gXYZ", IccWriter.xyz(0.2053, 0.6257, 0.0609))
        .tag("bXYZ", IccWriter.xyz(0.1492, 0.0632, 0.7445))
        .tag("rTRC", curve)
        .tag("gTRC", curve)
        .tag("bTRC", curve)
        .bytes();
  }

  /** An RGB printer profile by a table, whose black is far from L* 0. */
  static byte[] rgbTable() {
    return new IccWriter(2, "prtr", "RGB ", "Lab ")
        .tag("wtpt", IccWriter.xyz(PAPER[0], PAPER[1], PAPER[2]))
        .tag(
            "A2B0",
            IccWriter.table(
                2,
                3,
                3,
                17,
                rgb -> {
                  double[] lab = new double[3];
                  double y = 0.3 * rgb[0] + 0.6 * rgb[1] + 0.1 * rgb[2];
                  IccEncoding.LAB_LEGACY.encode(
                      20 + 80 * Math.sqrt(y), 60 * (rgb[0] - rgb[1]), 50 * (rgb[1] - rgb[2]), lab);
                  return lab;
                }))
        .bytes();
  }

  /** A gray profile of one curve. */
  static byte[] gray(String connectionSpace) {
    return new IccWriter(2, "mntr", "GRAY", connectionSpace)
        .tag("wtpt", IccWriter.xyz(0.9642, 1, 0.8249))
        .tag("kTRC", IccWriter.gamma(1.8))
        .bytes();
  }

  private static IccWriter cmyk(int version, int width) {
    return new IccWriter(version, "prtr", "CMYK", "Lab ")
        .tag("desc", IccWriter.description("invented press " + width))
        .tag("wtpt", IccWriter.xyz(PAPER[0], PAPER[1], PAPER[2]));
  }

  /** Inks that each take their part of the light, as an encoded media-relative colour. */
  private static UnaryOperator<double[]> ink(IccEncoding encoding) {
    double[][] passes = {
      {0.25, 0.35, 0.70}, {0.45, 0.22, 0.25}, {0.95, 0.92, 0.12}, {0.02, 0.02, 0.02}
    };
    return cmyk -> {
      Xyz white = ReferenceWhite.ICC_PCS.xyz();
      double[] xyz = {white.x(), white.y(), white.z()};
      for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 3; j++) {
          xyz[j] *= 1 - cmyk[i] * (1 - passes[i][j]);
        }
      }
      Lab lab = ReferenceWhite.ICC_PCS.toLab(new Xyz(xyz[0], xyz[1], xyz[2]));
      double[] channels = new double[3];
      encoding.encode(lab.l(), lab.a(), lab.b(), channels);
      return channels;
    };
  }

  /** A coarse separation; white leaves a trace of ink, as some profiles do. */
  private static UnaryOperator<double[]> separation(IccEncoding encoding) {
    return channels -> {
      double[] lab = new double[3];
      encoding.decode(channels, lab);
      double dark = Math.min(1, Math.max(0, 1 - lab[0] / 100));
      return new double[] {
        dark - lab[1] / 250 + 0.004,
        dark + lab[1] / 250,
        dark + lab[2] / 250,
        Math.max(0, 2 * dark - 1)
      };
    };
  }
}
