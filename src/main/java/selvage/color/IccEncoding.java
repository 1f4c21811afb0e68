package selvage.color;

/** How the profile connection space is written as channels of 0 to 1 (ICC.1:2022, 6.3.4) [icc1]. */
enum IccEncoding {
  /** L* 0..100 and a*, b* −128..127 over the full range. */
  LAB {
    @Override
    void decode(double[] channels, double[] lab) {
      lab[0] = channels[0] * 100;
      lab[1] = channels[1] * 255 - 128;
      lab[2] = channels[2] * 255 - 128;
    }

    @Override
    void encode(double l, double a, double b, double[] channels) {
      channels[0] = l / 100;
      channels[1] = (a + 128) / 255;
      channels[2] = (b + 128) / 255;
    }
  },
  /** The 16-bit form of version 2, kept by {@code mft2}: L* 100 is 65280 of 65535. */
  LAB_LEGACY {
    @Override
    void decode(double[] channels, double[] lab) {
      lab[0] = channels[0] * (65535 * 100 / 65280.0);
      lab[1] = channels[1] * (65535 / 256.0) - 128;
      lab[2] = channels[2] * (65535 / 256.0) - 128;
    }

    @Override
    void encode(double l, double a, double b, double[] channels) {
      channels[0] = l * (65280 / 6553500.0);
      channels[1] = (a + 128) * (256 / 65535.0);
      channels[2] = (b + 128) * (256 / 65535.0);
    }
  },
  /** 1 stands for 1 + 32767/32768 of X, Y or Z, where Y of white is 1. */
  XYZ {
    @Override
    void decode(double[] channels, double[] lab) {
      Xyz white = ReferenceWhite.ICC_PCS.xyz();
      double x = ReferenceWhite.f(channels[0] * FULL_XYZ / white.x());
      double y = ReferenceWhite.f(channels[1] * FULL_XYZ / white.y());
      double z = ReferenceWhite.f(channels[2] * FULL_XYZ / white.z());
      lab[0] = 116 * y - 16;
      lab[1] = 500 * (x - y);
      lab[2] = 200 * (y - z);
    }

    @Override
    void encode(double l, double a, double b, double[] channels) {
      Xyz white = ReferenceWhite.ICC_PCS.xyz();
      double y = (l + 16) / 116;
      channels[0] = white.x() / FULL_XYZ * ReferenceWhite.inverse(y + a / 500);
      channels[1] = white.y() / FULL_XYZ * ReferenceWhite.inverse(y);
      channels[2] = white.z() / FULL_XYZ * ReferenceWhite.inverse(y - b / 200);
    }
  };

  private static final double FULL_XYZ = 100 * 65535 / 32768.0;

  /** Channels to L*, a*, b*. */
  abstract void decode(double[] channels, double[] lab);

  /** L*, a*, b* to channels; what lies out of range comes out below 0 or above 1. */
  abstract void encode(double l, double a, double b, double[] channels);

  /** X, Y, Z with Y = 1 for white to channels, in place. */
  static void encodeXyz(double[] channels) {
    for (int i = 0; i < 3; i++) {
      channels[i] *= 100 / FULL_XYZ;
    }
  }
}
