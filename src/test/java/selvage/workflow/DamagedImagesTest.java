package selvage.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.fixture.CmykJpeg;
import selvage.fixture.TiffFixture;

/** Image files with bytes changed or missing: surveyed or refused, never a fault or a hang. */
class DamagedImagesTest {
  private static final long SEED = 20261125;
  private static final int ROUNDS = 60;
  private static final Duration LIMIT = Duration.ofSeconds(20);

  @TempDir Path folder;

  @Test
  void survey_damagedImages_resultOrRefusal() throws Exception {
    int refused = 0;
    List<byte[]> whole = whole();
    for (int file = 0; file < whole.size(); file++) {
      for (int round = 0; round < ROUNDS; round++) {
        Random random = new Random(SEED + 1000L * file + round);
        Path job = Files.write(folder.resolve("damaged.img"), damaged(whole.get(file), random));
        String which = "seed " + SEED + ", file " + file + ", round " + round;
        refused += Assertions.assertTimeoutPreemptively(LIMIT, () -> survey(job), which) ? 0 : 1;
      }
    }
    assertThat(refused).isBetween(1, whole.size() * ROUNDS - 1);
  }

  private static boolean survey(Path job) throws IOException {
    try {
      new SurveyJob(SurveyJob.Request.of(job)).run();
      return true;
    } catch (InputException e) {
      assertThat(e.getMessage()).contains("damaged.img");
      return false;
    }
  }

  private static List<byte[]> whole() throws IOException {
    int[][] inks = {{84, 0, 0, 0, 255}, {0, 128, 51, 0, 0}};
    return List.of(
        TiffFixture.little()
            .page(60, 40, 5, 2, inks)
            .shorts(332, 2)
            .texts(333, "Cyan", "Magenta", "Yellow", "Black", "Dune Red")
            .compression(TiffFixture.DEFLATE)
            .differenced()
            .toBytes(),
        TiffFixture.big().page(60, 40, 2, 2, inks).shorts(338, 2, 0).planar().tiles(16).toBytes(),
        TiffFixture.little()
            .page(60, 40, 3, 2, new int[] {0}, new int[] {1})
            .bits(1)
            .shorts(320, 0, 65535, 0, 65535, 0, 9)
            .compression(TiffFixture.PACK_BITS)
            .page(20, 20, 1, 1, new int[] {9, 1})
            .bits(16)
            .shorts(338, 1)
            .toBytes(),
        CmykJpeg.withAdobeMarker(CmykJpeg.of(60, 40, 1, 2, 3, 4)));
  }

  private static byte[] damaged(byte[] whole, Random random) {
    byte[] bytes = whole.clone();
    int changes = 1 + random.nextInt(4);
    for (int i = 0; i < changes; i++) {
      // Half of the changes fall on the directory or the markers at the beginning.
      int most = random.nextBoolean() ? Math.min(bytes.length, 250) : bytes.length;
      bytes[random.nextInt(most)] = (byte) (random.nextInt(3) == 0 ? 0xff : random.nextInt(256));
    }
    return random.nextInt(6) == 0 ? Arrays.copyOf(bytes, random.nextInt(bytes.length)) : bytes;
  }
}
