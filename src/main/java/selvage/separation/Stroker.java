package selvage.separation;

import java.awt.geom.AffineTransform;
import java.util.Arrays;

/**
 * Turns the lines of a path into the outline of its stroke: a quadrilateral a segment, a polygon a
 * join and a cap, all wound the same way, so that the non-zero rule unites them. Lines come in
 * sample coordinates; width, joins and dashes are measured in the user space of the stroke, so that
 * an anisotropic matrix widens the pen as it must (ISO 32000-2, 8.4.3.2).
 */
final class Stroker implements Flattener.LineSink {
  /** How a stroke is drawn; lengths in user space units. */
  static final class Pen {
    static final int BUTT = 0;
    static final int ROUND = 1;
    static final int SQUARE = 2;
    static final int MITER = 0;
    static final int BEVEL = 2;

    private final double width;
    private final int cap;
    private final int join;
    private final double miterLimit;
    private final double[] dashes;
    private final double phase;

    /**
     * A pen.
     *
     * @param cap and {@code join} as PDF numbers them
     * @param dashes lengths on and off in turn; empty for a solid line
     */
    Pen(double width, int cap, int join, double miterLimit, double[] dashes, double phase) {
      this.width = width;
      this.cap = cap;
      this.join = join;
      this.miterLimit = miterLimit;
      this.dashes = dashes;
      this.phase = phase;
    }
  }

  /** A stroke is painted at least this wide, in samples, so that no line falls between samples. */
  private static final double LEAST_WIDTH = 1;

  private static final int MOST_DASHES = 50_000;

  private final EdgeList edges;
  private final Pen pen;
  private final double half; // half the width, user space
  private final double a; // user to samples, linear part
  private final double b;
  private final double c;
  private final double d;
  private final double determinant;
  private final boolean dashed;
  private int dashesLeft = MOST_DASHES;

  private double[] xs = new double[64];
  private double[] ys = new double[64];
  private int n;

  /**
   * @param toSamples from the stroke's user space to samples
   */
  Stroker(EdgeList edges, Pen pen, AffineTransform toSamples) {
    this.edges = edges;
    this.pen = pen;
    double det = toSamples.getDeterminant();
    double scale = Math.sqrt(Math.abs(det));
    boolean usable = scale > 1e-9 && Double.isFinite(scale);
    a = usable ? toSamples.getScaleX() : 1;
    b = usable ? toSamples.getShearY() : 0;
    c = usable ? toSamples.getShearX() : 0;
    d = usable ? toSamples.getScaleY() : 1;
    determinant = a * d - b * c;
    double least = LEAST_WIDTH / (usable ? scale : 1);
    half = Math.max(usable ? Math.abs(pen.width) : 0, least) / 2;
    double period = 0;
    boolean sound = pen.dashes.length > 0;
    for (double dash : pen.dashes) {
      sound &= dash >= 0 && Double.isFinite(dash);
      period += dash;
    }
    dashed = sound && period > 0 && usable;
  }

  /** Whether dashes were given up because there were too many to be a picture of anything. */
  boolean gaveUpDashes() {
    return dashed && dashesLeft <= 0;
  }

  @Override
  public void moveTo(double x, double y) {
    n = 0;
    push(x, y);
  }

  @Override
  public void lineTo(double x, double y) {
    if (x != xs[n - 1] || y != ys[n - 1]) {
      push(x, y);
    } else if (n == 1) {
      push(x, y); // a zero-length subpath, which round and square caps make visible
    }
  }

  private void push(double x, double y) {
    if (n == xs.length) {
      xs = Arrays.copyOf(xs, 2 * n);
      ys = Arrays.copyOf(ys, 2 * n);
    }
    xs[n] = x;
    ys[n++] = y;
  }

  @Override
  public void close() {
    if (n > 1 && (xs[n - 1] != xs[0] || ys[n - 1] != ys[0])) {
      push(xs[0], ys[0]);
    }
    finish(true);
  }

  @Override
  public void end() {
    finish(false);
  }

  private void finish(boolean closed) {
    dropRepeats();
    if (n == 1 || (n == 2 && xs[0] == xs[1] && ys[0] == ys[1])) {
      dot();
    } else if (n >= 2) {
      if (dashed && dashesLeft > 0) {
        dash(closed);
      } else {
        outline(xs, ys, n, closed);
      }
    }
    n = 0;
  }

  private void dropRepeats() {
    if (n <= 2) {
      return;
    }
    int kept = 1;
    for (int i = 1; i < n; i++) {
      if (xs[i] != xs[kept - 1] || ys[i] != ys[kept - 1]) {
        xs[kept] = xs[i];
        ys[kept++] = ys[i];
      }
    }
    n = kept;
  }

