package selvage.strip;

import java.util.List;
import selvage.color.Lab;

/** Rows as a strip of the program has them, for tests of other packages. */
public final class OrderedRows {
  private OrderedRows() {}

  /** Indices of colours by row, as {@link PatchOrder} arranges them. */
  public static List<List<Integer>> of(List<Lab> colors, int rowCount) {
    return PatchOrder.arrange(colors, rowCount);
  }
}
