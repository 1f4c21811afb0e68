package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.finding.Finding;
import selvage.finding.InputException;

class ReferenceConditionsTest {
  @TempDir Path folder;

  private final ReferenceCondition fogra39 = ReferenceConditions.defaultCondition();

  /** One patch of FOGRA39's colours in a chart of the test's own. */
  private record Patch(double c, double m, double y, double k) {}

  private static List<Patch> corners() {
    List<Patch> patches = new ArrayList<>();
    for (int i = 0; i < 16; i++) {
      patches.add(
          new Patch((i & 1) * 100, (i >> 1 & 1) * 100, (i >> 2 & 1) * 100, (i >> 3 & 1) * 100));
    }
    return patches;
  }

  private Path chart(String header, String columns, List<String> rows) throws IOException {
    String text =
        "CGATS.17\n"
            + header
            + "NUMBER_OF_FIELDS "
            + columns.split(" ", -1).length
            + "\nBEGIN_DATA_FORMAT\n"
            + columns
            + "\nEND_DATA_FORMAT\nNUMBER_OF_SETS "
            + rows.size()
            + "\nBEGIN_DATA\n"
            + String.join("\n", rows)
            + "\nEND_DATA\n";
    return Files.writeString(folder.resolve("house chart.txt"), text, StandardCharsets.US_ASCII);
  }

  private List<String> labRows(List<Patch> patches) {
    List<String> rows = new ArrayList<>();
    for (Patch p : patches) {
      Lab lab = fogra39.aim(p.c, p.m, p.y, p.k).lab();
      rows.add(
          String.format(
              Locale.ROOT,
              "%d %.2f %.2f %.2f %.2f %.4f %.4f %.4f",
              rows.size() + 1,
              p.c,
              p.m,
              p.y,
              p.k,
              lab.l(),
              lab.a(),
              lab.b()));
    }
    return rows;
  }

  private static final String LAB_COLUMNS =
      "SAMPLE_ID CMYK_C CMYK_M CMYK_Y CMYK_K LAB_L LAB_A LAB_B";

  @ParameterizedTest
  @ValueSource(strings = {"FOGRA39", "fogra39", "Fogra 39", "FOGRA39L"})
  void resolve_builtInNameAsPeopleWriteIt_findsIt(String name) throws Exception {
    ConditionChoice choice = ReferenceConditions.resolve(name);
    assertThat(choice.condition().name()).isEqualTo("FOGRA39");
    assertThat(choice.condition().origin()).isEqualTo(ReferenceCondition.Origin.BUILT_IN);
    assertThat(choice.findings()).isEmpty();
  }

  @Test
  void builtInNames_each_resolves() throws Exception {
    for (String name : ReferenceConditions.builtInNames()) {
      assertThat(ReferenceConditions.resolve(name).condition().name()).isEqualTo(name);
    }
    assertThat(ReferenceConditions.builtInNames()).hasSameSizeAs(BuiltInCondition.values());
  }

