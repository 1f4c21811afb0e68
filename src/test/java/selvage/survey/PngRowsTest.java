package selvage.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** PNG files read back by the JDK's own reader. */
class PngRowsTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({
    "1, 1, GRAY",
    "13, 7, GRAY",
    "3000, 40, GRAY",
    "1, 5000, GRAY",
    "13, 7, SRGB",
    "800, 30, SRGB"
  })
  void moveTo_anySize_isReadBackAsWritten(int width, int height, PngEncoder.Samples kind)
      throws Exception {
    int bands = kind == PngEncoder.Samples.GRAY ? 1 : 3;
    byte[] samples = new byte[width * height * bands];
    new Random(5).nextBytes(samples);
    Path file = folder.resolve("plane.png");
    try (PngRows rows = new PngRows(folder, width, height, 150, kind)) {
      for (int y = 0; y < height; y++) {
        byte[] row = Arrays.copyOfRange(samples, y * width * bands, (y + 1) * width * bands);
        rows.write(row);
      }
      assertThat(file).doesNotExist();
      rows.moveTo(file);
    }
    BufferedImage image = ImageIO.read(file.toFile());
    assertThat(image.getWidth()).isEqualTo(width);
    assertThat(image.getHeight()).isEqualTo(height);
    assertThat(image.getRaster().getNumBands()).isEqualTo(bands);
    int[] read = image.getRaster().getPixels(0, 0, width, height, (int[]) null);
    for (int i = 0; i < read.length; i++) {
      assertThat(read[i]).isEqualTo(samples[i] & 0xff);
    }
    assertThat(left()).isEqualTo(1);
  }

  @Test
  void close_beforeItsEnd_leavesNothing() throws Exception {
    try (PngRows rows = new PngRows(folder, 10, 10, 150, PngEncoder.Samples.GRAY)) {
      rows.write(new byte[10]);
    }
    assertThat(left()).isZero();
  }

  private long left() throws Exception {
    try (Stream<Path> files = Files.list(folder)) {
      return files.count();
    }
  }
}
