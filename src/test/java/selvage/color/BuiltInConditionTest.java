package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.cgats.CgatsReader;
import selvage.ink.InkMixture;

class BuiltInConditionTest {
  @ParameterizedTest
  @ValueSource(strings = {"FOGRA39L", "FOGRA40L", "TR006", "TR002"})
  void packedData_builtIn_equalTheTextFile(String file) throws Exception {
    assertThat(PackConditions.packed(file))
        .as("run PackConditions after a change of the text files")
        .isEqualTo(
            Files.readAllBytes(PackConditions.FOLDER.resolve(PackConditions.packedName(file))));
  }

  @ParameterizedTest
  @CsvSource({"FOGRA39, FOGRA39L", "TR006, TR006", "FOGRA40, FOGRA40L"})
  void aim_everyNode_isTheDataFilesLab(String name, String file) throws Exception {
    ReferenceCondition condition = ReferenceConditions.resolve(name).condition();
    CharacterizationReader.Patches patches =
        CharacterizationReader.read(CgatsReader.read(PackConditions.FOLDER.resolve(file + ".ti3")));
    for (int row = 0; row < patches.lab().length / 3; row++) {
      double[] p = patches.percents();
      Aim aim = condition.aim(p[4 * row], p[4 * row + 1], p[4 * row + 2], p[4 * row + 3]);
      assertThat(aim.source()).isEqualTo(AimSource.CONDITION_NODE);
      assertThat(aim.lab().l()).isCloseTo(patches.lab()[3 * row], within(1e-9));
      assertThat(aim.lab().a()).isCloseTo(patches.lab()[3 * row + 1], within(1e-9));
      assertThat(aim.lab().b()).isCloseTo(patches.lab()[3 * row + 2], within(1e-9));
    }
  }

  @Test
  void aim_patchMeasuredTwice_isTheMean() throws Exception {
    // TR 002 has the solid of cyan as patches 1 (56.58 -23.4 -26.45) and others; the chart repeats
    // it, with readings that differ.
    CharacterizationReader.Patches patches =
        CharacterizationReader.read(CgatsReader.read(PackConditions.FOLDER.resolve("TR002.ti3")));
    double sum = 0;
    int count = 0;
    for (int row = 0; row < patches.lab().length / 3; row++) {
      double[] p = patches.percents();
      if (p[4 * row] == 100 && p[4 * row + 1] == 0 && p[4 * row + 2] == 0 && p[4 * row + 3] == 0) {
        sum += patches.lab()[3 * row];
        count++;
      }
    }
    assertThat(count).isGreaterThan(1);
    assertThat(ReferenceConditions.resolve("TR002").condition().aim(100, 0, 0, 0).lab().l())
        .isCloseTo(sum / count, within(1e-9));
  }

  @Test
  void load_asBuiltIn_hasNameAndPaper() {
    ReferenceCondition condition = ReferenceConditions.defaultCondition();
    assertThat(condition.name()).isEqualTo("FOGRA39");
    assertThat(condition.origin()).isEqualTo(ReferenceCondition.Origin.BUILT_IN);
    assertThat(condition.paper()).isEqualTo(new Lab(95, 0, -2));
    Aim aim = new AimModel(condition, Map.of()).aim(InkMixture.cmyk(0, 100, 0, 0));
    assertThat(aim).isEqualTo(new Aim(new Lab(48, 74, -3), AimSource.CONDITION_NODE));
  }

  @ParameterizedTest
  @CsvSource({
    "Coated FOGRA39 (ISO 12647-2:2004), FOGRA39",
    "FOGRA39, FOGRA39",
    "CGATS TR 006, TR006",
    "TR006, TR006",
    "CGATS-TR-002, TR002",
    "FOGRA390,",
    "FOGRA51,",
    "Custom,"
  })
  void namedWithin_registeredNames_findTheCondition(String text, BuiltInCondition expected) {
    assertThat(BuiltInCondition.namedWithin(text)).isEqualTo(expected);
  }
}