  @Test
  void resolve_unknownName_listsTheBuiltInOnes() {
    assertThatThrownBy(() -> ReferenceConditions.resolve("MOON39"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "MOON39: expected a reference printing condition, found neither a built-in name nor a"
                + " file; give one of FOGRA39, TR006, FOGRA40, TR002, an ICC output profile, or a"
                + " CGATS characterization file");
  }

  @Test
  void resolve_folder_isRefused() {
    assertThatThrownBy(() -> ReferenceConditions.resolve(folder.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("found a folder");
  }

  @Test
  void resolve_profileFile_isACondition() throws Exception {
    Path file = Files.write(folder.resolve("press.icc"), TestProfiles.cmykVersion2());
    ReferenceCondition condition = ReferenceConditions.resolve(file.toString()).condition();
    assertThat(condition.name()).isEqualTo("invented press 2");
    assertThat(condition.origin()).isEqualTo(ReferenceCondition.Origin.FILE);
  }

  @Test
  void resolve_cornersOnly_meetsEveryPatch() throws Exception {
    Path file = chart("DESCRIPTOR \"House stock\"\n", LAB_COLUMNS, labRows(corners()));
    ReferenceCondition condition = ReferenceConditions.resolve(file.toString()).condition();
    assertThat(condition.name()).isEqualTo("House stock");
    for (Patch p : corners()) {
      Aim aim = condition.aim(p.c, p.m, p.y, p.k);
      assertThat(aim.source()).isEqualTo(AimSource.CONDITION_NODE);
      assertThat(ColorDifference.de76(aim.lab(), fogra39.aim(p.c, p.m, p.y, p.k).lab()))
          .isLessThan(0.001);
    }
    assertThat(condition.aim(50, 0, 0, 0).source()).isEqualTo(AimSource.CONDITION);
    assertThat(condition.separate(new Lab(100, 0, 0))).containsExactly(0, 0, 0, 0);
  }

  /** 120 patches at random beside the corners: no grid to be found. */
  @Test
  void resolve_scatteredPatches_isNearBetweenThemAndExactAtThem() throws Exception {
    Random random = new Random(120);
    List<Patch> patches = corners();
    while (patches.size() < 136) {
      patches.add(
          new Patch(
              random.nextInt(101), random.nextInt(101), random.nextInt(101), random.nextInt(101)));
    }
    Path file = chart("", LAB_COLUMNS, labRows(patches));
    ReferenceCondition condition = ReferenceConditions.resolve(file.toString()).condition();
    assertThat(condition.name()).isEqualTo("house chart");
    for (Patch p : patches) {
      assertThat(
              ColorDifference.de76(
                  condition.aim(p.c, p.m, p.y, p.k).lab(), fogra39.aim(p.c, p.m, p.y, p.k).lab()))
          .isLessThan(0.001);
    }
    double sum = 0;
    for (int i = 0; i < 500; i++) {
      double[] p = random.doubles(4, 0, 75).toArray();
      sum +=
          ColorDifference.de00(
              condition.aim(p[0], p[1], p[2], p[3]).lab(),
              fogra39.aim(p[0], p[1], p[2], p[3]).lab());
    }
    assertThat(sum / 500).isLessThan(4);
    Lab near = condition.aim(patches.get(20).c + 0.01, patches.get(20).m, 0.01, 0).lab();
    assertThat(near.l()).isBetween(0.0, 100.0);
  }

  @Test
  void resolve_rampsOnTheCorners_followsTheRamps() throws Exception {
    List<Patch> patches = corners();
    for (int tint = 10; tint < 100; tint += 10) {
      patches.add(new Patch(tint, 0, 0, 0));
      patches.add(new Patch(0, tint, 0, 0));
      patches.add(new Patch(0, 0, tint, 0));
      patches.add(new Patch(0, 0, 0, tint));
    }
    Path file = chart("", LAB_COLUMNS, labRows(patches));
    ReferenceCondition condition = ReferenceConditions.resolve(file.toString()).condition();
    for (double tint : new double[] {5, 25, 45, 65, 85}) {
      assertThat(
              ColorDifference.de00(
                  condition.aim(0, tint, 0, 0).lab(), fogra39.aim(0, tint, 0, 0).lab()))
          .as("magenta %s", tint)
          .isLessThan(1);
      assertThat(
              ColorDifference.de00(
                  condition.aim(tint, tint, 0, 0).lab(), fogra39.aim(tint, tint, 0, 0).lab()))
          .as("blue %s", tint)
          .isLessThan(4);
    }
  }

  @Test
  void resolve_solidsWithoutOverprints_predictsTheOverprints() throws Exception {
    List<Patch> patches = new ArrayList<>();
    for (int tint = 0; tint <= 100; tint += 50) {
      for (int ink = 0; ink < 4; ink++) {
        if (tint > 0 || ink == 0) {
          patches.add(
              new Patch(
                  ink == 0 ? tint : 0,
                  ink == 1 ? tint : 0,
                  ink == 2 ? tint : 0,
                  ink == 3 ? tint : 0));
        }
      }
    }
    assertThat(patches).hasSize(9);
    Path file = chart("", LAB_COLUMNS, labRows(patches));
    ReferenceCondition condition = ReferenceConditions.resolve(file.toString()).condition();
    Aim red = condition.aim(0, 100, 100, 0);
    assertThat(red.source()).isEqualTo(AimSource.CONDITION);
    assertThat(ColorDifference.de00(red.lab(), fogra39.aim(0, 100, 100, 0).lab())).isLessThan(8);
  }

  @Test
  void resolve_fractionsAndXyz_isTheSameCondition() throws Exception {
    List<String> rows = new ArrayList<>();
    for (Patch p : corners()) {
      Xyz xyz = ReferenceWhite.ISO_13655.toXyz(fogra39.aim(p.c, p.m, p.y, p.k).lab());
      rows.add(
          String.format(
              Locale.ROOT,
              "%d %.2f %.2f %.2f %.2f %.8f %.8f %.8f",
              rows.size() + 1,
              p.c / 100,
              p.m / 100,
              p.y / 100,
              p.k / 100,
              xyz.x() / 100,
              xyz.y() / 100,
              xyz.z() / 100));
    }
    Path file = chart("", "SAMPLE_ID CMYK_C CMYK_M CMYK_Y CMYK_K XYZ_X XYZ_Y XYZ_Z", rows);
    ConditionChoice choice = ReferenceConditions.resolve(file.toString());
    assertThat(choice.findings())
        .extracting(Finding::code)
        .containsExactlyInAnyOrder("cmyk-from-0-to-1", "xyz-from-0-to-1");
    assertThat(
            ColorDifference.de76(
                choice.condition().aim(0, 100, 0, 0).lab(), fogra39.aim(0, 100, 0, 0).lab()))
        .isLessThan(0.001);
  }

  @Test
  void resolve_noInkColumns_isRefused() throws Exception {
    Path file = chart("", "SAMPLE_ID LAB_L LAB_A LAB_B", List.of("1 95 0 -2"));
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("CMYK_C, CMYK_M, CMYK_Y, CMYK_K");
  }

  @Test
  void resolve_noColorColumns_isRefused() throws Exception {
    Path file = chart("", "SAMPLE_ID CMYK_C CMYK_M CMYK_Y CMYK_K", List.of("1 0 0 0 0"));
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("LAB_L, LAB_A, LAB_B or XYZ_X, XYZ_Y, XYZ_Z");
  }

  @ParameterizedTest
  @ValueSource(strings = {"ILLUMINANT \"D65\"\n", "OBSERVER \"10 degree\"\n"})
  void resolve_otherIlluminantOrObserver_isRefused(String header) throws Exception {
    Path file = chart(header, LAB_COLUMNS, labRows(corners()));
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("house chart.txt:2: ")
        .hasMessageContaining("expected colours for D50 and the 2° observer");
  }

  @Test
  void resolve_fewPatches_isRefused() throws Exception {
    Path file = chart("", LAB_COLUMNS, labRows(corners().subList(0, 5)));
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected at least 9 patches");
  }

  @ParameterizedTest
  @CsvSource({"0, unprinted paper", "1, solid cyan", "4, solid yellow", "8, solid black"})
  void resolve_cornerMissing_isRefused(int corner, String named) throws Exception {
    List<Patch> patches = corners();
    patches.remove(corner);
    Path file = chart("", LAB_COLUMNS, labRows(patches));
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected a patch of " + named);
  }

  @Test
  void resolve_valueMissing_namesLineAndColumn() throws Exception {
    List<String> rows = labRows(corners());
    rows.set(3, "4 100 100 0 0 24.00 n/a -46");
    Path file = chart("", LAB_COLUMNS, rows);
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("house chart.txt:11: LAB_A: expected a number");
  }

  @Test
  void resolve_tintOutOfRange_namesLineAndColumn() throws Exception {
    List<String> rows = labRows(corners());
    rows.set(2, "3 0 255 0 0 48 74 -3");
    Path file = chart("", LAB_COLUMNS, rows);
    assertThatThrownBy(() -> ReferenceConditions.resolve(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(":10: CMYK_M: expected a tint from 0 to 100 percent, found 255");
  }

  @Test
  void forOutputIntent_cmykProfile_isTheConditionUnderItsRegisteredName() {
    ConditionChoice choice =
        ReferenceConditions.forOutputIntent("FOGRA51", "coated", TestProfiles.cmykVersion2());
    assertThat(choice.condition().name()).isEqualTo("FOGRA51");
    assertThat(choice.condition().origin()).isEqualTo(ReferenceCondition.Origin.OUTPUT_INTENT);
    assertThat(choice.findings()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "FOGRA39,, FOGRA39",
    "CGATS TR 006,, TR006",
    "Custom, Coated FOGRA39 (ISO 12647-2:2004), FOGRA39",
    ", TR006, TR006"
  })
  void forOutputIntent_registeredNameWithoutProfile_isBuiltIn(
      String identifier, String info, String expected) {
    ConditionChoice choice = ReferenceConditions.forOutputIntent(identifier, info, null);
    assertThat(choice.condition().name()).isEqualTo(expected);
    assertThat(choice.condition().origin()).isEqualTo(ReferenceCondition.Origin.OUTPUT_INTENT);
    assertThat(choice.findings()).isEmpty();
  }

  @Test
  void forOutputIntent_rgbProfileAndUnknownName_isTheDefaultWithFindings() {
    ConditionChoice choice = ReferenceConditions.forOutputIntent("sRGB", null, TestProfiles.rgb(2));
    assertThat(choice.condition().name()).isEqualTo("FOGRA39");
    assertThat(choice.condition().origin()).isEqualTo(ReferenceCondition.Origin.BUILT_IN);
    assertThat(choice.findings())
        .extracting(Finding::code)
        .containsExactly("output-intent-profile-unusable", "output-intent-unknown");
  }

  @Test
  void forOutputIntent_brokenProfileAndKnownName_isTheBuiltInWithAFinding() {
    ConditionChoice choice = ReferenceConditions.forOutputIntent("TR006", null, new byte[50]);
    assertThat(choice.condition().name()).isEqualTo("TR006");
    assertThat(choice.findings())
        .extracting(Finding::code)
        .containsExactly("output-intent-profile-unusable");
  }

  @Test
  void aims_manyRows_equalSingleAims() {
    Random random = new Random(9);
    char[] tints = new char[4 * 300];
    for (int i = 0; i < tints.length; i++) {
      tints[i] = (char) (random.nextInt(256) * 200);
    }
    float[] lab = new float[3 * 300];
    AimSource[] sources = new AimSource[300];
    fogra39.aims(tints, 300, lab, sources);
    for (int row = 0; row < 300; row++) {
      double unit = 1 / 510.0;
      Aim single =
          fogra39.aim(
              tints[4 * row] * unit,
              tints[4 * row + 1] * unit,
              tints[4 * row + 2] * unit,
              tints[4 * row + 3] * unit);
      assertThat(sources[row]).isEqualTo(single.source());
      assertThat((double) lab[3 * row]).isCloseTo(single.lab().l(), within(1e-4));
      assertThat((double) lab[3 * row + 1]).isCloseTo(single.lab().a(), within(1e-4));
      assertThat((double) lab[3 * row + 2]).isCloseTo(single.lab().b(), within(1e-4));
    }
  }
}
