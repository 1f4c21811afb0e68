package selvage.measurement;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import selvage.color.SpectralWeights;
import selvage.cxf.CxfColor;
import selvage.cxf.CxfColor.Kind;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** Units of a CxF document's numbers, judged by its lightest; and the weights of its spectra. */
final class CxfScale {
  /** The lightest value up to which numbers run from 0 to 1. */
  private static final double UNIT_TOP = 1.5;

  /** Steps that instruments write, in the order in which they are tried where none is stated. */
  private static final double[] STEPS = {10, 20, 5, 10.0 / 3, 2, 1};

  private final double xyz;
  private final double spectra;
  private final Map<String, SpectralWeights> weights = new HashMap<>();

  private CxfScale(double xyz, double spectra) {
    this.xyz = xyz;
    this.spectra = spectra;
  }

  static CxfScale of(String source, List<CxfColor> colors, List<Finding> findings) {
    double lightestY = 0;
    double lightest = 0;
    for (CxfColor color : colors) {
      if (color.kind() == Kind.XYZ) {
        lightestY = Math.max(lightestY, color.values().get(1));
      } else if (color.kind() == Kind.SPECTRUM) {
        for (double value : color.values()) {
          lightest = Math.max(lightest, value);
        }
      }
    }
    boolean unitXyz = lightestY > 0 && lightestY <= UNIT_TOP;
    if (unitXyz) {
      findings.add(
          Finding.warning(
              "xyz-from-0-to-1",
              source
                  + ": XYZ were taken to run from 0 to 1, because the lightest has Y = "
                  + lightestY));
    }
    boolean percent = lightest > UNIT_TOP;
    if (percent) {
      findings.add(
          Finding.note(
              "spectra-from-0-to-100",
              String.format(
                  Locale.ROOT,
                  "%s: spectra were taken to run from 0 to 100, because the lightest reaches %.4g",
                  source,
                  lightest)));
    }
    return new CxfScale(unitXyz ? 100 : 1, percent ? 0.01 : 1);
  }

  /** What XYZ are to be multiplied by. */
  double xyz() {
    return xyz;
  }

  /**
   * A spectrum from 0 to 1.
   *
   * @throws InputException where a value is out of range
   */
  double[] reflectance(String fileName, CxfColor color) throws InputException {
    double[] values = new double[color.values().size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = spectra * color.values().get(i);
      if (values[i] < -0.02 || values[i] > 2) {
        throw InputException.at(
            fileName,
            color.line(),
            "ReflectanceSpectrum",
            "expected reflectances from 0 to "
                + (spectra == 1 ? "1" : "100")
                + ", found "
                + color.values().get(i)
                + "; measure again");
      }
    }
    return values;
  }

  /**
   * The weights of a spectrum. Where no step is stated, the one that ends in the visible range's
   * last part is taken, with a finding.
   *
   * @throws InputException where the wavelengths don't do
   */
  SpectralWeights weights(
      String fileName, CxfColor color, double start, OptionalDouble stated, List<Finding> findings)
      throws InputException {
    int count = color.values().size();
    String key = start + " " + stated + " " + count;
    SpectralWeights known = weights.get(key);
    if (known != null) {
      return known;
    }
    double step = stated.orElse(0);
    for (int i = 0; i < STEPS.length && step == 0; i++) {
      double end = start + (count - 1) * STEPS[i];
      step = end >= 690 && end <= 850 ? STEPS[i] : 0;
    }
    double size = step;
    double[] wavelengths = new double[count];
    Arrays.setAll(wavelengths, i -> start + i * size);
    String fault = SpectralWeights.fault(wavelengths);
    if (!fault.isEmpty()) {
      throw InputException.at(
          fileName, color.line(), "ReflectanceSpectrum", fault + "; export the data anew");
    }
    if (stated.isEmpty()) {
      findings.add(
          Finding.warning(
              "spectral-step-guessed",
              String.format(
                  Locale.ROOT,
                  "%s:%d: no step of wavelengths is stated; %d values from %.0f nm on were taken"
                      + " to be %.4g nm apart",
                  fileName,
                  color.line(),
                  count,
                  start,
                  size)));
    }
    SpectralWeights made = SpectralWeights.of(wavelengths);
    weights.put(key, made);
    return made;
  }
}
