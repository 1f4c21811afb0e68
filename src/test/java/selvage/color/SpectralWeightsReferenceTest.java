package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against integrations made by another program at 1 nm and at 5 nm. */
class SpectralWeightsReferenceTest {
  private static final List<double[]> SPECTRA =
      ReferenceTable.read(
          "spectra-integrated.csv",
          "base",
          "step",
          "step_nm",
          "step_width",
          "peak",
          "peak_nm",
          "peak_width",
          "l1",
          "a1",
          "b1",
          "l5",
          "a5",
          "b5");

  @ParameterizedTest
  @CsvSource({"360, 830, 5", "380, 780, 10", "380, 730, 10", "380, 780, 20", "360, 740, 20"})
  void lab_smoothSpectra_withinTwoHundredthsOfIntegration(int from, int to, int step) {
    double[] nm = grid(from, to, step);
    SpectralWeights weights = SpectralWeights.of(nm);
    for (double[] row : SPECTRA) {
      Lab lab = weights.lab(spectrum(row, nm));
      assertThat(ColorDifference.de76(lab, new Lab(row[7], row[8], row[9])))
          .as("1 nm: %s", Arrays.toString(row))
          .isLessThan(0.02);
      assertThat(ColorDifference.de76(lab, new Lab(row[10], row[11], row[12])))
          .as("5 nm: %s", Arrays.toString(row))
          .isLessThan(0.02);
    }
  }

  /** The missing 380 to 390 and 710 to 780 nm hold the end values: a smooth spectrum moves more. */
  @ParameterizedTest
  @CsvSource({"400, 700, 10", "400, 700, 20"})
  void lab_shortRange_meanWithinThreeHundredths(int from, int to, int step) {
    double[] nm = grid(from, to, step);
    SpectralWeights weights = SpectralWeights.of(nm);
    double sum = 0;
    for (double[] row : SPECTRA) {
      double de =
          ColorDifference.de76(weights.lab(spectrum(row, nm)), new Lab(row[10], row[11], row[12]));
      assertThat(de).isLessThan(0.25);
      sum += de;
    }
    assertThat(sum / SPECTRA.size()).isLessThan(0.03);
  }

  @ParameterizedTest
  @CsvSource({
    "380, 780, 10",
    "380, 730, 10",
    "400, 700, 20",
    "360, 830, 5",
    "400, 700, 1",
    "340, 1000, 20"
  })
  void lab_perfectDiffuser_exactlyWhite(int from, int to, int step) {
    double[] nm = grid(from, to, step);
    double[] ones = new double[nm.length];
    Arrays.fill(ones, 1);
    assertThat(SpectralWeights.of(nm).lab(ones)).isEqualTo(new Lab(100, 0, 0));
  }

  /** L* of a grey of 0.184187 is 50, by CIELAB's formula; a* and b* are 0. */
  @Test
  void lab_evenGrey_lightnessByFormula() {
    double[] nm = grid(380, 730, 10);
    double[] grey = new double[nm.length];
    Arrays.fill(grey, Math.pow(66.0 / 116.0, 3));
    Lab lab = SpectralWeights.of(nm).lab(grey);
    assertThat(lab.l()).isCloseTo(50, within(1e-9));
    assertThat(lab.a()).isCloseTo(0, within(1e-9));
    assertThat(lab.b()).isCloseTo(0, within(1e-9));
  }

  @Test
  void lab_unevenSteps_asEvenOnes() {
    double[] third = new double[106];
    Arrays.setAll(third, i -> Math.rint(100 * (380 + i * 10 / 3.0)) / 100);
    SpectralWeights weights = SpectralWeights.of(third);
    for (double[] row : SPECTRA) {
      assertThat(
              ColorDifference.de76(
                  weights.lab(spectrum(row, third)), new Lab(row[10], row[11], row[12])))
          .isLessThan(0.02);
    }
  }

  @Test
  void fault_gridThatDoesNotDo_saysWhy() {
    assertThat(SpectralWeights.fault(grid(380, 730, 10))).isEmpty();
    assertThat(SpectralWeights.fault(grid(420, 730, 10))).contains("found 420 to 730 nm");
    assertThat(SpectralWeights.fault(grid(400, 690, 10))).contains("found 400 to 690 nm");
    assertThat(SpectralWeights.fault(grid(380, 740, 30))).contains("at most 20 nm apart");
    assertThat(SpectralWeights.fault(new double[] {})).contains("found none");
    assertThat(SpectralWeights.fault(new double[] {400, 410, 410, 700})).contains("410 nm after");
    assertThatThrownBy(() -> SpectralWeights.of(grid(450, 600, 10)))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> SpectralWeights.of(grid(380, 730, 10)).lab(new double[3]))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void method_namesRangeTablesAndEndRule() {
    assertThat(SpectralWeights.of(grid(380, 730, 10)).method())
        .contains("380 to 730 nm, 36 values", "D50, 2°", "E308-15", "no bandpass correction");
  }

  static double[] grid(int from, int to, int step) {
    double[] nm = new double[(to - from) / step + 1];
    Arrays.setAll(nm, i -> from + i * step);
    return nm;
  }

  private static double[] spectrum(double[] row, double[] nm) {
    double[] values = new double[nm.length];
    for (int i = 0; i < nm.length; i++) {
      double peak = (nm[i] - row[5]) / row[6];
      values[i] =
          row[0]
              + row[1] / (1 + Math.exp(-(nm[i] - row[2]) / row[3]))
              + row[4] * Math.exp(-peak * peak);
    }
    return values;
  }
}
