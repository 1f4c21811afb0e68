package selvage.color;

import java.util.Arrays;
import selvage.finding.InputException;

/**
 * A device space with an ICC profile: the media-relative colorimetric table, else the perceptual
 * one, else curves and matrix. Its white is brought to exactly 100, 0, 0, its black to L* 0.
 */
final class IccColor implements SourceColor {
  /** A profile's white further from 100, 0, 0 is meant so and stays. */
  private static final double WHITE_SLACK = 3;

  private final IccPipeline toLab;
  private final XyzScale toWhite;
  private final double blackY;

  private IccColor(IccPipeline toLab, IccPipeline fromLab, String dataSpace) {
    this.toLab = toLab;
    double[] white = new double[toLab.inputs()];
    double[] black = new double[toLab.inputs()];
    Arrays.fill(dataSpace.equals("CMYK") ? black : white, 1);
    boolean device = !dataSpace.equals("Lab ");
    this.toWhite = device ? toWhite(lab(white)) : XyzScale.NONE;
    if (!device) {
      this.blackY = 0;
    } else if (fromLab != null) {
      this.blackY = BlackPoint.ofDarkest(toLab, fromLab);
    } else {
      this.blackY = BlackPoint.ofLightness(lab(black)[0]);
    }
  }

  static IccColor of(IccProfile profile) throws InputException {
    if (profile.components() == 0) {
      throw InputException.of(
          profile.name(),
          "expected an ICC profile for gray, RGB, Lab or CMYK, found one for "
              + profile.dataSpace().strip());
    }
    IccPipeline toLab = IccPipeline.read(profile, "A2B1", true);
    if (toLab == null) {
      toLab = IccPipeline.read(profile, "A2B0", true);
    }
    if (toLab == null) {
      toLab = IccPipeline.ofCurves(profile);
    }
    IccPipeline fromLab = null;
    if (profile.dataSpace().equals("CMYK")) {
      fromLab = IccPipeline.read(profile, "B2A0", false);
    }
    return new IccColor(toLab, fromLab, profile.dataSpace());
  }

  @Override
  public int components() {
    return toLab.inputs();
  }

  @Override
  public double[] relativeLab(double... values) {
    double[] lab = lab(values);
    toWhite.apply(lab);
    return BlackPoint.lower(lab[0], lab[1], lab[2], blackY);
  }

  private double[] lab(double[] values) {
    double[] channels = IccPipeline.channels();
    double[] lab = new double[3];
    System.arraycopy(values, 0, channels, 0, toLab.inputs());
    toLab.apply(channels, IccPipeline.channels());
    toLab.encoding().decode(channels, lab);
    return lab;
  }

  private static XyzScale toWhite(double[] white) {
    double off = Math.abs(100 - white[0]) + Math.hypot(white[1], white[2]);
    return off > WHITE_SLACK ? XyzScale.NONE : XyzScale.toWhite(white);
  }
}
