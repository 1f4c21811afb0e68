package selvage.color;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * The spectra of a CGATS table: pairs of SPECTRAL_NM and SPECTRAL_PCT or SPECTRAL_DEC columns, or a
 * column for each wavelength under any of the spellings met in files.
 */
public final class SpectralColumns {
  private static final String[] BEFORE = {
    "SPECTRAL_NM_",
    "SPECTRAL_NM",
    "SPECTRAL_PCT_",
    "SPECTRAL_PCT",
    "SPECTRAL_DEC_",
    "SPECTRAL_DEC",
    "SPECTRAL_",
    "SPECTRAL",
    "SPEC_",
    "SPEC",
    "NM_",
    "NM",
    "R_",
    "R",
    ""
  };

  private final CgatsTable table;
  private final double[] wavelengths;
  private final int[] columns;

  private SpectralColumns(CgatsTable table, double[] wavelengths, int[] columns) {
    this.table = table;
    this.wavelengths = wavelengths;
    this.columns = columns;
  }

  /**
   * Finds the spectra of a table; empty where it has none.
   *
   * @throws InputException where the wavelengths don't do for colours
   */
  public static Optional<SpectralColumns> of(CgatsTable table) throws InputException {
    SpectralColumns pairs = pairs(table);
    SpectralColumns found = pairs == null ? named(table) : pairs;
    if (found == null) {
      return Optional.empty();
    }
    String fault = SpectralWeights.fault(found.wavelengths);
    if (!fault.isEmpty()) {
      throw InputException.at(
          table.fileName(),
          table.columnsLine(),
          table.columns().get(found.columns[0]),
          fault + "; export more of the spectrum, or Lab for D50 and 2°");
    }
    return Optional.of(found);
  }

  /** Whether a column is, or belongs to, a spectrum. */
  public static boolean isSpectral(String column) {
    String name = column.toUpperCase(Locale.ROOT);
    return name.startsWith("SPECTRAL_") || !Double.isNaN(wavelength(name));
  }

  private static SpectralColumns named(CgatsTable table) {
    List<Integer> columns = new ArrayList<>();
    for (int column = 0; column < table.columns().size(); column++) {
      if (!Double.isNaN(wavelength(table.columns().get(column).toUpperCase(Locale.ROOT)))) {
        columns.add(column);
      }
    }
    if (columns.size() < 4) {
      return null;
    }
    columns.sort(
        (one, other) ->
            Double.compare(
                wavelength(table.columns().get(one).toUpperCase(Locale.ROOT)),
                wavelength(table.columns().get(other).toUpperCase(Locale.ROOT))));
    double[] wavelengths = new double[columns.size()];
    int[] indices = new int[columns.size()];
    for (int i = 0; i < indices.length; i++) {
      indices[i] = columns.get(i);
      wavelengths[i] = wavelength(table.columns().get(indices[i]).toUpperCase(Locale.ROOT));
    }
    return new SpectralColumns(table, wavelengths, indices);
  }

  /** The wavelength that a column's name in capitals states; NaN for any other column. */
  private static double wavelength(String name) {
    for (String before : BEFORE) {
      if (name.startsWith(before)) {
        String rest = name.substring(before.length());
        if (rest.endsWith("_NM")) {
          rest = rest.substring(0, rest.length() - 3);
        } else if (rest.endsWith("NM")) {
          rest = rest.substring(0, rest.length() - 2);
        }
        double number = plainNumber(rest);
        if (number >= 200 && number <= 2500) {
          return number;
        }
      }
    }
    return Double.NaN;
  }

  private static double plainNumber(String text) {
    if (text.length() < 3) {
      return Double.NaN;
    }
    boolean point = false;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '.' && !point && i >= 3 && i < text.length() - 1) {
        point = true;
      } else if (c < '0' || c > '9') {
        return Double.NaN;
      }
    }
    return text.length() > 12 ? Double.NaN : Double.parseDouble(text);
  }

  private static SpectralColumns pairs(CgatsTable table) throws InputException {
    List<Integer> values = new ArrayList<>();
    List<Integer> places = new ArrayList<>();
    int place = -1;
    for (int column = 0; column < table.columns().size(); column++) {
      String name = table.columns().get(column).toUpperCase(Locale.ROOT);
      if (name.equals("SPECTRAL_NM")) {
        place = column;
      } else if (place >= 0 && (name.equals("SPECTRAL_PCT") || name.equals("SPECTRAL_DEC"))) {
        places.add(place);
        values.add(column);
        place = -1;
      }
    }
    if (values.isEmpty()) {
      return null;
    }
    double[] wavelengths = new double[values.size()];
    int[] columns = new int[values.size()];
    for (int i = 0; i < columns.length; i++) {
      columns[i] = values.get(i);
      wavelengths[i] = table.number(0, places.get(i));
      for (int row = 1; row < table.rowCount(); row++) {
        if (table.number(row, places.get(i)) != wavelengths[i]) {
          throw InputException.at(
              table.fileName(),
              table.line(row),
              "SPECTRAL_NM",
              "expected the wavelengths of the first row, found "
                  + table.text(row, places.get(i))
                  + " nm; export all rows with the same wavelengths");
        }
      }
    }
    return new SpectralColumns(table, wavelengths, columns);
  }

  /** How colours are computed from these wavelengths. */
  public SpectralWeights weights() {
    return SpectralWeights.of(wavelengths);
  }

  /**
   * Reflectance from 0 to 1, by row and wavelength. Whether the file runs to 1 or to 100 is judged
   * by its lightest row.
   *
   * @param findings gets what was judged
   * @throws InputException where a value is missing or out of range, or no row is light enough to
   *     judge by
   */
  public double[][] reflectances(List<Finding> findings) throws InputException {
    double[][] spectra = new double[table.rowCount()][columns.length];
    double lightest = 0;
    int lightestRow = 0;
    for (int row = 0; row < spectra.length; row++) {
      for (int i = 0; i < columns.length; i++) {
        spectra[row][i] = table.number(row, columns[i]);
        if (spectra[row][i] > lightest) {
          lightest = spectra[row][i];
          lightestRow = row;
        }
      }
    }
    Optional<SpectralScale> judged = SpectralScale.of(lightest);
    if (judged.isEmpty()) {
      throw InputException.at(
          table.fileName(),
          table.line(lightestRow),
          table.columns().get(columns[0]),
          "expected spectra from 0 to 1 or from 0 to 100, found "
              + lightest
              + " as the greatest value, which tells neither; measure the paper with them");
    }
    SpectralScale scale = judged.get();
    findings.add(
        Finding.note(
            "spectra-from-0-to-" + scale.top(),
            String.format(
                Locale.ROOT,
                "%s:%d: spectra were taken to run from 0 to %s, because the lightest row reaches"
                    + " %.4g",
                table.fileName(),
                table.line(lightestRow),
                scale.top(),
                lightest)));
    for (int row = 0; row < spectra.length; row++) {
      for (int i = 0; i < columns.length; i++) {
        if (!scale.takes(spectra[row][i])) {
          throw InputException.at(
              table.fileName(),
              table.line(row),
              table.columns().get(columns[i]),
              "expected a reflectance from 0 to "
                  + scale.top()
                  + ", found \""
                  + table.text(row, columns[i])
                  + "\"; put the value right or measure again");
        }
        spectra[row][i] = scale.reflectance(spectra[row][i]);
      }
    }
    return spectra;
  }
}
