package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.Finding;
import selvage.finding.InputException;

class SpotLibraryTest {
  @TempDir Path folder;

  private Path library(String columns, String... rows) throws IOException {
    String text =
        "CGATS.17\nORIGINATOR \"Wadi Print\"\nBEGIN_DATA_FORMAT\n"
            + columns
            + "\nEND_DATA_FORMAT\nBEGIN_DATA\n"
            + String.join("\n", rows)
            + "\nEND_DATA\n";
    return Files.writeString(folder.resolve("spots.txt"), text);
  }

  @Test
  void read_solids_areLibraryInks() throws Exception {
    Path file =
        library("SAMPLE_NAME LAB_L LAB_A LAB_B", "\"Dune Red\" 46.1 55.2 30", "Fern 50 -40 20");
    SpotLibrary library = SpotLibrary.read(file);
    assertThat(library.inks()).containsOnlyKeys("Dune Red", "Fern");
    SpotInk dune = library.inks().get("Dune Red");
    assertThat(dune.source()).isEqualTo(AimSource.LIBRARY);
    assertThat(dune.solid()).isEqualTo(new Lab(46.1, 55.2, 30));
  }

  @Test
  void read_tintColumn_makesRamps() throws Exception {
    Path file =
        library(
            "SAMPLE_ID SAMPLE_NAME TINT XYZ_X XYZ_Y XYZ_Z",
            "1 Fern 100 10 18.418652 9",
            "2 Fern 50 30 40 25");
    SpotInk fern = SpotLibrary.read(file).inks().get("Fern");
    assertThat(fern.ramp()).containsOnlyKeys(50.0, 100.0);
    assertThat(fern.solid().l()).isCloseTo(50, within(1e-4));
  }

  @Test
  void read_processInk_isLeftOutWithAFinding() throws Exception {
    Path file = library("SAMPLE_NAME LAB_L LAB_A LAB_B", "Cyan 55 -37 -50", "Fern 50 -40 20");
    SpotLibrary library = SpotLibrary.read(file);
    assertThat(library.inks()).containsOnlyKeys("Fern");
    assertThat(library.findings())
        .extracting(Finding::code)
        .contains("process-ink-in-spot-library");
  }

  @Test
  void read_valueMissing_namesLineAndColumn() throws Exception {
    Path file = library("SAMPLE_NAME LAB_L LAB_A LAB_B", "Fern 50 - 20");
    assertRefused(file, "spots.txt:7: LAB_A: expected a number");
  }

  @Test
  void read_lightnessOutOfRange_namesLineAndColumn() throws Exception {
    Path file = library("SAMPLE_NAME LAB_L LAB_A LAB_B", "Fern 150 0 20");
    assertRefused(file, "spots.txt:7: LAB_L: expected a number from -1 to 110, found 150");
  }

  @Test
  void read_noSolid_isRefused() throws Exception {
    Path file = library("SAMPLE_NAME TINT LAB_L LAB_A LAB_B", "Fern 50 70 -20 10");
    assertRefused(file, "expected the solid of \"Fern\" (TINT 100), found only [50.0]; add it");
  }

  @Test
  void read_tintTwice_isRefused() throws Exception {
    Path file = library("SAMPLE_NAME LAB_L LAB_A LAB_B", "Fern 50 -40 20", "Fern 51 -40 20");
    assertRefused(file, "spots.txt:8: SAMPLE_NAME: expected each ink and tint once");
  }

  @Test
  void read_noNames_isRefused() throws Exception {
    Path file = library("LAB_L LAB_A LAB_B", "50 -40 20");
    assertRefused(file, "SAMPLE_NAME: expected a column with the inks' names");
  }

  private static void assertRefused(Path file, String message) {
    assertThatThrownBy(() -> SpotLibrary.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(message);
  }
}
