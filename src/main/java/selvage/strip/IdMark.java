package selvage.strip;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.datamatrix.DataMatrixWriter;
import com.google.zxing.datamatrix.encoder.SymbolShapeHint;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * A strip's name as a square Data Matrix symbol (ISO/IEC 16022, ECC 200), so that a sheet, or a
 * picture of it, finds its strip.
 */
public final class IdMark {
  /** Left bare around the symbol; the standard asks for one module. */
  public static final double CLEAR_MM = 1.5;

  /**
   * One module: six samples at 300 an inch, about four dots of a proofer's screen at 180 an inch
   * (common practice, no source).
   */
  private static final double MODULE_MM = 0.5;

  private final BitMatrix modules;

  private IdMark(BitMatrix modules) {
    this.modules = modules;
  }

  /**
   * Makes the smallest symbol that holds a name.
   *
   * @param stripId capital letters, digits and hyphens
   */
  public static IdMark of(String stripId) {
    Map<EncodeHintType, Object> hints =
        Map.of(EncodeHintType.DATA_MATRIX_SHAPE, SymbolShapeHint.FORCE_SQUARE);
    return new IdMark(
        new DataMatrixWriter().encode(stripId, BarcodeFormat.DATA_MATRIX, 0, 0, hints));
  }

  /** The edge of the symbol, without the clear space, in millimetres. */
  public double sizeMm() {
    return modules.getWidth() * MODULE_MM;
  }

  /**
   * The dark modules, those of a row that touch in one bar.
   *
   * @param leftMm left edge of the symbol
   * @param lowerMm lower edge of the symbol, y upwards
   */
  public List<BoxMm> bars(double leftMm, double lowerMm) {
    List<BoxMm> bars = new ArrayList<>();
    int size = modules.getWidth();
    for (int row = 0; row < size; row++) {
      int start = -1;
      for (int column = 0; column <= size; column++) {
        boolean dark = column < size && modules.get(column, row);
        if (dark && start < 0) {
          start = column;
        } else if (!dark && start >= 0) {
          double width = (column - start) * MODULE_MM;
          double lower = lowerMm + (size - 1 - row) * MODULE_MM;
          bars.add(new BoxMm(leftMm + start * MODULE_MM, lower, width, MODULE_MM));
          start = -1;
        }
      }
    }
    return bars;
  }
}
