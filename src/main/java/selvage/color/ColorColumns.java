package selvage.color;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** The colour columns of a CGATS table as absolute Lab: LAB_L, LAB_A, LAB_B, else XYZ_X, Y, Z. */
final class ColorColumns {
  private static final String[] LAB = {"LAB_L", "LAB_A", "LAB_B"};
  private static final String[] XYZ = {"XYZ_X", "XYZ_Y", "XYZ_Z"};

  private ColorColumns() {}

  /**
   * Reads a table's colours. Lab is preferred, as files keep it with more digits in the darks; XYZ
   * is taken against the white of ISO 13655, and may go to 1 or to 100.
   *
   * @param paperRow the row of the lightest patch, by which the scale of XYZ is judged; -1 to take
   *     the lightest of all
   * @return L*, a*, b* a row
   * @throws InputException where neither is there, a value is missing or out of range, or the
   *     header names another illuminant than D50 or another observer than 2°
   */
  static double[] lab(CgatsTable table, int paperRow, List<Finding> findings)
      throws InputException {
    requireD50(table);
    int[] columns = columns(table, LAB);
    if (columns != null) {
      return labColumns(table, columns);
    }
    columns = columns(table, XYZ);
    if (columns != null) {
      return xyzColumns(table, columns, paperRow, findings);
    }
    throw InputException.of(
        table.fileName(),
        "expected the columns LAB_L, LAB_A, LAB_B or XYZ_X, XYZ_Y, XYZ_Z, found "
            + table.columns()
            + "; export the data with colour values");
  }

  private static void requireD50(CgatsTable table) throws InputException {
    for (CgatsTable.Keyword keyword : table.keywords()) {
      String value = keyword.value().toUpperCase(Locale.ROOT);
      boolean weights = keyword.name().equals("WEIGHTING_FUNCTION");
      boolean illuminant =
          keyword.name().equals("ILLUMINANT") || (weights && value.contains("ILLUMINANT"));
      boolean observer =
          keyword.name().equals("OBSERVER") || (weights && value.contains("OBSERVER"));
      if ((illuminant && !value.isBlank() && !value.contains("D50"))
          || (observer && value.contains("10"))) {
        throw InputException.at(
            table.fileName(),
            keyword.line(),
            keyword.name(),
            "expected colours for D50 and the 2° observer, found \""
                + keyword.value()
                + "\"; export them for D50, 2°");
      }
    }
  }

  private static int[] columns(CgatsTable table, String[] names) throws InputException {
    List<Integer> found = new ArrayList<>();
    for (String name : names) {
      table.column(name).ifPresent(found::add);
    }
    return found.size() == 3 ? new int[] {found.get(0), found.get(1), found.get(2)} : null;
  }

  private static double[] labColumns(CgatsTable table, int[] columns) throws InputException {
    double[] lab = new double[3 * table.rowCount()];
    for (int row = 0; row < table.rowCount(); row++) {
      for (int i = 0; i < 3; i++) {
        double low = i == 0 ? -1 : -200;
        double high = i == 0 ? 110 : 200;
        lab[3 * row + i] = inRange(table, row, columns[i], low, high);
      }
    }
    return lab;
  }

  private static double[] xyzColumns(
      CgatsTable table, int[] columns, int paperRow, List<Finding> findings) throws InputException {
    int rows = table.rowCount();
    double[] xyz = new double[3 * rows];
    double lightest = 0;
    for (int row = 0; row < rows; row++) {
      for (int i = 0; i < 3; i++) {
        xyz[3 * row + i] = inRange(table, row, columns[i], -1, 150);
      }
      lightest = Math.max(lightest, xyz[3 * row + 1]);
    }
    double y = paperRow < 0 ? lightest : xyz[3 * paperRow + 1];
    double scale = 1;
    if (y <= 1.5) {
      scale = 100;
      findings.add(
          Finding.note(
              "xyz-from-0-to-1",
              table.fileName() + ": Y of the lightest patch is " + y + "; XYZ was read as 0 to 1"));
    }
    double[] lab = new double[3 * rows];
    for (int row = 0; row < rows; row++) {
      Lab color =
          ReferenceWhite.ISO_13655.toLab(
              new Xyz(scale * xyz[3 * row], scale * xyz[3 * row + 1], scale * xyz[3 * row + 2]));
      lab[3 * row] = color.l();
      lab[3 * row + 1] = color.a();
      lab[3 * row + 2] = color.b();
    }
    return lab;
  }

  private static double inRange(CgatsTable table, int row, int column, double low, double high)
      throws InputException {
    double value = table.number(row, column);
    if (value < low || value > high) {
      throw InputException.at(
          table.fileName(),
          table.line(row),
          table.columns().get(column),
          "expected a number from "
              + (int) low
              + " to "
              + (int) high
              + ", found "
              + table.text(row, column)
              + "; put the value right or remove the row");
    }
    return value;
  }
}
