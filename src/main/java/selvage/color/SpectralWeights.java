package selvage.color;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;

/**
 * From reflectance spectra to colours for D50 and the 2° observer. The weights of a wavelength grid
 * are sums, at the 5 nm of the published CIE tables [cie15], of colour-matching function times
 * daylight times the share that each measured wavelength has in a not-a-knot cubic spline through
 * all of them. Beyond the measured ends the first and last value hold: the weights of what was not
 * measured go to the ends, as ASTM E308-15 has it [e308]. No correction of the instrument's
 * bandpass. Immutable.
 */
public final class SpectralWeights {
  /** The longest wavelength at which a grid may begin, in nanometres. */
  public static final double LATEST_START_NM = 400;

  /** The shortest wavelength at which a grid may end, in nanometres. */
  public static final double EARLIEST_END_NM = 700;

  /** The longest step between two wavelengths, in nanometres. */
  public static final double LONGEST_STEP_NM = 20;

  private static final int MOST_WAVELENGTHS = 1000;
  private static final double SLACK_NM = 0.01;
  private static final double D50_M1 = -1.039;
  private static final double D50_M2 = 0.363;

  private final double[] wavelengths;
  private final double[][] weights; // X, Y, Z by wavelength
  private final double[] sums;

  private SpectralWeights(double[] wavelengths, double[][] weights) {
    this.wavelengths = wavelengths;
    this.weights = weights;
    this.sums = new double[3];
    for (int axis = 0; axis < 3; axis++) {
      for (double weight : weights[axis]) {
        sums[axis] += weight;
      }
    }
  }

  /**
   * Why colours can't be computed from a grid of wavelengths; empty where they can.
   *
   * @param wavelengths in nanometres
   */
  public static String fault(double[] wavelengths) {
    int last = wavelengths.length - 1;
    if (last > MOST_WAVELENGTHS) {
      return "expected at most " + MOST_WAVELENGTHS + " wavelengths, found " + (last + 1);
    }
    for (int i = 1; i <= last; i++) {
      double step = wavelengths[i] - wavelengths[i - 1];
      if (!(step > 0) || step > LONGEST_STEP_NM + SLACK_NM) {
        return String.format(
            Locale.ROOT,
            "expected rising wavelengths at most %.0f nm apart, found %s nm after %s nm",
            LONGEST_STEP_NM,
            number(wavelengths[i]),
            number(wavelengths[i - 1]));
      }
    }
    if (last < 3
        || wavelengths[0] > LATEST_START_NM + SLACK_NM
        || wavelengths[last] < EARLIEST_END_NM - SLACK_NM) {
      return "expected a spectrum from 400 nm or less to 700 nm or more, found "
          + (last < 0 ? "none" : number(wavelengths[0]) + " to " + number(wavelengths[last]))
          + " nm";
    }
    return "";
  }

  /**
   * The weights of a grid.
   *
   * @param wavelengths in nanometres, without {@link #fault}
   */
  public static SpectralWeights of(double[] wavelengths) {
    String fault = fault(wavelengths);
    if (!fault.isEmpty()) {
      throw new IllegalArgumentException(fault);
    }
    double[] nodes = wavelengths.clone();
    double[][] table = table();
    double[][] weights = new double[3][];
    double[][] matrix = SplineWeights.curvatures(nodes);
    for (int axis = 0; axis < 3; axis++) {
      double[] integrand = new double[table.length];
      for (int i = 0; i < table.length; i++) {
        double[] row = table[i];
        double daylight = row[4] + D50_M1 * row[5] + D50_M2 * row[6];
        integrand[i] = row[1 + axis] * daylight;
      }
      weights[axis] = SplineWeights.of(nodes, matrix, column(table, 0), integrand);
    }
    return new SpectralWeights(nodes, weights);
  }

  /**
   * The colour of a spectrum. A perfect diffuser, 1 at every wavelength, is exactly 100, 0, 0.
   *
   * @param reflectance 0 to 1 by wavelength, absolute
   */
  public Lab lab(double[] reflectance) {
    if (reflectance.length != wavelengths.length) {
      throw new IllegalArgumentException(
          reflectance.length + " values for " + wavelengths.length + " wavelengths");
    }
    double[] ratio = new double[3];
    for (int axis = 0; axis < 3; axis++) {
      double sum = 0;
      for (int i = 0; i < reflectance.length; i++) {
        sum += weights[axis][i] * reflectance[i];
      }
      ratio[axis] = sum / sums[axis];
    }
    Xyz white = ReferenceWhite.ISO_13655.xyz();
    return ReferenceWhite.ISO_13655.toLab(
        new Xyz(ratio[0] * white.x(), ratio[1] * white.y(), ratio[2] * white.z()));
  }

  /** What was done, for a result. */
  public String method() {
    return "Lab: from the file's spectra, "
        + number(wavelengths[0])
        + " to "
        + number(wavelengths[wavelengths.length - 1])
        + " nm, "
        + wavelengths.length
        + " values: D50, 2° observer, weights summed at 5 nm from CIE tables with a cubic spline"
        + " between the values; ends as in ASTM E308-15 (first and last value hold); no bandpass"
        + " correction; white 96.422 100 82.521";
  }

  private static String number(double nm) {
    return nm == Math.rint(nm)
        ? String.format(Locale.ROOT, "%.0f", nm)
        : String.format(Locale.ROOT, "%.2f", nm);
  }

  private static double[] column(double[][] table, int column) {
    double[] values = new double[table.length];
    Arrays.setAll(values, i -> table[i][column]);
    return values;
  }

  /** Wavelength, three colour-matching functions, three daylight components a row. */
  private static double[][] table() {
    String file = "/observer/cie-1931-5nm.csv";
    try (InputStream in = SpectralWeights.class.getResourceAsStream(file)) {
      if (in == null) {
        throw new IllegalStateException("the program lacks its file " + file);
      }
      BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8));
      return lines
          .lines()
          .filter(line -> !line.startsWith("#") && !line.startsWith("nm"))
          .map(SpectralWeights::row)
          .toArray(double[][]::new);
    } catch (IOException e) {
      throw new UncheckedIOException(file, e);
    }
  }

  private static double[] row(String line) {
    double[] row = new double[7];
    int start = 0;
    for (int i = 0; i < row.length; i++) {
      int comma = line.indexOf(',', start);
      int end = comma < 0 ? line.length() : comma;
      row[i] = Double.parseDouble(line.substring(start, end));
      start = end + 1;
    }
    return row;
  }
}
