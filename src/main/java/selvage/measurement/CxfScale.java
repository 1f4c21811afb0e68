package selvage.measurement;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.color.SpectralScale;
import selvage.color.SpectralWeights;
import selvage.cxf.CxfColor;
import selvage.cxf.CxfColor.Kind;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** Units of a CxF document's numbers, judged by its lightest; and the weights of its spectra. */
final class CxfScale {
  /** Y of the lightest colour at or below which XYZ run from 0 to 1, as in a CGATS table. */
  private static final double UNIT_TOP = MeasurementReader.UNIT_SCALE_TOP;

  /** Steps that instruments write, in the order in which they are tried where none is stated. */
  private static final double[] STEPS = {10, 20, 5, 10.0 / 3, 2, 1};

  private final double xyz;
  private final SpectralScale spectra;
  private final Map<String, SpectralWeights> weights = new HashMap<>();

  private CxfScale(double xyz, SpectralScale spectra) {
    this.xyz = xyz;
    this.spectra = spectra;
  }

  /**
   * Judges.
   *
   * @param fileName for refusals
   * @param source the file or a part of it, for findings
   * @throws InputException where the lightest spectrum tells neither scale
   */
  static CxfScale of(String fileName, String source, List<CxfColor> colors, List<Finding> findings)
      throws InputException {
    double lightestY = 0;
    double lightest = 0;
    int lightestLine = 1;
    for (CxfColor color : colors) {
      if (color.kind() == Kind.XYZ) {
        lightestY = Math.max(lightestY, color.values().get(1));
      } else if (color.kind() == Kind.SPECTRUM) {
        for (double value : color.values()) {
          if (value > lightest) {
            lightest = value;
            lightestLine = color.line();
          }
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
    Optional<SpectralScale> spectra = SpectralScale.of(lightest);
    if (spectra.isEmpty()) {
      throw InputException.at(
          fileName,
          lightestLine,
          "ReflectanceSpectrum",
          "expected spectra from 0 to 1 or from 0 to 100, found "
              + lightest
              + " as the greatest value, which tells neither; measure the paper with them");
    }
    if (spectra.get() == SpectralScale.PERCENT) {
      findings.add(
          Finding.note(
              "spectra-from-0-to-100",
              String.format(
                  Locale.ROOT,
                  "%s: spectra were taken to run from 0 to 100, because the lightest reaches %.4g",
                  source,
                  lightest)));
    }
    return new CxfScale(unitXyz ? 100 : 1, spectra.get());
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
      double value = color.values().get(i);
      if (!spectra.takes(value)) {
        throw InputException.at(
            fileName,
            color.line(),
            "ReflectanceSpectrum",
            "expected reflectances from 0 to "
                + spectra.top()
                + ", found "
                + value
                + "; measure again");
      }
      values[i] = spectra.reflectance(value);
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
