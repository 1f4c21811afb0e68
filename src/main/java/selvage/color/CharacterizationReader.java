package selvage.color;

import java.util.ArrayList;
import java.util.List;
import selvage.cgats.CgatsFile;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** Reads characterization data: CMYK columns beside Lab or XYZ (CGATS.17, ISO 12642-2 charts). */
final class CharacterizationReader {
  /** Paper, four solids and a few mixtures: below this nothing can be interpolated. */
  static final int LEAST_PATCHES = 9;

  private static final String[][] INK_COLUMNS = {
    {"CMYK_C", "4CLR_1"}, {"CMYK_M", "4CLR_2"}, {"CMYK_Y", "4CLR_3"}, {"CMYK_K", "4CLR_4"}
  };

  /** As slack for printed decimals, in percent. */
  private static final double OVER = 0.5;

  /** The patches of a chart, row by row. */
  static final class Patches {
    private final String name;
    private final double[] percents;
    private final double[] lab;
    private final List<Finding> findings;

    private Patches(String name, double[] percents, double[] lab, List<Finding> findings) {
      this.name = name;
      this.percents = percents;
      this.lab = lab;
      this.findings = List.copyOf(findings);
    }

    /** The condition's name, as the file gives it. */
    String name() {
      return name;
    }

    /** C, M, Y, K a patch. */
    double[] percents() {
      return percents;
    }

    /** L*, a*, b* a patch. */
    double[] lab() {
      return lab;
    }

    /** What was guessed in reading. */
    List<Finding> findings() {
      return findings;
    }
  }

  private CharacterizationReader() {}

  /**
   * Takes the patches from the first table that has CMYK and colour.
   *
   * @throws InputException where no table does, a value is missing or out of range, or the paper or
   *     a solid is not among the patches
   */
  static Patches read(CgatsFile file) throws InputException {
    String fileName = file.fileName();
    CgatsTable table = tableWithInks(file);
    List<Finding> findings = new ArrayList<>(file.findings());
    double[] percents = inks(table, findings);
    double[] lab = ColorColumns.lab(table, paperRow(percents), findings);
    if (lab.length / 3 < LEAST_PATCHES) {
      throw InputException.of(
          fileName,
          "expected at least "
              + LEAST_PATCHES
              + " patches of characterization data, found "
              + lab.length / 3
              + "; give a whole chart");
    }
    requireCorners(fileName, percents);
    return new Patches(name(table), percents, lab, findings);
  }

  private static CgatsTable tableWithInks(CgatsFile file) throws InputException {
    for (CgatsTable table : file.tables()) {
      boolean all = true;
      for (String[] names : INK_COLUMNS) {
        all &= table.column(names).isPresent();
      }
      if (all) {
        return table;
      }
    }
    throw InputException.of(
        file.fileName(),
        "expected characterization data with the columns CMYK_C, CMYK_M, CMYK_Y, CMYK_K, found "
            + file.first().columns()
            + "; give a file with device values beside the measurements");
  }

  private static double[] inks(CgatsTable table, List<Finding> findings) throws InputException {
    int rows = table.rowCount();
    int[] columns = new int[4];
    for (int i = 0; i < 4; i++) {
      columns[i] = table.column(INK_COLUMNS[i]).orElseThrow();
    }
    double[] tints = new double[4 * rows];
    double most = 0;
    for (int row = 0; row < rows; row++) {
      for (int i = 0; i < 4; i++) {
        double tint = table.number(row, columns[i]);
        if (tint < -OVER || tint > 100 + OVER) {
          throw InputException.at(
              table.fileName(),
              table.line(row),
              table.columns().get(columns[i]),
              "expected a tint from 0 to 100 percent, found " + table.text(row, columns[i]));
        }
        tints[4 * row + i] = tint;
        most = Math.max(most, tint);
      }
    }
    boolean fractions = most <= 1.005;
    if (fractions) {
      findings.add(
          Finding.note(
              "cmyk-from-0-to-1",
              table.fileName() + ": no tint is greater than 1; they were read as 0 to 1"));
    }
    for (int i = 0; i < tints.length; i++) {
      double percent = fractions ? 100 * tints[i] : tints[i];
      tints[i] = Math.min(100, Math.max(0, Math.rint(percent * 1e4) / 1e4));
    }
    return tints;
  }

  private static int paperRow(double[] percents) {
    for (int row = 0; row < percents.length / 4; row++) {
      if (is(percents, row, 0, 0, 0, 0)) {
        return row;
      }
    }
    return -1;
  }

  private static void requireCorners(String fileName, double[] percents) throws InputException {
    String[] names = {
      "unprinted paper", "solid cyan", "solid magenta", "solid yellow", "solid black"
    };
    for (int corner = 0; corner < names.length; corner++) {
      boolean found = false;
      for (int row = 0; row < percents.length / 4 && !found; row++) {
        found =
            is(
                percents,
                row,
                corner == 1 ? 100 : 0,
                corner == 2 ? 100 : 0,
                corner == 3 ? 100 : 0,
                corner == 4 ? 100 : 0);
      }
      if (!found) {
        throw InputException.of(
            fileName,
            "expected a patch of "
                + names[corner]
                + " among the data, found none; give a whole chart");
      }
    }
  }

  private static boolean is(double[] percents, int row, int c, int m, int y, int k) {
    return percents[4 * row] == c
        && percents[4 * row + 1] == m
        && percents[4 * row + 2] == y
        && percents[4 * row + 3] == k;
  }

  private static String name(CgatsTable table) {
    String given = table.keyword("DESCRIPTOR").orElse("");
    if (given.isBlank()) {
      given = table.keyword("FILE_DESCRIPTOR").orElse("");
    }
    if (!given.isBlank()) {
      return given.strip();
    }
    String file = table.fileName();
    int slash = Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\'));
    int dot = file.lastIndexOf('.');
    return file.substring(slash + 1, dot > slash + 1 ? dot : file.length());
  }
}
