package selvage.separation;

import java.awt.geom.GeneralPath;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.util.Matrix;

/** Takes the operators that build paths, paint them and clip with them. */
final class PathOperators {
  private static final int NO_CLIP = -1;
  private static final int MOST_CLIPS = 10_000;

  private final PageInterpreter page;
  private final Path2D.Double path = new Path2D.Double();
  private int pendingClip = NO_CLIP;

  PathOperators(PageInterpreter page) {
    this.page = page;
  }

  /** Takes an operator; says whether it is one of these. */
  boolean take(String name, List<COSBase> operands) throws IOException {
    switch (name) {
      case "m" -> {
        Point2D.Double p = point(operands, 0);
        path.moveTo(p.x, p.y);
      }
      case "l" -> {
        Point2D.Double p = point(operands, 0);
        if (path.getCurrentPoint() == null) {
          path.moveTo(p.x, p.y);
        } else {
          path.lineTo(p.x, p.y);
        }
      }
      case "c" -> curve(point(operands, 0), point(operands, 2), point(operands, 4));
      case "v" -> curve(null, point(operands, 0), point(operands, 2));
      case "y" -> curve(point(operands, 0), point(operands, 2), point(operands, 2));
      case "h" -> {
        if (path.getCurrentPoint() != null) {
          path.closePath();
        }
      }
      case "re" -> rectangle(operands);
      case "S" -> paintPath(false, false, true);
      case "s" -> {
        closePath();
        paintPath(false, false, true);
      }
      case "f", "F" -> paintPath(true, false, false);
      case "f*" -> paintPath(true, true, false);
      case "B" -> paintPath(true, false, true);
      case "B*" -> paintPath(true, true, true);
      case "b" -> {
        closePath();
        paintPath(true, false, true);
      }
      case "b*" -> {
        closePath();
        paintPath(true, true, true);
      }
      case "n" -> paintPath(false, false, false);
      case "W" -> pendingClip = Path2D.WIND_NON_ZERO;
      case "W*" -> pendingClip = Path2D.WIND_EVEN_ODD;
      default -> {
        return false;
      }
    }
    return true;
  }

  private void closePath() {
    if (path.getCurrentPoint() != null) {
      path.closePath();
    }
  }

  private void curve(Point2D.Double a, Point2D.Double b, Point2D.Double c) {
    Point2D current = path.getCurrentPoint();
    if (current == null) {
      path.moveTo(c.x, c.y);
    } else if (a == null) {
      path.curveTo(current.getX(), current.getY(), b.x, b.y, c.x, c.y);
    } else {
      path.curveTo(a.x, a.y, b.x, b.y, c.x, c.y);
    }
  }

  private void rectangle(List<COSBase> operands) throws IOException {
    double x = Operands.number(operands, 0);
    double y = Operands.number(operands, 1);
    double w = Operands.number(operands, 2);
    double h = Operands.number(operands, 3);
    Point2D.Double p = transformed(x, y);
    path.moveTo(p.x, p.y);
    p = transformed(x + w, y);
    path.lineTo(p.x, p.y);
    p = transformed(x + w, y + h);
    path.lineTo(p.x, p.y);
    p = transformed(x, y + h);
    path.lineTo(p.x, p.y);
    path.closePath();
  }

  private void checkClips() throws IOException {
    if (page.getGraphicsState().getCurrentClippingPaths().size() >= MOST_CLIPS) {
      throw new IOException("a clip of more than " + MOST_CLIPS + " paths");
    }
  }

  private void paintPath(boolean fill, boolean evenOdd, boolean stroke) throws IOException {
    try {
      paintOpenPath(fill, evenOdd, stroke);
    } finally {
      path.reset();
      pendingClip = NO_CLIP;
    }
  }

  private void paintOpenPath(boolean fill, boolean evenOdd, boolean stroke) throws IOException {
    if (path.getCurrentPoint() != null) {
      if (!page.isHidden()) {
        if (fill && stroke) {
          page.fillAndStroke(path, evenOdd);
        } else if (fill) {
          page.fill(path, evenOdd);
        } else if (stroke) {
          page.stroke(path);
        }
      }
      if (pendingClip != NO_CLIP) {
        checkClips();
        path.setWindingRule(pendingClip);
        page.getGraphicsState().intersectClippingPath(new GeneralPath(path));
      }
    }
  }

  private Point2D.Double point(List<COSBase> operands, int index) throws IOException {
    return transformed(Operands.number(operands, index), Operands.number(operands, index + 1));
  }

  private Point2D.Double transformed(double x, double y) {
    Matrix m = page.getGraphicsState().getCurrentTransformationMatrix();
    return new Point2D.Double(
        x * m.getScaleX() + y * m.getShearX() + m.getTranslateX(),
        x * m.getShearY() + y * m.getScaleY() + m.getTranslateY());
  }
}
