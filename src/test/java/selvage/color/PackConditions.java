package selvage.color;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import selvage.cgats.CgatsReader;
import selvage.finding.InputException;

/**
 * Writes the packed form of the built-in characterization data from the text files beside it. Run
 * from the project's root after a change of the text files: {@code mvn -q test-compile}, then
 * {@code java -cp target/classes:target/test-classes selvage.color.PackConditions}.
 */
final class PackConditions {
  static final Path FOLDER = Path.of("src", "main", "resources", "conditions");
  static final List<String> TEXT_FILES = List.of("FOGRA39L", "FOGRA40L", "TR006", "TR002");

  private PackConditions() {}

  public static void main(String[] args) throws IOException, InputException {
    for (String file : TEXT_FILES) {
      Files.write(FOLDER.resolve(packedName(file)), packed(file));
    }
  }

  static String packedName(String textFile) {
    return textFile.replace("L", "") + ".packed";
  }

  static byte[] packed(String textFile) throws InputException {
    CharacterizationReader.Patches patches =
        CharacterizationReader.read(CgatsReader.read(FOLDER.resolve(textFile + ".ti3")));
    return PackedCharacterization.pack(patches.percents(), patches.lab());
  }
}
