package selvage.color;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.cxf.CxfColor;
import selvage.cxf.CxfColor.Kind;
import selvage.cxf.CxfFile;
import selvage.cxf.CxfObject;
import selvage.cxf.CxfSpecification;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * The spectra of a CxF3 file as colours. The first wavelength stands with a spectrum or with its
 * specification, the step with the specification; a file with one specification only means that
 * one. Reflectance runs from 0 to 1, or to 100 where the lightest value of the file says so.
 */
final class CxfSpectra {
  private final String file;
  private final Map<String, CxfSpecification> specifications;
  private final Optional<SpectralScale> scale;
  private final Map<List<Double>, SpectralWeights> weights = new HashMap<>();
  private int computed;
  private int left;
  private String fault = "";
  private String method = "";

  CxfSpectra(CxfFile document) {
    this.file = document.fileName();
    this.specifications = document.specifications();
    double lightest = 0;
    for (CxfObject object : document.objects()) {
      for (CxfColor stated : object.colors()) {
        for (double value : stated.kind() == Kind.SPECTRUM ? stated.values() : List.<Double>of()) {
          lightest = Math.max(lightest, value);
        }
      }
    }
    this.scale = SpectralScale.of(lightest);
  }

  /**
   * The colour of the first spectrum that can be taken; null where there is none.
   *
   * @throws InputException where a value is no reflectance
   */
  Lab color(List<CxfColor> spectra) throws InputException {
    for (CxfColor spectrum : spectra) {
      SpectralWeights own = weights(spectrum);
      if (own != null) {
        computed++;
        method = own.method();
        return own.lab(reflectance(spectrum));
      }
    }
    left += spectra.isEmpty() ? 0 : 1;
    return null;
  }

  private double[] reflectance(CxfColor spectrum) throws InputException {
    SpectralScale judged = scale.orElseThrow();
    double[] reflectance = new double[spectrum.values().size()];
    for (int i = 0; i < reflectance.length; i++) {
      double value = spectrum.values().get(i);
      if (!judged.takes(value)) {
        throw InputException.at(
            file,
            spectrum.line(),
            "ReflectanceSpectrum",
            "expected reflectances from 0 to "
                + judged.top()
                + ", found "
                + value
                + "; put the value right or measure again");
      }
      reflectance[i] = judged.reflectance(value);
    }
    return reflectance;
  }

  /** Null where the spectrum's wavelengths are not stated or don't do. */
  private SpectralWeights weights(CxfColor spectrum) {
    CxfSpecification specification = specifications.get(spectrum.specification());
    if (specification == null && specifications.size() == 1) {
      specification = specifications.values().iterator().next();
    }
    OptionalDouble start = spectrum.startNm();
    OptionalDouble step = OptionalDouble.empty();
    if (specification != null) {
      start = start.isPresent() ? start : specification.startNm();
      step = specification.stepNm();
    }
    if (start.isEmpty() || step.isEmpty()) {
      return refused("expected StartWL and Increment, found no such wavelengths");
    }
    if (scale.isEmpty()) {
      return refused("expected values from 0 to 1 or from 0 to 100, found neither");
    }
    double first = start.getAsDouble();
    double apart = step.getAsDouble();
    int count = spectrum.values().size();
    SpectralWeights known = weights.get(List.of(first, apart, (double) count));
    if (known != null) {
      return known;
    }
    double[] wavelengths = new double[count];
    for (int i = 0; i < count; i++) {
      wavelengths[i] = first + i * apart;
    }
    String wrong = SpectralWeights.fault(wavelengths);
    if (!wrong.isEmpty()) {
      return refused(wrong);
    }
    SpectralWeights made = SpectralWeights.of(wavelengths);
    weights.put(List.of(first, apart, (double) count), made);
    return made;
  }

  private SpectralWeights refused(String reason) {
    fault = fault.isEmpty() ? reason : fault;
    return null;
  }

  void addFindings(List<Finding> findings) {
    if (computed > 0) {
      findings.add(
          Finding.note(
              "spot-color-from-spectrum",
              file + ": " + computed + " colours were computed from spectra. " + method));
    }
    if (left > 0) {
      findings.add(
          Finding.warning(
              "spot-spectrum-not-read",
              file
                  + ": "
                  + left
                  + " colours are given as spectra only and were left out: "
                  + fault
                  + "; export the library with CIELAB (D50, 2°)"));
    }
  }
}
