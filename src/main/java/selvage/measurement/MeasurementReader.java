package selvage.measurement;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import selvage.cgats.CgatsFile;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.color.ReferenceWhite;
import selvage.color.SpectralColumns;
import selvage.color.SpectralWeights;
import selvage.color.Xyz;
import selvage.cxf.CxfReader;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Measurement.LabOrigin;

/**
 * Makes measurements of CGATS text with LAB or XYZ columns (D50, 2°, absolute) or spectra. The
 * file's own Lab goes before its XYZ, and both before its spectra. A value that is missing or can't
 * be read refuses the file.
 */
public final class MeasurementReader {
  private static final double[] LAB_LOW = {-1, -200, -200};
  private static final double[] LAB_HIGH = {110, 200, 200};

  /** Y of the lightest reading at or below which XYZ are taken to run from 0 to 1. */
  static final double UNIT_SCALE_TOP = 1.3;

  /** ΔE*ab between the file's Lab and its XYZ above which one of them is for another white. */
  private static final double LAB_XYZ_AGREE = 0.5;

  /** As {@link #LAB_XYZ_AGREE} for spectra: tables of weights differ by up to 1 (own tests). */
  private static final double SPECTRA_AGREE = 2;

  private static final String[] PROCESS_COLUMNS = {"CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"};
  private static final String[] PROCESS_NAMES = {"Cyan", "Magenta", "Yellow", "Black"};

  private final CgatsTable table;
  private final String source;
  private final List<Finding> findings = new ArrayList<>();

  private MeasurementReader(CgatsTable table, String source) {
    this.table = table;
    this.source = source;
  }

  /**
   * Reads a file.
   *
   * @return a measurement for each table with colours
   * @throws InputException where the file is no CGATS text, has no Lab or XYZ, a value is missing
   *     or out of range, or the colours are not for D50 and 2°
   */
  public static List<Measurement> read(Path file) throws InputException {
    byte[] bytes = CgatsReader.bytes(file);
    return parse(file.toString(), bytes);
  }

  /** As {@link #read}, from a file's bytes: XML is read as CxF3, anything else as CGATS text. */
  public static List<Measurement> parse(String fileName, byte[] bytes) throws InputException {
    return CxfReader.isXml(bytes)
        ? CxfMeasurements.of(CxfReader.parse(fileName, bytes))
        : of(CgatsReader.parse(fileName, bytes));
  }

  /** As {@link #read}, from a file that is parsed already. */
  public static List<Measurement> of(CgatsFile file) throws InputException {
    List<Measurement> measurements = new ArrayList<>();
    boolean several = file.tables().size() > 1;
    int number = 0;
    int without = 0;
    for (CgatsTable table : file.tables()) {
      number++;
      String source = several ? file.fileName() + ", table " + number : file.fileName();
      MeasurementReader reader = new MeasurementReader(table, source);
      if (several && !reader.hasColors()) {
        without++;
        continue;
      }
      if (measurements.isEmpty()) {
        reader.findings.addAll(file.findings());
      }
      measurements.add(reader.measurement());
    }
    if (measurements.isEmpty()) {
      throw noColors(file.fileName(), file.first());
    }
    if (without > 0) {
      Measurement first = measurements.get(0);
      List<Finding> findings = new ArrayList<>(first.findings());
      findings.add(
          Finding.note(
              "tables-without-colors",
              file.fileName() + ": " + without + " tables without Lab or XYZ were left out"));
      measurements.set(
          0,
          new Measurement(
              first.source(),
              first.header(),
              first.condition(),
              first.labOrigin(),
              first.labMethod(),
              first.simulated(),
              first.readings(),
              findings));
    }
    return List.copyOf(measurements);
  }

  private boolean hasColors() throws InputException {
    return columns("LAB_L", "LAB_A", "LAB_B") != null
        || columns("XYZ_X", "XYZ_Y", "XYZ_Z") != null
        || SpectralColumns.of(table).isPresent();
  }

