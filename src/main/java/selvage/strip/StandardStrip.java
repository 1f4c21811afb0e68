package selvage.strip;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import selvage.cgats.CgatsFile;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.color.Lab;
import selvage.color.ReferenceCondition;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.InkMixture;

/**
 * A standard strip: patches that are the same for every job, from a CGATS file under {@code
 * strips/standard} or of the user. {@code docs/file-formats.md} lists columns and roles.
 *
 * @param name how results call it
 * @param source where its choice of patches comes from
 * @param patches in the file's order; a substrate patch is among them
 * @param findings doubts met in reading
 */
public record StandardStrip(
    String name, String source, List<StandardPatch> patches, List<Finding> findings) {

  /** The role of unprinted substrate. */
  public static final String SUBSTRATE = "substrate";

  /** The built-in strips; the first is the default. */
  public static final List<String> BUILT_IN = List.of("full", "basic");

  /** The name for no standard strip: of it only the substrate patch stays. */
  public static final String NONE = "none";

  private static final String[] TINT_COLUMNS = {"CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"};
  private static final int MOST_PATCHES = 400;

  /**
   * One patch.
   *
   * @param role for example {@code solid} or {@code near-neutral}
   * @param mixture process inks only
   */
  public record StandardPatch(String role, InkMixture mixture) {
    public StandardPatch {
      if (!role.matches("[a-z0-9]+(-[a-z0-9]+)*") || mixture.hasSpot()) {
        throw new IllegalArgumentException("standard patch " + role + " of " + mixture);
      }
    }
  }

  public StandardStrip {
    patches = List.copyOf(patches);
    findings = List.copyOf(findings);
    if (patches.stream().noneMatch(patch -> patch.mixture().isPaper())) {
      throw new IllegalArgumentException(name + ": a standard strip needs a substrate patch");
    }
  }

  /** The aims of its patches in a condition, patch by patch. */
  public List<Lab> aims(ReferenceCondition condition) {
    List<Lab> aims = new ArrayList<>();
    for (StandardPatch patch : patches) {
      double[] cmyk = patch.mixture().cmyk();
      aims.add(condition.aim(cmyk[0], cmyk[1], cmyk[2], cmyk[3]).lab());
    }
    return aims;
  }

  /** No standard patches: the substrate alone. */
  public static StandardStrip none() {
    return new StandardStrip(
        NONE,
        "no standard strip was asked for",
        List.of(new StandardPatch(SUBSTRATE, InkMixture.PAPER)),
        List.of());
  }

  /**
   * Reads a strip.
   *
   * @param nameOrFile one of {@link #BUILT_IN}, {@link #NONE}, or the path of a CGATS file
   * @throws InputException where there is none, or it can't be used
   */
  public static StandardStrip load(String nameOrFile) throws InputException {
    if (nameOrFile.equals(NONE)) {
      return none();
    }
    if (BUILT_IN.contains(nameOrFile)) {
      String resource = "/strips/standard/" + nameOrFile + ".txt";
      return of(nameOrFile, CgatsReader.parse(nameOrFile, ReaderGeometry.builtIn(resource)));
    }
    Path path;
    try {
      path = Path.of(nameOrFile);
    } catch (java.nio.file.InvalidPathException e) {
      path = Path.of("");
    }
    if (!Files.isRegularFile(path)) {
      throw InputException.of(
          nameOrFile,
          "expected a standard strip's name ("
              + String.join(", ", BUILT_IN)
              + ", "
              + NONE
              + ") or a CGATS file, found neither");
    }
    String fileName = String.valueOf(path.getFileName());
    int dot = fileName.lastIndexOf('.');
    return of(dot > 0 ? fileName.substring(0, dot) : fileName, CgatsReader.read(path));
  }

  private static StandardStrip of(String name, CgatsFile file) throws InputException {
    CgatsTable table = file.first();
    OptionalInt roleColumn = table.column("ROLE");
    int[] tintColumns = new int[TINT_COLUMNS.length];
    for (int i = 0; i < tintColumns.length; i++) {
      tintColumns[i] =
          table
              .column(TINT_COLUMNS[i])
              .orElseThrow(() -> InputException.of(file.fileName(), missingColumns()));
    }
    if (table.rowCount() > MOST_PATCHES) {
      throw InputException.of(
          file.fileName(),
          "expected at most "
              + MOST_PATCHES
              + " patches for a strip, found "
              + table.rowCount()
              + "; leave some out");
    }
    List<Finding> findings = new ArrayList<>(file.findings());
    List<StandardPatch> patches = new ArrayList<>();
    boolean paper = false;
    for (int row = 0; row < table.rowCount(); row++) {
      InkMixture mixture = mixture(table, row, tintColumns);
      paper |= mixture.isPaper();
      String role = roleColumn.isPresent() ? table.text(row, roleColumn.getAsInt()) : "";
      if (mixture.isPaper()) {
        role = SUBSTRATE;
      } else if (role.isEmpty()) {
        role = guessedRole(mixture);
      }
      if (!role.matches("[a-z0-9]+(-[a-z0-9]+)*")) {
        throw InputException.at(
            file.fileName(),
            table.line(row),
            "ROLE",
            "expected a word in lower case such as solid or near-neutral, found \"" + role + "\"");
      }
      patches.add(new StandardPatch(role, mixture));
    }
    if (roleColumn.isEmpty()) {
      findings.add(
          Finding.warning(
              "roles-guessed",
              file.fileName()
                  + ": no column ROLE; solids and paper were known by their tints, the other"
                  + " patches have the role \"other\""));
    }
    if (!paper) {
      patches.add(0, new StandardPatch(SUBSTRATE, InkMixture.PAPER));
      findings.add(
          Finding.note("substrate-added", file.fileName() + ": has no paper patch; one was added"));
    }
    return new StandardStrip(name, table.keyword("SOURCE").orElse("not stated"), patches, findings);
  }

  private static String missingColumns() {
    return "expected the columns "
        + String.join(", ", TINT_COLUMNS)
        + " with tints in percent; add them";
  }

  private static InkMixture mixture(CgatsTable table, int row, int[] columns)
      throws InputException {
    double[] percents = new double[columns.length];
    for (int i = 0; i < columns.length; i++) {
      percents[i] = table.number(row, columns[i]);
      if (!(percents[i] >= 0 && percents[i] <= 100)) {
        throw InputException.at(
            table.fileName(),
            table.line(row),
            table.columns().get(columns[i]),
            "expected a tint from 0 to 100 percent, found " + percents[i]);
      }
    }
    return InkMixture.cmyk(percents[0], percents[1], percents[2], percents[3]);
  }

  private static String guessedRole(InkMixture mixture) {
    return mixture.units().size() == 1 && mixture.totalPercent() == 100 ? "solid" : "other";
  }
}
