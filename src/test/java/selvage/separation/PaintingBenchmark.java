package selvage.separation;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import selvage.color.ReferenceConditions;
import selvage.ink.Tint;

/**
 * What painting costs on the raster of an A4 page at 150 dpi: turning edges into regions, cutting
 * regions, and compositing a state over them.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 5, time = 1)
@Measurement(iterations = 8, time = 1)
public class PaintingBenchmark {
  private static final int WIDTH = 1240;
  private static final int HEIGHT = 1754;
  private static final int CORNERS = 720;

  /** States on the page before: a photograph has as many. */
  private static final int STATES = 100_000;

  private final Region all = Region.ofRectangle(0, 0, WIDTH, HEIGHT);
  private Region star;
  private InkSet inks;
  private BlendSpaces blendSpaces;
  private Layer layer;
  private Compositor compositor;
  private int source;
  private int[] photograph;

  @Setup
  public void prepare() {
    inks = new InkSet();
    blendSpaces = new BlendSpaces(new ProcessLinks(ReferenceConditions.defaultCondition(), null));
    star = edgesToRegion();
    lay();
    photograph = layer.cells.clone();
  }

  private void lay() {
    layer = Layer.isolated(0, 0, WIDTH, HEIGHT, false, Layer.Blending.CMYK);
    compositor = new Compositor(inks, blendSpaces, layer);
    char[] row = compositor.newRow();
    row[StateTable.KINDS] = (char) ObjectKind.IMAGE.bit();
    row[StateTable.ALPHA] = Tint.FULL;
    int[] states = new int[STATES];
    for (int i = 0; i < STATES; i++) {
      row[StateTable.INKS] = (char) (i % 256 * Tint.PER_BYTE);
      row[StateTable.INKS + 1] = (char) (i / 256 % 256 * Tint.PER_BYTE);
      row[StateTable.INKS + 2] = (char) (i / 65536 * Tint.PER_BYTE);
      states[i] = compositor.table().intern(row);
    }
    for (int i = 0; i < layer.cells.length; i++) {
      layer.cells[i] = states[(int) (i * 2654435761L % STATES)];
    }
    row[StateTable.KINDS] = (char) ObjectKind.FILL.bit();
    row[StateTable.INKS + 3] = Tint.FULL / 2;
    source = compositor.table().intern(row);
  }

  /** A star of {@value #CORNERS} corners over the whole page. */
  @Benchmark
  public Region edgesToRegion() {
    EdgeList edges = new EdgeList(0, 0, WIDTH, HEIGHT, Deadline.ofPage(1, 600));
    double x = corner(0, true);
    double y = corner(0, false);
    for (int i = 1; i <= CORNERS; i++) {
      double nextX = corner(i, true);
      double nextY = corner(i, false);
      edges.add(x, y, nextX, nextY);
      x = nextX;
      y = nextY;
    }
    return edges.toRegion(false);
  }

  private static double corner(int number, boolean horizontal) {
    double angle = 2 * Math.PI * number / CORNERS;
    double radius = number % 2 == 0 ? 610 : 400;
    return horizontal
        ? WIDTH / 2.0 + radius * Math.cos(angle)
        : HEIGHT / 2.0 + radius * Math.sin(angle);
  }

  @Benchmark
  public Region regionIntersection() {
    return star.intersect(all);
  }

  @Benchmark
  public int fillOpaque() {
    compositor.paint(all, source, new Compositor.Mode(null, Tint.FULL, Blend.NORMAL, null));
    return layer.cells[0];
  }

  /** Two million samples, each pair of states met before. */
  @Benchmark
  public int multiplyRemembered() {
    System.arraycopy(photograph, 0, layer.cells, 0, photograph.length);
    compositor.paint(all, source, new Compositor.Mode(null, Tint.FULL, Blend.MULTIPLY, null));
    return layer.cells[0];
  }

  /** A page of its own for each call. */
  @State(Scope.Thread)
  public static class FreshPage {
    private final PaintingBenchmark page = new PaintingBenchmark();

    @Setup(Level.Invocation)
    public void lay() {
      if (page.inks == null) {
        page.prepare();
      } else {
        page.lay();
      }
    }
  }

  /** Two million samples over {@value #STATES} states, none met before. */
  @Benchmark
  public int multiplyFresh(FreshPage fresh) {
    PaintingBenchmark page = fresh.page;
    page.compositor.paint(
        page.all, page.source, new Compositor.Mode(null, Tint.FULL, Blend.MULTIPLY, null));
    return page.layer.cells[0];
  }
}