  private Measurement measurement() throws InputException {
    HeaderWords words = new HeaderWords(table.fileName(), table.keywords());
    int[] labColumns = columns("LAB_L", "LAB_A", "LAB_B");
    int[] xyzColumns = columns("XYZ_X", "XYZ_Y", "XYZ_Z");
    Optional<SpectralColumns> spectra = spectra(labColumns != null || xyzColumns != null);
    if (labColumns == null && xyzColumns == null && spectra.isEmpty()) {
      throw noColors(table.fileName(), table);
    }
    if (labColumns != null || xyzColumns != null) {
      words.requireD50();
    }
    Lab[] fromXyz = xyzColumns == null ? null : labOfXyz(xyzColumns);
    Lab[] fromSpectra = spectra.isEmpty() ? null : labOfSpectra(spectra.get());
    Lab[] labs = labColumns != null ? labs(labColumns) : fromXyz != null ? fromXyz : fromSpectra;
    if (labColumns != null && fromXyz != null) {
      compare(labs, fromXyz, LAB_XYZ_AGREE, "lab-and-xyz-differ", "Lab and XYZ");
    }
    if (labs != fromSpectra && fromSpectra != null) {
      compare(labs, fromSpectra, SPECTRA_AGREE, "colors-and-spectra-differ", "Lab and spectrum");
    }
    LabOrigin origin =
        labColumns != null ? LabOrigin.LAB : fromXyz != null ? LabOrigin.XYZ : LabOrigin.SPECTRA;
    String method =
        origin == LabOrigin.SPECTRA ? spectra.orElseThrow().weights().method() : origin.method();
    MeasurementCondition condition = words.condition();
    boolean simulated = words.simulated();
    words.findDoubts(source, findings);
    return new Measurement(
        source, header(), condition, origin, method, simulated, readings(labs), findings);
  }

  /** The spectra; where colours stand beside them, wavelengths that do not do are no fault. */
  private Optional<SpectralColumns> spectra(boolean besideColors) throws InputException {
    try {
      return SpectralColumns.of(table);
    } catch (InputException e) {
      if (!besideColors) {
        throw e;
      }
      findings.add(
          Finding.note("spectra-not-used", e.getMessage() + "; the file's own colours were taken"));
      return Optional.empty();
    }
  }

  private Map<String, String> header() {
    Map<String, String> header = new HashMap<>();
    table
        .keywords()
        .forEach(
            keyword ->
                header.merge(keyword.name(), keyword.value(), (one, more) -> one + " " + more));
    return header;
  }

  private int[] columns(String... names) throws InputException {
    int[] found = new int[names.length];
    for (int i = 0; i < names.length; i++) {
      OptionalInt column = table.column(names[i]);
      if (column.isEmpty()) {
        return null;
      }
      found[i] = column.getAsInt();
    }
    return found;
  }

  private Lab[] labs(int[] columns) throws InputException {
    Lab[] labs = new Lab[table.rowCount()];
    double[] values = new double[3];
    for (int row = 0; row < labs.length; row++) {
      for (int axis = 0; axis < 3; axis++) {
        values[axis] = table.number(row, columns[axis]);
        if (values[axis] < LAB_LOW[axis] || values[axis] > LAB_HIGH[axis]) {
          throw outOfRange(row, columns[axis], axis == 0 ? "0 to 100" : "-128 to 127");
        }
      }
      labs[row] = new Lab(values[0], values[1], values[2]);
    }
    return labs;
  }

  private Lab[] labOfXyz(int[] columns) throws InputException {
    double[][] xyz = new double[table.rowCount()][3];
    double lightest = 0;
    for (int row = 0; row < xyz.length; row++) {
      for (int axis = 0; axis < 3; axis++) {
        xyz[row][axis] = table.number(row, columns[axis]);
        if (xyz[row][axis] < 0 || xyz[row][axis] > 130) {
          throw outOfRange(row, columns[axis], "0 to 100");
        }
      }
      lightest = Math.max(lightest, xyz[row][1]);
    }
    double scale = 1;
    if (lightest <= UNIT_SCALE_TOP) {
      scale = 100;
      findings.add(
          Finding.warning(
              "xyz-from-0-to-1",
              source
                  + ": XYZ were taken to run from 0 to 1, because the lightest has Y = "
                  + lightest));
    }
    Lab[] labs = new Lab[xyz.length];
    for (int row = 0; row < xyz.length; row++) {
      labs[row] =
          ReferenceWhite.ISO_13655.toLab(
              new Xyz(scale * xyz[row][0], scale * xyz[row][1], scale * xyz[row][2]));
    }
    return labs;
  }

  private Lab[] labOfSpectra(SpectralColumns columns) throws InputException {
    double[][] spectra = columns.reflectances(findings);
    SpectralWeights weights = columns.weights();
    Lab[] labs = new Lab[spectra.length];
    for (int row = 0; row < labs.length; row++) {
      labs[row] = weights.lab(spectra[row]);
    }
    return labs;
  }

  private InputException outOfRange(int row, int column, String expected) {
    return InputException.at(
        table.fileName(),
        table.line(row),
        table.columns().get(column),
        "expected a number from "
            + expected
            + ", found \""
            + table.text(row, column)
            + "\"; put the value right or measure again");
  }

