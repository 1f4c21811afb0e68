package selvage.separation;

import java.util.Arrays;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.separation.ProcessSpaces.ToProcess;

/** Conversions of device-independent and RGB colours to the condition's process tints. */
final class ProcessLinks {
  static final int MOST_PROFILE_BYTES = 32 << 20;

  private final ReferenceCondition condition;
  private final byte[] intentProfile;

  ProcessLinks(ReferenceCondition condition, byte[] intentProfile) {
    this.condition = condition;
    this.intentProfile = intentProfile;
  }

  boolean passes(byte[] profile) {
    return intentProfile == null || Arrays.equals(profile, intentProfile);
  }

  ToProcess deviceRgb() {
    return (c, k) -> {
      float m = Math.max(c[0], Math.max(c[1], c[2]));
      k[3] = 1 - m;
      for (int i = 0; i < 3; i++) {
        k[i] = m == 0 ? 0 : m - c[i];
      }
    };
  }

  ToProcess calGray(float[] white, float gamma) {
    return (c, k) -> {
      k[3] = 1 - c[0];
    };
  }

  ToProcess calRgb(float[] white, float[] gamma, float[] matrix) {
    return deviceRgb();
  }

  ToProcess lab(float[] white) {
    return (c, k) -> {
      System.arraycopy(condition.separate(new Lab(c[0], c[1], c[2])), 0, k, 0, 4);
    };
  }

  ToProcess icc(byte[] profile, int n) {
    return n == 3 ? deviceRgb() : n == 1 ? calGray(null, 1) : null;
  }

  void cmykToRgb(float[] k, float[] c) {
    for (int i = 0; i < 3; i++) {
      c[i] = (1 - k[i]) * (1 - k[3]);
    }
  }

  boolean isLab(byte[] profile) {
    return false;
  }
}
