package selvage.color;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.TreeSet;
import selvage.cgats.CgatsFile;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.cgats.CgatsWriter;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;

/**
 * Corrections as CGATS text: one table of curves, one of whole mixtures where there are any. {@code
 * docs/file-formats.md} gives the form.
 */
public final class CorrectionText {
  private static final String LIMIT = "INK_LIMIT";
  private static final List<String> CURVES =
      List.of("INK", "TINT", "CORRECTED", "ADD_C", "ADD_M", "ADD_Y", "ADD_K");
  private static final List<String> RECIPES = List.of("RECIPE", "INK", "TINT", "CORRECTED");

  private CorrectionText() {}

  /**
   * Writes a correction.
   *
   * @param comments lines for the header of the first table
   * @return text, to be encoded in UTF-8; percents to 0.01
   */
  public static String write(Correction correction, List<String> comments) {
    CgatsWriter writer = new CgatsWriter().table();
    comments.forEach(writer::comment);
    writer
        .keyword("ORIGINATOR", "Selvage")
        .keyword("FILE_DESCRIPTOR", "Correction curves: what to send for a tint, in percent")
        .keyword(LIMIT, CgatsWriter.number(correction.inkLimitPercent(), 1))
        .columns(CURVES);
    for (Correction.Curve curve : correction.curves()) {
      for (Correction.Point point : curve.points()) {
        List<String> cells = new ArrayList<>();
        cells.add(curve.ink().name());
        cells.add(CgatsWriter.number(point.tintPercent(), 2));
        cells.add(CgatsWriter.number(point.correctedPercent(), 2));
        point.addedPercent().forEach(added -> cells.add(CgatsWriter.number(added, 2)));
        writer.row(cells);
      }
    }
    if (!correction.recipes().isEmpty()) {
      writer
          .table()
          .keyword("ORIGINATOR", "Selvage")
          .keyword("FILE_DESCRIPTOR", "Corrected mixtures: what to send instead, in percent")
          .columns(RECIPES);
      int number = 0;
      for (Map.Entry<InkMixture, InkMixture> recipe : correction.recipes().entrySet()) {
        number++;
        TreeSet<Colorant> inks = new TreeSet<>(recipe.getKey().units().keySet());
        inks.addAll(recipe.getValue().units().keySet());
        for (Colorant ink : inks) {
          writer.row(
              List.of(
                  Integer.toString(number),
                  ink.name(),
                  CgatsWriter.number(recipe.getKey().percent(ink), 4),
                  CgatsWriter.number(recipe.getValue().percent(ink), 4)));
        }
      }
    }
    return writer.text();
  }

  /**
   * Reads a correction.
   *
   * @throws InputException where a column, tint or curve is missing or out of range
   */
  public static Correction read(Path file) throws InputException {
    return of(CgatsReader.read(file));
  }

  static Correction of(CgatsFile file) throws InputException {
    List<Correction.Curve> curves = new ArrayList<>();
    Map<InkMixture, InkMixture> recipes = new LinkedHashMap<>();
    double limit = 400;
    for (CgatsTable table : file.tables()) {
      Optional<String> stated = table.keyword(LIMIT);
      if (stated.isPresent()) {
        limit = limit(table, stated.get());
      }
      if (table.column("RECIPE").isPresent()) {
        takeRecipes(table, recipes);
      } else {
        takeCurves(table, curves);
      }
    }
    try {
      return new Correction(curves, recipes, limit);
    } catch (IllegalArgumentException e) {
      throw InputException.of(file.fileName(), "found " + e.getMessage() + "; put it right", e);
    }
  }

  private static double limit(CgatsTable table, String text) throws InputException {
    try {
      return Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw InputException.of(
          table.fileName(), LIMIT + ": expected percent, found \"" + text + "\"; put it right", e);
    }
  }

  private static void takeCurves(CgatsTable table, List<Correction.Curve> curves)
      throws InputException {
    int[] columns = columns(table, CURVES);
    Map<String, List<Correction.Point>> points = new LinkedHashMap<>();
    for (int row = 0; row < table.rowCount(); row++) {
      List<Double> added = new ArrayList<>();
      for (int i = 3; i < 7; i++) {
        added.add(percent(table, row, columns[i]));
      }
      points
          .computeIfAbsent(table.text(row, columns[0]), ink -> new ArrayList<>())
          .add(
              new Correction.Point(
                  percent(table, row, columns[1]), percent(table, row, columns[2]), added));
    }
    for (Map.Entry<String, List<Correction.Point>> ink : points.entrySet()) {
      try {
        curves.add(new Correction.Curve(Colorant.named(ink.getKey()), ink.getValue()));
      } catch (IllegalArgumentException e) {
        throw InputException.of(
            table.fileName(), "found " + e.getMessage() + "; put the curve right", e);
      }
    }
  }

  private static void takeRecipes(CgatsTable table, Map<InkMixture, InkMixture> recipes)
      throws InputException {
    int[] columns = columns(table, RECIPES);
    Map<String, List<Map<String, Double>>> mixtures = new LinkedHashMap<>();
    for (int row = 0; row < table.rowCount(); row++) {
      List<Map<String, Double>> pair =
          mixtures.computeIfAbsent(
              table.text(row, columns[0]), key -> List.of(new TreeMap<>(), new TreeMap<>()));
      String ink = table.text(row, columns[1]);
      pair.get(0).put(ink, percent(table, row, columns[2]));
      pair.get(1).put(ink, percent(table, row, columns[3]));
    }
    for (List<Map<String, Double>> pair : mixtures.values()) {
      recipes.put(InkMixture.ofPercents(pair.get(0)), InkMixture.ofPercents(pair.get(1)));
    }
  }

  private static int[] columns(CgatsTable table, List<String> names) throws InputException {
    int[] columns = new int[names.size()];
    for (int i = 0; i < columns.length; i++) {
      OptionalInt found = table.column(names.get(i));
      if (found.isEmpty()) {
        throw InputException.at(
            table.fileName(),
            table.columnsLine(),
            names.get(i),
            "expected a correction with the columns " + names + ", found " + table.columns());
      }
      columns[i] = found.getAsInt();
    }
    return columns;
  }

  private static double percent(CgatsTable table, int row, int column) throws InputException {
    double percent = table.number(row, column);
    if (!(percent >= 0 && percent <= 100)) {
      throw InputException.at(
          table.fileName(),
          table.line(row),
          table.columns().get(column),
          "expected 0 to 100 percent, found " + table.text(row, column));
    }
    return percent;
  }
}
