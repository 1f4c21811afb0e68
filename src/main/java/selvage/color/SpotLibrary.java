package selvage.color;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
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
import selvage.cxf.CxfReader;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;

/**
 * A user's library of spot inks, read from CGATS text or CxF3; {@code docs/file-formats.md} gives
 * the form.
 *
 * @param inks by colorant name, in the file's order, each {@link AimSource#LIBRARY}
 * @param findings what was guessed or left out
 */
public record SpotLibrary(Map<String, SpotInk> inks, List<Finding> findings) {
  private static final int MOST_BYTES = 64 << 20;

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
    byte[] bytes = bytes(file);
    return CxfReader.isXml(bytes)
        ? ofCxf(file.toString(), bytes)
        : readCgats(CgatsReader.parse(file.toString(), bytes));
  }

  private static byte[] bytes(Path file) throws InputException {
    if (Files.isDirectory(file)) {
      throw InputException.of(file.toString(), "expected a file, found a folder");
    }
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(MOST_BYTES + 1);
      if (bytes.length > MOST_BYTES) {
        throw InputException.of(
            file.toString(),
            "expected a library of at most " + (MOST_BYTES >> 20) + " MiB, found more");
      }
      return bytes;
    } catch (NoSuchFileException e) {
      throw InputException.of(file.toString(), "no such file; check the name", e);
    } catch (IOException e) {
      throw InputException.of(file.toString(), "can't be read: " + e.getMessage(), e);
    }
  }

  /**
   * Reads CxF3.
   *
   * @param file a name for messages
   * @throws InputException as {@link #read} does
   */
  public static SpotLibrary ofCxf(String file, byte[] bytes) throws InputException {
    List<Finding> findings = new ArrayList<>();
    Map<String, NavigableMap<Double, Lab>> ramps = new LinkedHashMap<>();
    CxfSpots.read(file, bytes, ramps, findings);
    return of(file, "(no tint, or 100 %)", ramps, findings);
  }

  private static SpotLibrary readCgats(CgatsFile cgats) throws InputException {
    List<Finding> findings = new ArrayList<>(cgats.findings());
    Map<String, NavigableMap<Double, Lab>> ramps = new LinkedHashMap<>();
    for (CgatsTable table : cgats.tables()) {
      take(table, ramps, findings);
    }
    return of(cgats.fileName(), "(TINT 100)", ramps, findings);
  }

  private static SpotLibrary of(
      String file,
      String solid,
      Map<String, NavigableMap<Double, Lab>> ramps,
      List<Finding> findings)
      throws InputException {
    Map<String, SpotInk> inks = new LinkedHashMap<>();
    for (Map.Entry<String, NavigableMap<Double, Lab>> ramp : ramps.entrySet()) {
      String name = ramp.getKey();
      if (!ramp.getValue().containsKey(100.0)) {
        throw InputException.of(
            file,
            "expected the solid of \""
                + name
                + "\" "
                + solid
                + ", found only "
                + ramp.getValue().keySet()
                + "; add it");
      }
      if (Colorant.named(name).isSpot()) {
        inks.put(name, new SpotInk(name, ramp.getValue(), AimSource.LIBRARY));
      } else {
        findings.add(
            Finding.note(
                "process-ink-in-spot-library",
                file
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
