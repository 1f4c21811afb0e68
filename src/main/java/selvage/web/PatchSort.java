package selvage.web;

import java.util.List;
import java.util.Optional;

/**
 * How a score's patches are sorted.
 *
 * @param column by which; empty for the strip's own order
 * @param descending the greatest first
 */
public record PatchSort(Optional<PatchColumn> column, boolean descending) {
  /** The strip's own order. */
  static final PatchSort NONE = new PatchSort(Optional.empty(), false);

  /** From an address: {@code de00}, or {@code -de00} for descending; anything else is no wish. */
  static PatchSort of(String wish) {
    if (wish == null) {
      return NONE;
    }
    boolean descending = wish.startsWith("-");
    String word = descending ? wish.substring(1) : wish;
    for (PatchColumn column : PatchColumn.values()) {
      if (column.word().equals(word)) {
        return new PatchSort(Optional.of(column), descending);
      }
    }
    return NONE;
  }

  List<PatchRow> sorted(List<PatchRow> rows) {
    if (column.isEmpty()) {
      return rows;
    }
    var order = column.get().order();
    return rows.stream().sorted(descending ? order.reversed() : order).toList();
  }

  /** For {@code aria-sort}; null where the rows are not sorted by that column. */
  public String state(PatchColumn other) {
    boolean isThis = column.equals(Optional.of(other));
    return isThis ? descending ? "descending" : "ascending" : null;
  }

  /** What a press on a column's heading asks for. */
  public String next(PatchColumn other) {
    boolean isThis = column.equals(Optional.of(other));
    boolean down = isThis ? !descending : other.numeric();
    return (down ? "-" : "") + other.word();
  }
}
