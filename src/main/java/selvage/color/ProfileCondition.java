package selvage.color;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Tint;

/**
 * A printing condition known by its ICC output profile, version 2 or 4. Aims are absolute
 * colorimetric: the profile's media-relative colorimetric table ({@code A2B1}) times its media
 * white point (ICC.1:2022, 6.3.2.2) [icc1]. Lab stays that of the profile connection space's white.
 */
final class ProfileCondition implements ReferenceCondition {
  /** For profiles without a table from colour to ink; common practice for coated paper. */
  private static final double TOTAL_INK = 3.1;

  /** A profile whose media-relative white is darker is broken. */
  private static final double DARKEST_PAPER = 50;

  private final String name;
  private final Origin origin;
  private final IccPipeline toLab;
  private final IccPipeline fromLab; // null where the profile has none
  private final XyzScale mediaWhite;
  private final double blackY;
  private final double[] whiteInk = new double[4]; // what the table prints for white
  private final ProcessInverse inverse; // in place of fromLab

  private ProfileCondition(
      String name, Origin origin, IccPipeline toLab, IccPipeline fromLab, XyzScale mediaWhite) {
    this.name = Objects.requireNonNull(name, "name");
    this.origin = Objects.requireNonNull(origin, "origin");
    this.toLab = toLab;
    this.fromLab = fromLab;
    this.mediaWhite = mediaWhite;
    if (fromLab == null) {
      this.inverse = new ProcessInverse(new Relative(toLab), TOTAL_INK);
      this.blackY = 0;
    } else {
      this.inverse = null;
      double[] channels = IccPipeline.channels();
      double[] scratch = IccPipeline.channels();
      fromLab.encoding().encode(100, 0, 0, channels);
      fromLab.apply(channels, scratch);
      System.arraycopy(channels, 0, whiteInk, 0, 4);
      this.blackY = BlackPoint.ofDarkest(toLab, fromLab);
    }
  }

  /**
   * Takes a profile as a condition.
   *
   * @param name the condition's name; blank to take the profile's description
   * @throws InputException where the profile is no sound CMYK profile
   */
  static ConditionChoice of(IccProfile profile, String name, Origin origin) throws InputException {
    if (!profile.dataSpace().equals("CMYK")) {
      throw InputException.of(
          profile.name(),
          "expected a CMYK output profile, found one for "
              + profile.dataSpace().strip()
              + "; give the profile of the printing condition");
    }
    List<Finding> findings = new ArrayList<>();
    IccPipeline toLab = IccPipeline.read(profile, "A2B1", true);
    if (toLab == null) {
      toLab = IccPipeline.read(profile, "A2B0", true);
      if (toLab == null) {
        throw profile.broken("expected a table A2B1 from ink to colour, found none");
      }
      findings.add(
          Finding.warning(
              "profile-without-colorimetric-table",
              profile.name()
                  + ": the profile has no table A2B1; aims come from A2B0, which may be"
                  + " perceptual"));
    }
    double paper = relativeLab(toLab, new double[4])[0];
    if (paper < DARKEST_PAPER) {
      throw profile.broken(
          "expected unprinted paper near L* 100, media-relative, found " + Math.round(paper));
    }
    IccPipeline fromLab = IccPipeline.read(profile, "B2A1", false);
    if (fromLab == null) {
      fromLab = IccPipeline.read(profile, "B2A0", false);
      findings.add(
          Finding.note(
              "profile-without-separation-table",
              profile.name()
                  + ": the profile has no table B2A1; colours that are not CMYK are separated by "
                  + (fromLab == null ? "inverting its ink table" : "B2A0")));
    }
    String shown = name.isBlank() ? profile.description() : name;
    return new ConditionChoice(
        new ProfileCondition(
            shown.isBlank() ? profile.name() : shown, origin, toLab, fromLab, profile.mediaWhite()),
        findings);
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public Origin origin() {
    return origin;
  }

  @Override
  public Aim aim(double c, double m, double y, double k) {
    double[] channels = {c / 100, m / 100, y / 100, k / 100};
    double[] lab = new double[3];
    absoluteLab(channels, IccPipeline.channels(), lab);
    return new Aim(new Lab(lab[0], lab[1], lab[2]), AimSource.CONDITION);
  }

  @Override
  public void aims(char[] tints, int rows, float[] lab, AimSource[] sources) {
    double[] channels = IccPipeline.channels();
    double[] scratch = IccPipeline.channels();
    double[] out = new double[3];
    for (int row = 0; row < rows; row++) {
      for (int i = 0; i < 4; i++) {
        channels[i] = tints[4 * row + i] * (1.0 / Tint.FULL);
      }
      absoluteLab(channels, scratch, out);
      for (int i = 0; i < 3; i++) {
        lab[3 * row + i] = (float) out[i];
      }
      sources[row] = AimSource.CONDITION;
    }
  }

  private void absoluteLab(double[] channels, double[] scratch, double[] lab) {
    toLab.apply(channels, scratch);
    toLab.encoding().decode(channels, lab);
    mediaWhite.apply(lab);
  }

  /**
   * {@inheritDoc}
   *
   * <p>By the profile's {@code B2A1}. Where that table prints traces of ink for white, these are
   * taken off everywhere, in proportion to the paper left.
   */
  @Override
  public float[] separate(Lab relative) {
    double[] channels = IccPipeline.channels();
    if (fromLab == null) {
      inverse.separate(relative.l(), relative.a(), relative.b(), channels);
    } else {
      double[] lab = BlackPoint.raise(relative.l(), relative.a(), relative.b(), blackY);
      fromLab.encoding().encode(lab[0], lab[1], lab[2], channels);
      fromLab.apply(channels, IccPipeline.channels());
      for (int i = 0; i < 4; i++) {
        if (whiteInk[i] < 1) {
          channels[i] = Math.max(0, (channels[i] - whiteInk[i]) / (1 - whiteInk[i]));
        }
      }
    }
    return new float[] {
      (float) channels[0], (float) channels[1], (float) channels[2], (float) channels[3]
    };
  }

  private static double[] relativeLab(IccPipeline toLab, double[] cmyk) {
    double[] channels = IccPipeline.channels();
    System.arraycopy(cmyk, 0, channels, 0, 4);
    toLab.apply(channels, IccPipeline.channels());
    double[] lab = new double[3];
    toLab.encoding().decode(channels, lab);
    return lab;
  }

  /** The profile's ink table as a model to invert; no ink is exactly white. */
  private static final class Relative implements ProcessModel {
    private final IccPipeline toLab;
    private final XyzScale paperToWhite;

    Relative(IccPipeline toLab) {
      this.toLab = toLab;
      this.paperToWhite = XyzScale.toWhite(ProfileCondition.relativeLab(toLab, new double[4]));
    }

    @Override
    public double[] scratch() {
      return IccPipeline.channels();
    }

    @Override
    public void relativeLab(double[] cmyk, double[] scratch, double[] lab) {
      double[] channels = cmyk.clone();
      toLab.apply(channels, scratch);
      toLab.encoding().decode(channels, lab);
      paperToWhite.apply(lab);
    }
  }
}
