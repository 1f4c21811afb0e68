package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class FlattenerTest {
  /** Four cubics stray from their circle by at most 0.00027 of the radius. */
  private static final double KAPPA = 0.5522847498;

  /** Writes down what it is told. */
  private static final class Listener implements Flattener.LineSink {
    final List<double[]> points = new ArrayList<>();
    final StringBuilder events = new StringBuilder();

    @Override
    public void moveTo(double x, double y) {
      points.add(new double[] {x, y});
      events.append('m');
    }

    @Override
    public void lineTo(double x, double y) {
      points.add(new double[] {x, y});
      events.append('l');
    }

    @Override
    public void close() {
      events.append('c');
    }

    @Override
    public void end() {
      events.append('e');
    }
  }

  private static Listener walk(Path2D path) {
    Listener listener = new Listener();
    Flattener.walk(path, new AffineTransform(), listener);
    return listener;
  }

  private static Path2D circle(double r) {
    double k = KAPPA * r;
    Path2D path = new Path2D.Double();
    path.moveTo(r, 0);
    path.curveTo(r, k, k, r, 0, r);
    path.curveTo(-k, r, -r, k, -r, 0);
    path.curveTo(-r, -k, -k, -r, 0, -r);
    path.curveTo(k, -r, r, -k, r, 0);
    path.closePath();
    return path;
  }

  @Test
  void walk_circles_chordsStayWithinATenthOfASample() {
    for (double r : new double[] {0.5, 5, 50, 5000}) {
      List<double[]> points = walk(circle(r)).points;
      for (int i = 0; i + 1 < points.size(); i++) {
        double[] p = points.get(i);
        double[] q = points.get(i + 1);
        double middle = Math.hypot((p[0] + q[0]) / 2, (p[1] + q[1]) / 2);
        assertThat(r - middle).as("radius %s", r).isLessThan(0.1 + 0.0003 * r);
        assertThat(Math.hypot(q[0], q[1]) - r).as("radius %s", r).isLessThan(0.0003 * r + 1e-9);
      }
    }
  }

  @Test
  void walk_quadraticCurve_passesItsMiddle() {
    Path2D path = new Path2D.Double();
    path.moveTo(0, 0);
    path.quadTo(50, 100, 100, 0);
    // At t = 1/2 a parabola stands at half its control point's height.
    double highest = walk(path).points.stream().mapToDouble(p -> p[1]).max().orElse(0);
    assertThat(highest).isBetween(49.8, 50.0);
  }

  @Test
  void walk_subpaths_endAsTheyWereDrawn() {
    Path2D path = Shapes.line(0, 0, 1, 0, 1, 1);
    path.append(Shapes.polygon(5, 5, 6, 5, 6, 6), false);
    path.moveTo(9, 9);
    assertThat(walk(path).events.toString()).isEqualTo("mllemllc");
  }

  @Test
  void walk_coordinatesBeyondNumbers_ends() {
    Path2D path = new Path2D.Double();
    path.moveTo(0, 0);
    path.curveTo(Double.NaN, 0, 1e300, 1e300, Double.POSITIVE_INFINITY, 0);
    assertThat(walk(path).points.size()).isLessThan(1000);
  }
}
