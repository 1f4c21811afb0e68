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
  /** Left bare around the symbol, some six modules; the standard asks for one. */
  public static final double CLEAR_MM = 3;

  /**
   * What the symbol's edges are set on, from the lower left corner of the sheet as displayed: one
   * sample at 300 an inch.
   */
  public static final double GRID_MM = 25.4 / 300;

  /**
   * One module, a fiftieth of an inch: a whole number of samples at 100, 150, 200, 300, 400 and 600
   * an inch, so that all modules come out alike.
   */
  static final double MODULE_MM = 6 * GRID_MM;

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

  /** The nearest length on the grid. */
  public static double onGrid(double mm) {
    return Math.rint(mm / GRID_MM) * GRID_MM;
  }

  /**
   * The dark modules of the symbol turned counter-clockwise by a quarter, its solid edges below and
   * on the right; otherwise as {@link #bars}.
   */
  public List<BoxMm> turnedBars(double leftMm, double lowerMm) {
    List<BoxMm> turned = new ArrayList<>();
    for (BoxMm bar : bars(0, 0)) {
      double x = leftMm + sizeMm() - bar.yMm() - bar.heightMm();
      turned.add(
          new BoxMm(
              x,
              lowerMm + bar.xMm(),
              /* widthMm= */ bar.heightMm(),
              /* heightMm= */ bar.widthMm()));
    }
    return turned;
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