  private void dot() {
    if (pen.cap == Pen.ROUND) {
      disc(xs[0], ys[0]);
    } else if (pen.cap == Pen.SQUARE) {
      quad(xs[0], ys[0], half, 0, 0, half);
    }
  }

  /** A parallelogram about a point, from two half sides in user space. */
  private void quad(double x, double y, double ux, double uy, double vx, double vy) {
    double sx = a * ux + c * uy;
    double sy = b * ux + d * uy;
    double tx = a * vx + c * vy;
    double ty = b * vx + d * vy;
    polygon(
        new double[] {x - sx - tx, x + sx - tx, x + sx + tx, x - sx + tx},
        new double[] {y - sy - ty, y + sy - ty, y + sy + ty, y - sy + ty},
        4);
  }

  private void outline(double[] px, double[] py, int count, boolean closed) {
    int segments = count - 1;
    double[] ux = new double[segments]; // unit directions in user space
    double[] uy = new double[segments];
    for (int i = 0; i < segments; i++) {
      double dx = px[i + 1] - px[i];
      double dy = py[i + 1] - py[i];
      double x = (d * dx - c * dy) / determinant;
      double y = (a * dy - b * dx) / determinant;
      double length = Math.hypot(x, y);
      if (!(length > 0) || !Double.isFinite(length)) {
        return;
      }
      ux[i] = x / length;
      uy[i] = y / length;
      segment(px[i], py[i], px[i + 1], py[i + 1], ux[i], uy[i]);
    }
    for (int i = 1; i < segments; i++) {
      join(px[i], py[i], ux[i - 1], uy[i - 1], ux[i], uy[i]);
    }
    if (closed) {
      join(px[0], py[0], ux[segments - 1], uy[segments - 1], ux[0], uy[0]);
    } else {
      cap(px[0], py[0], -ux[0], -uy[0]);
      cap(px[count - 1], py[count - 1], ux[segments - 1], uy[segments - 1]);
    }
  }

  private void segment(double x0, double y0, double x1, double y1, double ux, double uy) {
    double nx = -uy * half;
    double ny = ux * half;
    double sx = a * nx + c * ny;
    double sy = b * nx + d * ny;
    polygon(
        new double[] {x0 - sx, x1 - sx, x1 + sx, x0 + sx},
        new double[] {y0 - sy, y1 - sy, y1 + sy, y0 + sy},
        4);
  }

  private void join(double x, double y, double ux, double uy, double vx, double vy) {
    double cross = ux * vy - uy * vx;
    double dot = ux * vx + uy * vy;
    if (Math.abs(cross) < 1e-9 && dot > 0) {
      return;
    }
    if (pen.join == Pen.ROUND) {
      disc(x, y);
      return;
    }
    // The outer side lies right of a left turn.
    double side = cross > 0 ? 1 : -1;
    double n0x = side * uy * half;
    double n0y = -side * ux * half;
    double n1x = side * vy * half;
    double n1y = -side * vx * half;
    double[] qx = new double[4];
    double[] qy = new double[4];
    int count = 0;
    qx[count] = x;
    qy[count++] = y;
    qx[count] = x + a * n0x + c * n0y;
    qy[count++] = y + b * n0x + d * n0y;
    if (pen.join == Pen.MITER) {
      // Miter length over width is 1 / sin(φ/2), with cos φ = -dot.
      double sinHalf = Math.sqrt(Math.max(0, (1 + dot) / 2));
      if (sinHalf > 1e-6 && 1 / sinHalf <= pen.miterLimit) {
        double mx = n0x + n1x;
        double my = n0y + n1y;
        double stretch = 2 * half * half / (mx * mx + my * my);
        mx *= stretch;
        my *= stretch;
        qx[count] = x + a * mx + c * my;
        qy[count++] = y + b * mx + d * my;
      }
    }
    qx[count] = x + a * n1x + c * n1y;
    qy[count++] = y + b * n1x + d * n1y;
    polygon(qx, qy, count);
  }

  /** A cap at a point, pointing along a unit vector in user space. */
  private void cap(double x, double y, double ux, double uy) {
    if (pen.cap == Pen.ROUND) {
      disc(x, y);
    } else if (pen.cap == Pen.SQUARE) {
      double ex = x + half / 2 * (a * ux + c * uy);
      double ey = y + half / 2 * (b * ux + d * uy);
      quad(ex, ey, ux * half / 2, uy * half / 2, -uy * half, ux * half);
    }
  }

