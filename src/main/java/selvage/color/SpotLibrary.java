package selvage.color;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.OptionalInt;
import java.util.TreeMap;
import selvage.cgats.CgatsFile;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;

/**
 * A user's library of spot inks, read from CGATS text; {@code docs/file-formats.md} gives the form.
 *
 * @param inks by colorant name, in the file's order, each {@link AimSource#LIBRARY}
 * @param findings what was guessed or left out
 */
public record SpotLibrary(Map<String, SpotInk> inks, List<Finding> findings) {
  public SpotLibrary {
    inks = Collections.unmodifiableMap(new LinkedHashMap<>(inks));
    findings = List.copyOf(findings);
  }

  /**
   * Reads a library. Lab is absolute, D50, 2°.
   *
   * @throws InputException where a name, tint or colour is missing or out of range, a tint stands
   *     twice, or an ink lacks its solid
   */
  public static SpotLibrary read(Path file) throws InputException {
    CgatsFile cgats = CgatsReader.read(file);
    List<Finding> findings = new ArrayList<>(cgats.findings());
    Map<String, NavigableMap<Double, Lab>> ramps = new LinkedHashMap<>();
    for (CgatsTable table : cgats.tables()) {
      take(table, ramps, findings);
    }
    Map<String, SpotInk> inks = new LinkedHashMap<>();
    for (Map.Entry<String, NavigableMap<Double, Lab>> ramp : ramps.entrySet()) {
      String name = ramp.getKey();
      if (!ramp.getValue().containsKey(100.0)) {
        throw InputException.of(
            cgats.fileName(),
            "expected the solid of \""
                + name
                + "\" (TINT 100), found only "
                + ramp.getValue().keySet()
                + "; add it");
      }
      if (Colorant.named(name).isSpot()) {
        inks.put(name, new SpotInk(name, ramp.getValue(), AimSource.LIBRARY));
      } else {
        findings.add(
            Finding.note(
                "process-ink-in-spot-library",
                cgats.fileName()
                    + ": \""
                    + name
                    + "\" is a process ink, whose colour comes from the printing condition; it was"
                    + " left out"));
      }
    }
    return new SpotLibrary(inks, findings);
  }

  private static void take(
      CgatsTable table, Map<String, NavigableMap<Double, Lab>> ramps, List<Finding> findings)
      throws InputException {
    OptionalInt names = table.column("SAMPLE_NAME", "SampleName", "SAMPLE_ID", "SampleID");
    if (names.isEmpty()) {
      throw InputException.at(
          table.fileName(),
          table.columnsLine(),
          "SAMPLE_NAME",
          "expected a column with the inks' names, found " + table.columns());
    }
    OptionalInt tints = table.column("TINT");
    double[] lab = ColorColumns.lab(table, -1, findings);
    for (int row = 0; row < table.rowCount(); row++) {
      String name = table.text(row, names.getAsInt());
      if (name.isBlank()) {
        throw InputException.at(
            table.fileName(),
            table.line(row),
            table.columns().get(names.getAsInt()),
            "expected an ink's name, found nothing; name it or remove the row");
      }
      double tint = tints.isPresent() ? tint(table, row, tints.getAsInt()) : 100;
      Lab before =
          ramps
              .computeIfAbsent(name, unused -> new TreeMap<>())
              .put(tint, new Lab(lab[3 * row], lab[3 * row + 1], lab[3 * row + 2]));
      if (before != null) {
        throw InputException.at(
            table.fileName(),
            table.line(row),
            table.columns().get(names.getAsInt()),
            "expected each ink and tint once, found \""
                + name
                + "\" at "
                + tint
                + " % a second time; remove one");
      }
    }
  }

  private static double tint(CgatsTable table, int row, int column) throws InputException {
    double tint = table.number(row, column);
    if (tint < 0 || tint > 100) {
      throw InputException.at(
          table.fileName(),
          table.line(row),
          table.columns().get(column),
          "expected a tint from 0 to 100 percent, found " + table.text(row, column));
    }
    return tint;
  }
}
