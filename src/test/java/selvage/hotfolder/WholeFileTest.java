package selvage.hotfolder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WholeFileTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "%PDF-1.7 x %%EOF~|WHOLE",
        "%PDF-1.7 x %%EO|CUT",
        "%PDF-1.7 x|CUT",
        "\u00FF\u00D8\u00FF\u00E0 x \u00FF\u00D9|WHOLE",
        "\u00FF\u00D8\u00FF\u00E0 x|CUT",
        "CGATS.17~BEGIN_DATA~1 2~END_DATA~|WHOLE",
        "CGATS.17~BEGIN_DATA~1 2~|CUT",
        "<?xml version='1.0'?><a></a>|WHOLE",
        "<?xml version='1.0'?><a|CUT",
        "some text|WHOLE"
      })
  void of_endsOfManyKinds_tellWhetherTheFileIsWhole(String text, WholeFile.Look look)
      throws IOException {
    Path file = folder.resolve("file");
    Files.write(file, text.replace('~', '\n').getBytes(StandardCharsets.ISO_8859_1));
    assertThat(WholeFile.of(file)).isEqualTo(look);
  }

  @ParameterizedTest
  @CsvSource({"8, 10, WHOLE", "100, 10, CUT", "8, 8, CUT"})
  void of_tiff_needsItsDirectory(int directory, int size, WholeFile.Look look) throws IOException {
    byte[] tiff = new byte[size];
    tiff[0] = 'I';
    tiff[1] = 'I';
    tiff[2] = 42;
    tiff[4] = (byte) directory;
    Path file = folder.resolve("file.tif");
    Files.write(file, tiff);
    assertThat(WholeFile.of(file)).isEqualTo(look);
  }

  @ParameterizedTest
  @CsvSource({"0"})
  void of_emptyFile_isCut(int size) throws IOException {
    Path file = folder.resolve("empty.pdf");
    Files.write(file, new byte[size]);
    assertThat(WholeFile.of(file)).isEqualTo(WholeFile.Look.CUT);
  }
}
