package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import selvage.ink.Tint;

class ProcessSeparationTest {
  private final ReferenceCondition condition = ReferenceConditions.defaultCondition();

  private static byte[] randomPixels(int count, int components) {
    byte[] samples = new byte[count * components];
    new Random(4).nextBytes(samples);
    return samples;
  }

  @Test
  void separate_whiteAndBlackPixels_areNoInkAndTheDarkest() {
    ProcessSeparation separation = new ProcessSeparation(SourceColor.srgb(), condition);
    char[] tints = new char[8];
    separation.separate(new byte[] {9, -1, -1, -1, 0, 0, 0}, 1, 2, tints);
    assertThat(tints).startsWith((char) 0, (char) 0, (char) 0, (char) 0);
    assertThat((int) tints[7]).isCloseTo(Tint.FULL, within(5));
  }

  @Test
  void separate_pixels_printNearlyTheExactColor() {
    ProcessSeparation separation = new ProcessSeparation(SourceColor.srgb(), condition);
    int count = 3000;
    byte[] samples = randomPixels(count, 3);
    char[] tints = new char[4 * count];
    separation.separate(samples, 0, count, tints);
    float[] exact = new float[4];
    double sum = 0;
    double worst = 0;
    for (int pixel = 0; pixel < count; pixel++) {
      float[] rgb = new float[3];
      for (int i = 0; i < 3; i++) {
        rgb[i] = (samples[3 * pixel + i] & 0xFF) / 255f;
      }
      separation.separate(rgb, exact);
      Lab wanted =
          condition.aim(100 * exact[0], 100 * exact[1], 100 * exact[2], 100 * exact[3]).lab();
      double error = ColorDifference.de00(wanted, printed(tints, pixel));
      sum += error;
      worst = Math.max(worst, error);
    }
    assertThat(sum / count).isLessThan(0.15);
    assertThat(worst).isLessThan(2.5);
  }

  private Lab printed(char[] tints, int pixel) {
    double percent = 100.0 / Tint.FULL;
    return condition
        .aim(
            tints[4 * pixel] * percent,
            tints[4 * pixel + 1] * percent,
            tints[4 * pixel + 2] * percent,
            tints[4 * pixel + 3] * percent)
        .lab();
  }

  @Test
  void separate_grayPixels_stayNeutral() {
    ProcessSeparation separation = new ProcessSeparation(SourceColor.srgb(), condition);
    byte[] samples = new byte[3 * 256];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (byte) (i / 3);
    }
    char[] tints = new char[4 * 256];
    separation.separate(samples, 0, 256, tints);
    Xyz paper = ReferenceWhite.ISO_13655.toXyz(condition.paper());
    for (int gray = 8; gray < 256; gray++) {
      Xyz xyz = ReferenceWhite.ISO_13655.toXyz(printed(tints, gray));
      Lab relative =
          ReferenceWhite.ISO_13655.toLab(
              new Xyz(
                  xyz.x() / paper.x() * 96.422,
                  xyz.y() / paper.y() * 100,
                  xyz.z() / paper.z() * 82.521));
      assertThat(relative.chroma()).as("gray %d prints %s", gray, relative).isLessThan(0.8);
      assertThat((int) tints[4 * gray + 1])
          .as("magenta at gray %d", gray)
          .isLessThanOrEqualTo(tints[4 * gray - 3] + 60);
    }
  }

  @Test
  void separate_cmykPixelsOfAnotherPress_printNearlyTheExactColor() throws Exception {
    ProcessSeparation separation =
        new ProcessSeparation(SourceColor.icc("press.icc", TestProfiles.cmykVersion2()), condition);
    int count = 2000;
    byte[] samples = randomPixels(count, 4);
    char[] tints = new char[4 * count];
    separation.separate(samples, 0, count, tints);
    float[] exact = new float[4];
    double sum = 0;
    for (int pixel = 0; pixel < count; pixel++) {
      float[] cmyk = new float[4];
      for (int i = 0; i < 4; i++) {
        cmyk[i] = (samples[4 * pixel + i] & 0xFF) / 255f;
      }
      separation.separate(cmyk, exact);
      Lab wanted =
          condition.aim(100 * exact[0], 100 * exact[1], 100 * exact[2], 100 * exact[3]).lab();
      sum += ColorDifference.de00(wanted, printed(tints, pixel));
    }
    assertThat(sum / count).isLessThan(0.5);
  }

  @Test
  void separate_grayProfile_whiteIsNoInk() throws Exception {
    ProcessSeparation separation =
        new ProcessSeparation(SourceColor.icc("gray.icc", TestProfiles.gray("XYZ ")), condition);
    char[] tints = new char[4];
    separation.separate(new byte[] {-1}, 0, 1, tints);
    assertThat(tints).containsOnly((char) 0);
  }

  @Test
  void separate_severalThreads_giveTheSameTints() throws Exception {
    byte[] samples = randomPixels(2000, 3);
    char[] expected = new char[4 * 2000];
    new ProcessSeparation(SourceColor.srgb(), condition).separate(samples, 0, 2000, expected);
    ProcessSeparation shared = new ProcessSeparation(SourceColor.srgb(), condition);
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try {
      List<Callable<char[]>> tasks = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        tasks.add(
            () -> {
              char[] tints = new char[4 * 2000];
              shared.separate(samples, 0, 2000, tints);
              return tints;
            });
      }
      for (Future<char[]> result : threads.invokeAll(tasks)) {
        assertThat(result.get()).isEqualTo(expected);
      }
    } finally {
      threads.shutdownNow();
    }
  }
}
