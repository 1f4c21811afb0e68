package selvage.color;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import selvage.ink.Colorant;

/**
 * What the kernels of this package cost, in processor time of one thread, so that a busy machine
 * does not blur it. {@code mvn -q test-compile}, then {@code java -cp
 * target/classes:target/test-classes selvage.color.ColorBenchmark [PROFILE.icc]}.
 */
final class ColorBenchmark {
  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();
  private static final int MIXTURES = 300_000;
  private static final int ROUNDS = 8;

  private interface Work {
    void run() throws Exception;
  }

  private ColorBenchmark() {}

  public static void main(String[] args) throws Exception {
    ReferenceCondition[] condition = new ReferenceCondition[1];
    say("load FOGRA39, cold", 1, () -> condition[0] = ReferenceConditions.defaultCondition());
    say("first separation, cold", 1, () -> condition[0].separate(new Lab(50, 10, 10)));
    byte[] image = image(1200, 800);
    char[] tints = new char[4 * image.length / 3];
    ProcessSeparation[] separation = new ProcessSeparation[1];
    say(
        "sRGB image of a megapixel, cold",
        1,
        () -> {
          separation[0] = new ProcessSeparation(SourceColor.srgb(), condition[0]);
          separation[0].separate(image, 0, image.length / 3, tints);
        });
    say(
        "the same, grid filled",
        ROUNDS,
        () -> separation[0].separate(image, 0, image.length / 3, tints));
    aims("FOGRA39", condition[0]);
    if (args.length > 0) {
      aims("profile", ReferenceConditions.resolve(args[0]).condition());
    }
    Random random = new Random(2);
    List<Lab> colors =
        random
            .ints(1000)
            .mapToObj(
                unused ->
                    new Lab(
                        random.nextInt(100), random.nextInt(100) - 50, random.nextInt(100) - 50))
            .toList();
    say("a million differences, plain", ROUNDS, () -> plainDifferences(colors));
    say("a million differences, kernel", ROUNDS, () -> kernelDifferences(colors));
    say(
        "1,000 exact separations",
        ROUNDS,
        () -> {
          for (Lab color : colors) {
            condition[0].separate(color);
          }
        });
  }

  private static void aims(String name, ReferenceCondition condition) throws Exception {
    Random random = new Random(1);
    char[] inks = new char[4 * MIXTURES];
    for (int i = 0; i < inks.length; i++) {
      inks[i] = (char) (200 * random.nextInt(256));
    }
    float[] lab = new float[3 * MIXTURES];
    AimSource[] sources = new AimSource[MIXTURES];
    AimModel model = new AimModel(condition, Map.of());
    say(
        "aims of 300,000 CMYK mixtures, " + name,
        ROUNDS,
        () -> model.aims(Colorant.PROCESS, inks, lab, sources));
  }

  /** Waves of colour with a little noise, as a photograph has. */
  private static byte[] image(int width, int height) {
    Random random = new Random(3);
    byte[] samples = new byte[3 * width * height];
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        double light = Math.sin(x / 97.0) + Math.cos(y / 53.0);
        double tone = Math.cos(x * y / 90000.0);
        int at = 3 * (y * width + x);
        samples[at] = (byte) (128 + 60 * light + random.nextInt(9));
        samples[at + 1] = (byte) (128 + 40 * light + 20 * tone + random.nextInt(9));
        samples[at + 2] = (byte) (120 + 40 * tone - 20 * light + random.nextInt(9));
      }
    }
    return samples;
  }

  private static double plainDifferences(List<Lab> colors) {
    double sum = 0;
    for (Lab first : colors) {
      for (Lab second : colors) {
        sum += ColorDifference.de00(first, second);
      }
    }
    return sum;
  }

  private static float kernelDifferences(List<Lab> colors) {
    int size = colors.size();
    float[] values = new float[4 * size];
    for (int i = 0; i < size; i++) {
      values[4 * i] = (float) colors.get(i).l();
      values[4 * i + 1] = (float) colors.get(i).a();
      values[4 * i + 2] = (float) colors.get(i).b();
      values[4 * i + 3] = De00Kernel.chroma(values[4 * i + 1], values[4 * i + 2]);
    }
    float sum = 0;
    for (int i = 0; i < values.length; i += 4) {
      for (int j = 0; j < values.length; j += 4) {
        sum +=
            De00Kernel.de00(
                values[i],
                values[i + 1],
                values[i + 2],
                values[i + 3],
                values[j],
                values[j + 1],
                values[j + 2],
                values[j + 3]);
      }
    }
    return sum;
  }

  private static void say(String what, int rounds, Work work) throws Exception {
    double best = Double.MAX_VALUE;
    for (int round = 0; round < rounds; round++) {
      long start = CLOCK.getCurrentThreadCpuTime();
      work.run();
      best = Math.min(best, (CLOCK.getCurrentThreadCpuTime() - start) / 1e6);
    }
    System.out.printf(Locale.ROOT, "%-45s %8.1f ms%n", what, best);
  }
}