  private void compare(Lab[] taken, Lab[] others, double agree, String code, String what) {
    double worst = 0;
    int worstRow = 0;
    for (int row = 0; row < taken.length; row++) {
      double difference = ColorDifference.de76(taken[row], others[row]);
      if (difference > worst) {
        worst = difference;
        worstRow = row;
      }
    }
    if (worst > agree) {
      findings.add(
          Finding.warning(
              code,
              String.format(
                  Locale.ROOT,
                  "%s:%d: %s of this row differ by ΔE*ab %.2f, so one of them is not for D50, 2°"
                      + " and the perfect white; the colour values were taken",
                  table.fileName(),
                  table.line(worstRow),
                  what,
                  worst)));
    }
  }

  private List<Reading> readings(Lab[] labs) throws InputException {
    OptionalInt id = table.column("SAMPLE_ID", "SAMPLEID", "PATCH_ID", "SAMPLE_LOC");
    OptionalInt name = table.column("SAMPLE_NAME", "SAMPLENAME", "PATCH_NAME");
    List<Map<String, Double>> tints = tints();
    List<Reading> readings = new ArrayList<>(labs.length);
    for (int row = 0; row < labs.length; row++) {
      readings.add(
          new Reading(
              id.isPresent() ? table.text(row, id.getAsInt()).strip() : "",
              name.isPresent() ? table.text(row, name.getAsInt()).strip() : "",
              tints.get(row),
              labs[row],
              table.line(row)));
    }
    return readings;
  }

  /** What was printed, a row: the CMYK columns, and columns named as a spot colorant may be. */
  private List<Map<String, Double>> tints() throws InputException {
    List<Map<String, Double>> tints = new ArrayList<>();
    for (int row = 0; row < table.rowCount(); row++) {
      tints.add(new TreeMap<>());
    }
    int[] process = columns(PROCESS_COLUMNS);
    for (int inks = 4; process == null && inks <= 15; inks++) {
      process = columns(inks + "CLR_1", inks + "CLR_2", inks + "CLR_3", inks + "CLR_4");
      if (process != null) {
        findings.add(
            Finding.note(
                "first-four-are-cmyk",
                source + ": " + inks + "CLR_1 to _4 were taken as cyan, magenta, yellow, black"));
      }
    }
    if (process == null) {
      return tints;
    }
    double highest = 0;
    for (int row = 0; row < table.rowCount(); row++) {
      for (int ink = 0; ink < 4; ink++) {
        double tint = table.number(row, process[ink]);
        if (tint < 0 || tint > 100) {
          throw outOfRange(row, process[ink], "0 to 100");
        }
        highest = Math.max(highest, tint);
      }
    }
    double scale = 1;
    if (highest > 0 && highest <= 1) {
      scale = 100;
      findings.add(
          Finding.note("cmyk-from-0-to-1", source + ": CMYK were taken to run from 0 to 1"));
    }
    for (int row = 0; row < table.rowCount(); row++) {
      for (int ink = 0; ink < 4; ink++) {
        tints.get(row).put(PROCESS_NAMES[ink], scale * table.number(row, process[ink]));
      }
    }
    for (int column = 0; column < table.columns().size(); column++) {
      if (!isKnown(table.columns().get(column)) && isTint(column)) {
        for (int row = 0; row < table.rowCount(); row++) {
          tints
              .get(row)
              .put(inkName(table.columns().get(column)), scale * table.number(row, column));
        }
      }
    }
    return tints;
  }

  /** A column's colorant: what the keyword {@code COLUMN_NAME} says, else the column's own name. */
  private String inkName(String column) {
    return table.keyword(column + "_NAME").orElse(column);
  }

  private static boolean isKnown(String column) {
    String name = column.toUpperCase(Locale.ROOT);
    return name.startsWith("SAMPLE")
        || name.startsWith("PATCH_")
        || name.startsWith("CMYK_")
        || name.endsWith("CLR_1")
        || name.endsWith("CLR_2")
        || name.endsWith("CLR_3")
        || name.endsWith("CLR_4")
        || name.startsWith("LAB_")
        || name.startsWith("XYZ_")
        || SpectralColumns.isSpectral(name);
  }

  private boolean isTint(int column) {
    try {
      for (int row = 0; row < table.rowCount(); row++) {
        double value = table.number(row, column);
        if (value < 0 || value > 100) {
          return false;
        }
      }
      return true;
    } catch (InputException e) {
      return false;
    }
  }

  private static InputException noColors(String file, CgatsTable table) {
    return InputException.at(
        file,
        table.columnsLine(),
        "BEGIN_DATA_FORMAT",
        "expected columns LAB_L LAB_A LAB_B, XYZ_X XYZ_Y XYZ_Z or"
            + " spectra from 400 to 700 nm, found "
            + shortened(String.join(" ", table.columns()))
            + "; export with Lab for D50 and 2°");
  }

  private static String shortened(String text) {
    return text.length() <= 80 ? text : text.substring(0, 80) + "…";
  }
}
