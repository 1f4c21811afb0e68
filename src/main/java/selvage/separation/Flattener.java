package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.PathIterator;

/**
 * Walks a path as straight lines in sample coordinates. Curves are split so that no chord lies
 * farther than about a tenth of a sample from its curve.
 */
final class Flattener {
  private static final double TOLERANCE = 0.1;
  private static final int MOST_PIECES = 500;

  /** Takes the lines of a path. */
  interface LineSink {
    void moveTo(double x, double y);

    void lineTo(double x, double y);

    /** Ends a subpath by a line back to its start. */
    void close();

    /** Ends a subpath that was left open. */
    void end();
  }

  private Flattener() {}

  /** Sends a path's lines to a sink; each subpath ends with {@code close} or {@code end}. */
  static void walk(Path2D path, AffineTransform toSamples, LineSink sink) {
    double[] p = new double[6];
    double x = 0;
    double y = 0;
    double startX = 0;
    double startY = 0;
    boolean open = false;
    boolean started = false;
    for (PathIterator it = path.getPathIterator(toSamples); !it.isDone(); it.next()) {
      int kind = it.currentSegment(p);
      if (kind == PathIterator.SEG_MOVETO) {
        if (open) {
          sink.end();
        }
        open = false;
        started = true;
        startX = x = p[0];
        startY = y = p[1];
        continue;
      }
      if (kind == PathIterator.SEG_CLOSE) {
        if (!open && started) {
          sink.moveTo(x, y);
        }
        if (open || started) {
          sink.close();
        }
        open = false;
        x = startX;
        y = startY;
        continue;
      }
      if (!open) {
        sink.moveTo(x, y);
        open = true;
      }
      switch (kind) {
        case PathIterator.SEG_LINETO -> {
          sink.lineTo(p[0], p[1]);
          x = p[0];
          y = p[1];
        }
        case PathIterator.SEG_QUADTO -> {
          cubic(
              x,
              y,
              x + (p[0] - x) * 2 / 3,
              y + (p[1] - y) * 2 / 3,
              p[2] + (p[0] - p[2]) * 2 / 3,
              p[3] + (p[1] - p[3]) * 2 / 3,
              p[2],
              p[3],
              sink);
          x = p[2];
          y = p[3];
        }
        default -> {
          cubic(x, y, p[0], p[1], p[2], p[3], p[4], p[5], sink);
          x = p[4];
          y = p[5];
        }
      }
    }
    if (open) {
      sink.end();
    }
  }

  private static void cubic(
      double x0,
      double y0,
      double x1,
      double y1,
      double x2,
      double y2,
      double x3,
      double y3,
      LineSink sink) {
    // The second differences bound how far a chord strays: |d| / 8 · (3·2) / n².
    double dx = Math.max(Math.abs(x0 - 2 * x1 + x2), Math.abs(x1 - 2 * x2 + x3));
    double dy = Math.max(Math.abs(y0 - 2 * y1 + y2), Math.abs(y1 - 2 * y2 + y3));
    double pieces = Math.ceil(Math.sqrt(0.75 * Math.hypot(dx, dy) / TOLERANCE));
    int n = pieces >= 1 ? (int) Math.min(MOST_PIECES, pieces) : 1;
    for (int i = 1; i < n; i++) {
      double t = (double) i / n;
      double s = 1 - t;
      double a = s * s * s;
      double b = 3 * s * s * t;
      double c = 3 * s * t * t;
      double d = t * t * t;
      sink.lineTo(a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3);
    }
    sink.lineTo(x3, y3);
  }

  /** A sink that closes every subpath and gathers it for filling. */
  static LineSink filling(EdgeList edges) {
    return filling(edges, null);
  }

  /**
   * As {@link #filling(EdgeList)}, gathering thin parts as well.
   *
   * @param thin may be null
   */
  static LineSink filling(EdgeList edges, ThinParts thin) {
    return new LineSink() {
      private double x;
      private double y;
      private double startX;
      private double startY;

      @Override
      public void moveTo(double toX, double toY) {
        startX = x = toX;
        startY = y = toY;
      }

      @Override
      public void lineTo(double toX, double toY) {
        edge(toX, toY);
        x = toX;
        y = toY;
      }

      @Override
      public void close() {
        edge(startX, startY);
      }

      private void edge(double toX, double toY) {
        edges.add(x, y, toX, toY);
        if (thin != null) {
          thin.add(x, y, toX, toY);
        }
      }

      @Override
      public void end() {
        close();
      }
    };
  }
}
