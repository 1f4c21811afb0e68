package selvage.color;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import selvage.cgats.CgatsReader;
import selvage.finding.Finding;
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
   * @param nameOrFile a built-in name (capitals, blanks and hyphens don't matter), else an ICC
   *     output profile or a CGATS characterization file
   * @throws InputException where it is none of these, or the file can't be used
   */
  public static ConditionChoice resolve(String nameOrFile) throws InputException {
    BuiltInCondition builtIn = BuiltInCondition.named(nameOrFile);
    if (builtIn != null) {
      return new ConditionChoice(builtIn.load(ReferenceCondition.Origin.BUILT_IN), List.of());
    }
    Path file = existing(nameOrFile);
    byte[] bytes = read(file);
    if (IccProfile.isProfile(bytes)) {
      return ProfileCondition.of(
          IccProfile.parse(nameOrFile, bytes), "", ReferenceCondition.Origin.FILE);
    }
    CharacterizationReader.Patches patches =
        CharacterizationReader.read(CgatsReader.parse(nameOrFile, bytes));
    CharacterizationData data =
        new CharacterizationData(patches.name(), patches.percents(), patches.lab());
    return new ConditionChoice(
        new CharacterizedCondition(patches.name(), ReferenceCondition.Origin.FILE, data, TOTAL_INK),
        patches.findings());
  }

  /**
   * The condition of a job's output intent: its embedded profile; else the built-in condition that
   * it names; else the default. What could not be used is a finding, never an error, because the
   * user can't change the job.
   *
   * @param identifier the registered name (OutputConditionIdentifier); may be null
   * @param info the text for people (OutputCondition or Info); may be null
   * @param profileOrNull the embedded profile (DestOutputProfile), decoded; null where there is
   *     none
   */
  public static ConditionChoice forOutputIntent(
      String identifier, String info, byte[] profileOrNull) {
    String registered = identifier == null ? "" : identifier.strip();
    String text = info == null ? "" : info.strip();
    String shown =
        registered.isEmpty() || registered.equalsIgnoreCase("Custom") ? text : registered;
    List<Finding> findings = new ArrayList<>();
    if (profileOrNull != null) {
      try {
        IccProfile profile = IccProfile.parse("output intent", profileOrNull);
        return ProfileCondition.of(profile, shown, ReferenceCondition.Origin.OUTPUT_INTENT);
      } catch (InputException e) {
        findings.add(
            Finding.warning(
                "output-intent-profile-unusable", e.getMessage() + "; the profile was left aside"));
      }
    }
    BuiltInCondition named = BuiltInCondition.namedWithin(registered);
    if (named == null) {
      named = BuiltInCondition.namedWithin(text);
    }
    if (named != null) {
      return new ConditionChoice(named.load(ReferenceCondition.Origin.OUTPUT_INTENT), findings);
    }
    findings.add(
        Finding.warning(
            "output-intent-unknown",
            "the job's output intent "
                + (shown.isEmpty() ? "names no printing condition" : "names \"" + shown + "\"")
                + " and brings no usable profile; FOGRA39 was taken; give the agreed condition with"
                + " --condition"));
    return new ConditionChoice(defaultCondition(), findings);
  }

  private static byte[] read(Path file) throws InputException {
    if (Files.isDirectory(file)) {
      throw InputException.of(file.toString(), "expected a file, found a folder");
    }
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(CgatsReader.MAX_BYTES + 1);
      if (bytes.length > CgatsReader.MAX_BYTES) {
        throw InputException.of(
            file.toString(),
            "expected at most " + (CgatsReader.MAX_BYTES >> 20) + " MiB, found more");
      }
      return bytes;
    } catch (IOException e) {
      throw InputException.of(file.toString(), "can't be read: " + e.getMessage(), e);
    }
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
