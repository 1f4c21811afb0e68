package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.InkMixture;

class StandardStripTest {
  @TempDir Path folder;

  /** The nodes of the ISO 12642-2 chart, from published characterization data. */
  private static Set<InkMixture> chart() throws IOException, InputException {
    try (InputStream in = StandardStripTest.class.getResourceAsStream("/conditions/FOGRA39L.ti3")) {
      CgatsTable table = CgatsReader.parse("FOGRA39L.ti3", in.readAllBytes()).first();
      Set<InkMixture> nodes = new HashSet<>();
      for (int row = 0; row < table.rowCount(); row++) {
        double[] tints = new double[4];
        for (int i = 0; i < 4; i++) {
          tints[i] = table.number(row, table.column("CMYK_" + "CMYK".charAt(i)).orElseThrow());
        }
        nodes.add(InkMixture.cmyk(tints[0], tints[1], tints[2], tints[3]));
      }
      return nodes;
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"basic", "full"})
  void load_builtIn_hasOnlyNodesOfTheChartAndNoneTwice(String name) throws Exception {
    StandardStrip strip = StandardStrip.load(name);
    List<InkMixture> mixtures =
        strip.patches().stream().map(StandardStrip.StandardPatch::mixture).toList();
    assertThat(chart()).containsAll(mixtures);
    assertThat(mixtures).doesNotHaveDuplicates();
    assertThat(strip.findings()).isEmpty();
    assertThat(strip.source()).contains("ISO 12647-7");
  }

  @Test
  void load_full_hasTheKindsAndLeastCountsOfTheStandard() throws Exception {
    Map<String, Long> counts =
        StandardStrip.load("full").patches().stream()
            .collect(
                Collectors.groupingBy(StandardStrip.StandardPatch::role, Collectors.counting()));
    // ISO 12647-7 clause 5.2, as STANDARDS quotes it from memory: 6 chromatic solids and K, their
    // mid-tones and shadows, 5 neutrals, 15 tertiaries, the substrate.
    assertThat(counts)
        .containsEntry("substrate", 1L)
        .containsEntry("solid", 4L)
        .containsEntry("overprint", 3L)
        .containsEntry("mid-tone", 4L)
        .containsEntry("overprint-mid-tone", 3L)
        .containsEntry("shadow", 4L)
        .containsEntry("overprint-shadow", 3L)
        .containsEntry("near-neutral", 5L)
        .containsEntry("tertiary", 15L);
  }

  @Test
  void load_basic_fitsOneRowOfAnA4Edge() throws Exception {
    ReaderGeometry reader = ReaderGeometry.load("handheld-spot");
    int patches = StandardStrip.load("basic").patches().size();
    assertThat(StripRows.lengthMm(reader, patches) + 2 * StripComposer.QUIET_MM)
        .isLessThanOrEqualTo(210);
  }

  @Test
  void builtIn_folder_isWhatTheProgramNames() throws Exception {
    assertThat(names(Path.of("strips/standard"), ".txt"))
        .containsExactlyInAnyOrderElementsOf(StandardStrip.BUILT_IN);
    assertThat(names(Path.of("strips/readers"), ".json"))
        .containsExactlyInAnyOrderElementsOf(ReaderGeometry.BUILT_IN);
  }

  private static List<String> names(Path folder, String ending) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .map(file -> file.getFileName().toString())
          .filter(name -> name.endsWith(ending))
          .map(name -> name.substring(0, name.length() - ending.length()))
          .toList();
    }
  }

  private Path file(String rows) throws IOException {
    int count = rows.split("\n").length;
    return Files.writeString(
        folder.resolve("house.txt"),
        String.format(
            Locale.ROOT,
            "CGATS.17\nNUMBER_OF_SETS %d\nBEGIN_DATA_FORMAT\nSAMPLE_ID CMYK_C CMYK_M CMYK_Y"
                + " CMYK_K\nEND_DATA_FORMAT\nBEGIN_DATA\n%sEND_DATA\n",
            count,
            rows));
  }

  @Test
  void load_fileWithoutRolesOrPaper_guessesRolesAndAddsPaper() throws Exception {
    StandardStrip strip = StandardStrip.load(file("1 0 100 0 0\n2 30 20 20 0\n").toString());
    assertThat(strip.name()).isEqualTo("house");
    assertThat(strip.patches())
        .extracting(StandardStrip.StandardPatch::role)
        .containsExactly("substrate", "solid", "other");
    assertThat(strip.findings())
        .extracting(Finding::code)
        .contains("roles-guessed", "substrate-added");
  }

  @Test
  void load_tintOutOfRange_saysFileLineAndColumn() throws Exception {
    Path file = file("1 0 100 0 0\n2 30 120 20 0\n");
    assertThatThrownBy(() -> StandardStrip.load(file.toString()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("house.txt:8: CMYK_M")
        .hasMessageContaining("120");
  }

  @Test
  void load_unknownName_saysWhatThereIs() {
    assertThatThrownBy(() -> StandardStrip.load("fancy"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("full, basic, none");
  }
}
