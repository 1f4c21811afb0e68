package selvage.separation;

import java.util.Arrays;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSFloat;
import org.apache.pdfbox.pdmodel.graphics.PDLineDashPattern;

/**
 * A line's dashes with their exact phase. PDFBox's pattern, which the graphics state holds, keeps
 * whole phases only; so the phase rides behind the lengths in its array.
 */
final class DashPattern {
  private final float[] packed;

  private DashPattern(float[] packed) {
    this.packed = packed;
  }

  /** Packs dashes for the graphics state. */
  static PDLineDashPattern pack(COSArray lengths, double phase) {
    COSArray array = new COSArray();
    array.addAll(lengths);
    array.add(new COSFloat((float) phase));
    return new PDLineDashPattern(array, 0);
  }

  /** Unpacks what {@link #pack} made; PDFBox's own initial pattern is a solid line. */
  static DashPattern unpack(PDLineDashPattern pattern) {
    return new DashPattern(pattern == null ? new float[0] : pattern.getDashArray());
  }

  /** Dashes and gaps by turns, in user space units; none for a solid line. */
  double[] lengths() {
    double[] lengths = new double[Math.max(0, packed.length - 1)];
    Arrays.setAll(lengths, i -> packed[i]);
    return lengths;
  }

  /** How far into the pattern a line starts. */
  double phase() {
    return packed.length == 0 ? 0 : packed[packed.length - 1];
  }
}
