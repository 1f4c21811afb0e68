package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;

/** Shapes in samples, for tests of the raster kernels. */
final class Shapes {
  static final int SIDE = 400;

  private Shapes() {}

  static EdgeList edges() {
    return new EdgeList(0, 0, SIDE, SIDE, Deadline.ofPage(1, 3600));
  }

  /**
   * A closed polygon.
   *
   * @param xy x and y by turns
   */
  static Path2D polygon(double... xy) {
    Path2D path = line(xy);
    path.closePath();
    return path;
  }

  /** An open line. */
  static Path2D line(double... xy) {
    Path2D path = new Path2D.Double();
    path.moveTo(xy[0], xy[1]);
    for (int i = 2; i < xy.length; i += 2) {
      path.lineTo(xy[i], xy[i + 1]);
    }
    return path;
  }

  /** The samples inside a path. */
  static Region fill(Path2D path, boolean evenOdd) {
    EdgeList edges = edges();
    Flattener.walk(path, new AffineTransform(), Flattener.filling(edges));
    return edges.toRegion(evenOdd);
  }

  /** The samples under a stroke; the path is in samples. */
  static Region stroke(Path2D path, Stroker.Pen pen, AffineTransform toSamples) {
    EdgeList edges = edges();
    Flattener.walk(path, new AffineTransform(), new Stroker(edges, pen, toSamples));
    return edges.toRegion(false);
  }
}
