package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class De00KernelTest {
  static double kernel(double l1, double a1, double b1, double l2, double a2, double b2) {
    float c1 = De00Kernel.chroma((float) a1, (float) b1);
    float c2 = De00Kernel.chroma((float) a2, (float) b2);
    return De00Kernel.de00(
        (float) l1, (float) a1, (float) b1, c1, (float) l2, (float) a2, (float) b2, c2);
  }

  @Test
  void de00_randomPairsFarAndNear_equalsThePlainForm() {
    Random random = new Random(7);
    double worst = 0;
    String where = "";
    for (int i = 0; i < 200_000; i++) {
      double spread = i % 2 == 0 ? 200 : 6;
      float l1 = random.nextFloat() * 100;
      float a1 = (random.nextFloat() - 0.5f) * 200;
      float b1 = (random.nextFloat() - 0.5f) * 200;
      float l2 = (float) Math.min(100, Math.max(0, l1 + (random.nextDouble() - 0.5) * spread));
      float a2 = (float) (a1 + (random.nextDouble() - 0.5) * spread);
      float b2 = (float) (b1 + (random.nextDouble() - 0.5) * spread);
      Lab first = new Lab(l1, a1, b1);
      Lab second = new Lab(l2, a2, b2);
      double plain = ColorDifference.de00(first, second);
      double error = Math.abs(kernel(l1, a1, b1, l2, a2, b2) - plain) / Math.max(1, plain);
      if (error > worst) {
        worst = error;
        where = first + " " + second;
      }
    }
    assertThat(worst).as("worst relative error, at %s", where).isLessThan(0.001);
  }

  @Test
  void de00_neutralsAndEqualColors_equalsThePlainForm() {
    double[][] colors = {
      {50, 0, 0}, {50, 10, 0}, {50, 0, -40}, {0, 0, 0}, {100, 0, 0}, {30, 5, 60}, {30, -60, -20}
    };
    for (double[] p : colors) {
      for (double[] q : colors) {
        double plain = ColorDifference.de00(new Lab(p[0], p[1], p[2]), new Lab(q[0], q[1], q[2]));
        assertThat(kernel(p[0], p[1], p[2], q[0], q[1], q[2])).isCloseTo(plain, within(0.001));
      }
    }
  }

  @Test
  void atLeast_anyPair_isNoMoreThanTheDifference() {
    Random random = new Random(8);
    for (int i = 0; i < 20_000; i++) {
      double[] p = new double[6];
      for (int j = 0; j < 6; j++) {
        p[j] = j % 3 == 0 ? random.nextDouble() * 100 : (random.nextDouble() - 0.5) * 160;
      }
      assertThat((double) De00Kernel.atLeast((float) p[0], (float) p[3]))
          .isLessThanOrEqualTo(
              ColorDifference.de00(new Lab(p[0], p[1], p[2]), new Lab(p[3], p[4], p[5])) + 1e-4);
    }
  }
}