  private void disc(double x, double y) {
    double reach = half * Math.sqrt((a * a + b * b + c * c + d * d) / 2);
    int corners =
        (int)
            Math.max(
                8, Math.min(256, Math.ceil(Math.PI / Math.acos(1 - 0.1 / Math.max(0.2, reach)))));
    double[] qx = new double[corners];
    double[] qy = new double[corners];
    for (int i = 0; i < corners; i++) {
      double angle = 2 * Math.PI * i / corners;
      double ux = half * Math.cos(angle);
      double uy = half * Math.sin(angle);
      qx[i] = x + a * ux + c * uy;
      qy[i] = y + b * ux + d * uy;
    }
    polygon(qx, qy, corners);
  }

  private void polygon(double[] qx, double[] qy, int count) {
    double area = 0;
    for (int i = 0; i < count; i++) {
      int j = (i + 1) % count;
      area += qx[i] * qy[j] - qx[j] * qy[i];
    }
    for (int i = 0; i < count; i++) {
      int j = (i + 1) % count;
      if (area >= 0) {
        edges.add(qx[i], qy[i], qx[j], qy[j]);
      } else {
        edges.add(qx[j], qy[j], qx[i], qy[i]);
      }
    }
  }

  private void dash(boolean closed) {
    double[] dashes = pen.dashes;
    int index = 0;
    double phase = Double.isFinite(pen.phase) ? pen.phase : 0;
    double period = 0;
    for (double dash : dashes) {
      period += dash;
    }
    double cycle = dashes.length % 2 == 0 ? period : 2 * period;
    phase = ((phase % cycle) + cycle) % cycle;
    while (phase > 0 && phase >= dashes[index % dashes.length]) {
      phase -= dashes[index % dashes.length];
      index++;
    }
    double left = dashes[index % dashes.length] - phase;
    boolean on = index % 2 == 0;
    double[] px = new double[16];
    double[] py = new double[16];
    int count = 0;
    if (on) {
      px[0] = xs[0];
      py[0] = ys[0];
      count = 1;
    }
    double[] firstX = null; // the dash at the start of a closed path, joined to the last one
    double[] firstY = null;
    boolean startedOn = on;
    for (int i = 0; i + 1 < n; i++) {
      double dx = xs[i + 1] - xs[i];
      double dy = ys[i + 1] - ys[i];
      double length = Math.hypot((d * dx - c * dy) / determinant, (a * dy - b * dx) / determinant);
      double at = 0;
      while (length - at > left) {
        at += left;
        double x = xs[i] + dx * at / length;
        double y = ys[i] + dy * at / length;
        if (on) {
          px[count] = x;
          py[count++] = y;
          if (closed && startedOn && firstX == null) {
            firstX = Arrays.copyOf(px, count);
            firstY = Arrays.copyOf(py, count);
          } else {
            dashPiece(px, py, count);
          }
          count = 0;
        } else {
          px[0] = x;
          py[0] = y;
          count = 1;
        }
        on = !on;
        index++;
        left = dashes[index % dashes.length];
        if (--dashesLeft <= 0) {
          outline(xs, ys, n, closed);
          return;
        }
      }
      left -= length - at;
      if (on) {
        if (count + 2 > px.length) {
          px = Arrays.copyOf(px, 2 * px.length);
          py = Arrays.copyOf(py, 2 * py.length);
        }
        px[count] = xs[i + 1];
        py[count++] = ys[i + 1];
      }
    }
    if (firstX != null) {
      int total = count + firstX.length;
      double[] jx = Arrays.copyOf(px, total);
      double[] jy = Arrays.copyOf(py, total);
      System.arraycopy(firstX, 0, jx, count, firstX.length);
      System.arraycopy(firstY, 0, jy, count, firstX.length);
      dashPiece(jx, jy, total);
    } else if (on) {
      if (closed && startedOn) {
        outline(xs, ys, n, true);
      } else {
        dashPiece(px, py, count);
      }
    }
  }

  private void dashPiece(double[] px, double[] py, int count) {
    int kept = Math.min(1, count);
    for (int i = 1; i < count; i++) {
      if (px[i] != px[kept - 1] || py[i] != py[kept - 1]) {
        px[kept] = px[i];
        py[kept++] = py[i];
      }
    }
    if (kept >= 2) {
      outline(px, py, kept, false);
    } else if (count >= 1 && pen.cap != Pen.BUTT) {
      if (pen.cap == Pen.ROUND) {
        disc(px[0], py[0]);
      } else {
        quad(px[0], py[0], half, 0, 0, half);
      }
    }
  }
}
