package selvage.color;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import selvage.cgats.CgatsReader;
import selvage.finding.InputException;

/** Where reference printing conditions come from: the program's own data and the user's files. */
public final class ReferenceConditions {
  /** For a user's characterization data; common practice for coated paper, no source. */
  private static final double TOTAL_INK = 3.1;

  private ReferenceConditions() {}

  /** The names of the built-in conditions. */
  public static List<String> builtInNames() {
    return List.of("FOGRA39", "TR006", "FOGRA40", "TR002");
  }

  /** The condition of jobs that name none: FOGRA39, offset on coated paper. */
  public static ReferenceCondition defaultCondition() {
    return BuiltInCondition.FOGRA39.load(ReferenceCondition.Origin.BUILT_IN);
  }

  /**
   * The condition that a user names.
   *
   * @param nameOrFile a built-in name (capitals, blanks and hyphens don't matter), else a CGATS
   *     characterization file
   * @throws InputException where it is neither, or the file can't be used
   */
  public static ConditionChoice resolve(String nameOrFile) throws InputException {
    BuiltInCondition builtIn = BuiltInCondition.named(nameOrFile);
    if (builtIn != null) {
      return new ConditionChoice(builtIn.load(ReferenceCondition.Origin.BUILT_IN), List.of());
    }
    Path file = existing(nameOrFile);
    CharacterizationReader.Patches patches = CharacterizationReader.read(CgatsReader.read(file));
    CharacterizationData data =
        new CharacterizationData(patches.name(), patches.percents(), patches.lab());
    return new ConditionChoice(
        new CharacterizedCondition(patches.name(), ReferenceCondition.Origin.FILE, data, TOTAL_INK),
        patches.findings());
  }

  private static Path existing(String nameOrFile) throws InputException {
    try {
      Path file = Path.of(nameOrFile);
      if (Files.exists(file)) {
        return file;
      }
    } catch (InvalidPathException e) {
      throw unknown(nameOrFile, e);
    }
    throw unknown(nameOrFile, null);
  }

  private static InputException unknown(String nameOrFile, Exception cause) {
    return InputException.of(
        nameOrFile,
        "expected a reference printing condition, found neither a built-in name nor a file; give"
            + " one of "
            + String.join(", ", builtInNames())
            + ", an ICC output profile, or a CGATS characterization file",
        cause);
  }
}
