package selvage.color;

import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;
import selvage.finding.InputException;
import selvage.ink.Colorant;

/** What the kernels of this package cost, warm and in a fresh process. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 8, time = 1)
public class ColorBenchmark {
  private static final int MIXTURES = 300_000;
  private static final int COLORS = 1000;
  private static final int WIDTH = 1200;
  private static final int HEIGHT = 800;

  /** A built-in condition, or the path of a profile or of characterization data. */
  @Param("FOGRA39")
  public String condition;

  private final byte[] image = image();
  private final char[] tints = new char[4 * WIDTH * HEIGHT];
  private final char[] inks = new char[4 * MIXTURES];
  private final float[] lab = new float[3 * MIXTURES];
  private final byte[] rgb = new byte[3 * MIXTURES];
  private final AimSource[] sources = new AimSource[MIXTURES];
  private final DisplayColor display = new DisplayColor();
  private List<Lab> colors;
  private ReferenceCondition reference;
  private AimModel model;
  private ProcessSeparation separation;

  @Setup
  public void prepare() throws InputException {
    Random random = new Random(1);
    for (int i = 0; i < inks.length; i++) {
      inks[i] = (char) (200 * random.nextInt(256));
    }
    colors =
        random
            .ints(COLORS)
            .mapToObj(
                unused ->
                    new Lab(
                        random.nextInt(100), random.nextInt(100) - 50, random.nextInt(100) - 50))
            .toList();
    reference = ReferenceConditions.resolve(condition).condition();
    model = new AimModel(reference, Map.of());
    model.aims(Colorant.PROCESS, inks, lab, sources);
    separation = new ProcessSeparation(SourceColor.srgb(), reference);
  }

  /** Waves of colour with a little noise, as a photograph has. */
  private static byte[] image() {
    Random random = new Random(3);
    byte[] samples = new byte[3 * WIDTH * HEIGHT];
    for (int y = 0; y < HEIGHT; y++) {
      for (int x = 0; x < WIDTH; x++) {
        double light = Math.sin(x / 97.0) + Math.cos(y / 53.0);
        double tone = Math.cos(x * y / 90000.0);
        int at = 3 * (y * WIDTH + x);
        samples[at] = (byte) (128 + 60 * light + random.nextInt(9));
        samples[at + 1] = (byte) (128 + 40 * light + 20 * tone + random.nextInt(9));
        samples[at + 2] = (byte) (120 + 40 * tone - 20 * light + random.nextInt(9));
      }
    }
    return samples;
  }

  /** Aims of 300,000 CMYK mixtures. */
  @Benchmark
  public float[] aims() {
    model.aims(Colorant.PROCESS, inks, lab, sources);
    return lab;
  }

  /** 300,000 aims to 8-bit sRGB. */
  @Benchmark
  public byte[] display() {
    display.encode(lab, MIXTURES, rgb, 0);
    return rgb;
  }

  /** An sRGB image of a megapixel to CMYK, its grid filled by earlier calls. */
  @Benchmark
  public char[] imageToInk() {
    separation.separate(image, 0, image.length / 3, tints);
    return tints;
  }

  /** A thousand separations, exact. */
  @Benchmark
  public void exactSeparations(Blackhole blackhole) {
    for (Lab color : colors) {
      blackhole.consume(reference.separate(color));
    }
  }

  /** A million CIEDE2000, plain form. */
  @Benchmark
  public double differencesPlain() {
    double sum = 0;
    for (Lab first : colors) {
      for (Lab second : colors) {
        sum += ColorDifference.de00(first, second);
      }
    }
    return sum;
  }

  /** A million CIEDE2000, the kernel of the coverage search. */
  @Benchmark
  public float differencesKernel() {
    float[] values = new float[4 * COLORS];
    for (int i = 0; i < COLORS; i++) {
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

  /** First calls in a fresh process, one measurement a process. */
  @State(Scope.Benchmark)
  @BenchmarkMode(Mode.SingleShotTime)
  @OutputTimeUnit(TimeUnit.MILLISECONDS)
  @Fork(8)
  @Warmup(iterations = 0)
  @Measurement(iterations = 1)
  public static class Cold {
    private final byte[] image = ColorBenchmark.image();
    private final char[] tints = new char[4 * WIDTH * HEIGHT];

    /** Load the default condition. */
    @Benchmark
    public ReferenceCondition load() {
      return ReferenceConditions.defaultCondition();
    }

    /** Load it and separate one colour. */
    @Benchmark
    public float[] loadAndSeparate() {
      return ReferenceConditions.defaultCondition().separate(new Lab(50, 10, 10));
    }

    /** Load it and take an sRGB image of a megapixel to CMYK. */
    @Benchmark
    public char[] loadAndSeparateImage() {
      new ProcessSeparation(SourceColor.srgb(), ReferenceConditions.defaultCondition())
          .separate(image, 0, image.length / 3, tints);
      return tints;
    }
  }
}
