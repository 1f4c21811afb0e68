package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.NoninvertibleTransformException;
import java.io.IOException;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBoolean;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.util.Matrix;

/**
 * Shadings whose colour is a function of the point: function-based, axial and radial (types 1 to 3
 * of ISO 32000-2, 8.7.4.5).
 */
abstract class PointShading {
  /** The state at a point of the shading's space, or {@link RowSource#NONE}. */
  abstract int at(double x, double y);

  static PointShading of(int type, COSDictionary shading, ColorStates states) throws IOException {
    ShadingFunctions functions = ShadingFunctions.of(shading, states.space().components());
    if (functions == null) {
      throw new IOException("a shading without a function");
    }
    return switch (type) {
      case 1 -> new FunctionBased(shading, functions, states);
      case 2 -> new Axial(shading, functions, states);
      default -> new Radial(shading, functions, states);
    };
  }

  static float[] numbers(COSDictionary dictionary, COSName key, float... otherwise) {
    COSArray array = dictionary.getCOSArray(key);
    return array == null || array.size() < otherwise.length ? otherwise : array.toFloatArray();
  }

  private static boolean extended(COSDictionary shading, int index) {
    COSArray extend = shading.getCOSArray(COSName.EXTEND);
    return extend != null
        && extend.size() > index
        && extend.getObject(index) instanceof COSBoolean flag
        && flag.getValue();
  }

  private static float[] coordinates(COSDictionary shading, int count) throws IOException {
    COSArray array = shading.getCOSArray(COSName.COORDS);
    if (array == null || array.size() < count) {
      throw new IOException("a shading without its coordinates");
    }
    return array.toFloatArray();
  }

  private static final class FunctionBased extends PointShading {
    private final AffineTransform toDomain;
    private final float[] domain;
    private final ShadingFunctions functions;
    private final LatticeStates states;
    private final double[] point = new double[2];

    FunctionBased(COSDictionary shading, ShadingFunctions functions, ColorStates states)
        throws IOException {
      this.functions = functions;
      this.states = new LatticeStates(states, states.space().defaultDecode(8));
      domain = numbers(shading, COSName.DOMAIN, 0, 1, 0, 1);
      try {
        toDomain =
            Matrix.createMatrix(shading.getDictionaryObject(COSName.MATRIX))
                .createAffineTransform()
                .createInverse();
      } catch (NoninvertibleTransformException e) {
        throw new IOException("a shading on a line or a point", e);
      }
    }

    @Override
    int at(double x, double y) {
      point[0] = x;
      point[1] = y;
      toDomain.transform(point, 0, point, 0, 1);
      boolean inside =
          point[0] >= domain[0]
              && point[0] <= domain[1]
              && point[1] >= domain[2]
              && point[1] <= domain[3];
      if (!inside) {
        return RowSource.NONE;
      }
      try {
        return states.of(functions.eval((float) point[0], (float) point[1]));
      } catch (IOException | RuntimeException e) {
        return RowSource.NONE;
      }
    }
  }

  private static final class Axial extends PointShading {
    private final double x0;
    private final double y0;
    private final double dx;
    private final double dy;
    private final boolean before;
    private final boolean after;
    private final ParametricStates ramp;

    Axial(COSDictionary shading, ShadingFunctions functions, ColorStates states)
        throws IOException {
      float[] c = coordinates(shading, 4);
      float[] domain = numbers(shading, COSName.DOMAIN, 0, 1);
      x0 = c[0];
      y0 = c[1];
      double length =
          (c[2] - c[0]) * (double) (c[2] - c[0]) + (c[3] - c[1]) * (double) (c[3] - c[1]);
      dx = (c[2] - c[0]) / length;
      dy = (c[3] - c[1]) / length;
      before = extended(shading, 0);
      after = extended(shading, 1);
      ramp = new ParametricStates(functions, states, domain[0], domain[1]);
    }

    @Override
    int at(double x, double y) {
      double s = (x - x0) * dx + (y - y0) * dy;
      // The axis may be a point: then s is no number and nothing is painted.
      boolean inside = (s >= 0 || (before && s < 0)) && (s <= 1 || (after && s > 1));
      return inside ? ramp.at(s) : RowSource.NONE;
    }
  }

  private static final class Radial extends PointShading {
    private final double x0;
    private final double y0;
    private final double r0;
    private final double dx;
    private final double dy;
    private final double dr;
    private final double a;
    private final boolean before;
    private final boolean after;
    private final ParametricStates ramp;

    Radial(COSDictionary shading, ShadingFunctions functions, ColorStates states)
        throws IOException {
      float[] c = coordinates(shading, 6);
      float[] domain = numbers(shading, COSName.DOMAIN, 0, 1);
      x0 = c[0];
      y0 = c[1];
      r0 = c[2];
      dx = c[3] - x0;
      dy = c[4] - y0;
      dr = c[5] - r0;
      a = dx * dx + dy * dy - dr * dr;
      before = extended(shading, 0);
      after = extended(shading, 1);
      ramp = new ParametricStates(functions, states, domain[0], domain[1]);
    }

    @Override
    int at(double x, double y) {
      // The circle at s has its centre at p0 + s·d and the radius r0 + s·dr; the point lies on it
      // where a·s² - 2·b·s + c = 0. The greatest s that is drawn paints last.
      double px = x - x0;
      double py = y - y0;
      double b = px * dx + py * dy + r0 * dr;
      double c = px * px + py * py - r0 * r0;
      if (Math.abs(a) < 1e-9) {
        double s = c / (2 * b);
        return isDrawn(s) ? ramp.at(s) : RowSource.NONE;
      }
      double discriminant = b * b - a * c;
      if (discriminant < 0) {
        return RowSource.NONE;
      }
      double root = Math.sqrt(discriminant);
      double larger = Math.max((b + root) / a, (b - root) / a);
      if (isDrawn(larger)) {
        return ramp.at(larger);
      }
      double smaller = Math.min((b + root) / a, (b - root) / a);
      return isDrawn(smaller) ? ramp.at(smaller) : RowSource.NONE;
    }

    private boolean isDrawn(double s) {
      return r0 + s * dr >= 0 && (s >= 0 || (before && s < 0)) && (s <= 1 || (after && s > 1));
    }
  }
}
