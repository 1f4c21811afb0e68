package selvage.separation;

import java.util.Arrays;
import java.util.List;
import selvage.ink.Colorant;
import selvage.ink.Tint;

/**
 * A horizontal band of a page's raster as ink: each sample holds the index of a state, each state a
 * tint for every colorant. Valid only while it is handed to a {@link BandSink}.
 */
public final class Band {
  private final int firstRow;
  private final int rows;
  private final int width;
  private final List<Colorant> colorants;
  private final int[] cells;
  private final char[] tints; // by state and colorant
  private final byte[] kinds;

  Band(int firstRow, Layer layer, StateTable table, InkSet inks, BlendSpaces blendSpaces) {
    this.firstRow = firstRow;
    this.rows = layer.height;
    this.width = layer.width;
    this.colorants = inks.colorants();
    this.cells = layer.cells;
    int slots = colorants.size();
    int states = table.size();
    tints = new char[states * slots];
    kinds = new byte[states];
    char[] row = table.newRow();
    for (int state = 0; state < states; state++) {
      table.read(state, row);
      blendSpaces.convert(row, layer.blending, Layer.Blending.CMYK);
      int alpha = row[StateTable.ALPHA];
      int all = 0;
      int at = state * slots;
      for (int slot = 0; slot < slots; slot++) {
        // The page's group lies on paper: what is not opaque lets paper through.
        int tint = row[StateTable.INKS + slot];
        tint = alpha == Tint.FULL ? tint : Compositor.multiply(tint, alpha);
        tints[at + slot] = (char) tint;
        all |= tint;
      }
      kinds[state] = (byte) (all == 0 ? 0 : row[StateTable.KINDS]);
    }
  }

  /** The first row's place in the page's raster. */
  public int firstRow() {
    return firstRow;
  }

  public int rows() {
    return rows;
  }

  public int width() {
    return width;
  }

  /** The colorants met so far, in the order of the tints; later bands may have more. */
  public List<Colorant> colorants() {
    return colorants;
  }

  /** States are numbered from 0 to this. */
  public int stateCount() {
    return kinds.length;
  }

  /**
   * The state at a sample.
   *
   * @param row of the page's raster
   */
  public int state(int column, int row) {
    return cells[(row - firstRow) * width + column];
  }

  /**
   * Where a run of equal states ends.
   *
   * @param column of the run's first sample
   * @param row of the page's raster
   * @param end the run ends here at the latest, at most {@link #width}
   * @return the column after the run's last sample
   */
  public int runEnd(int column, int row, int end) {
    int first = (row - firstRow) * width;
    int from = first + column;
    int to = first + end;
    int state = cells[from];
    int near = Math.min(to, from + 8);
    for (int at = from + 1; at < near; at++) {
      if (cells[at] != state) {
        return at - first;
      }
    }
    if (near == to) {
      return end;
    }
    // A long run: where the samples first differ from themselves, moved by one.
    int differs = Arrays.mismatch(cells, near - 1, to - 1, cells, near, to);
    return differs < 0 ? end : near + differs - first;
  }

  /** The tint of a state, in {@link Tint} units. */
  public int tint(int state, int colorant) {
    return tints[state * colorants.size() + colorant];
  }

  /** Bits of {@link ObjectKind}: what made a state; 0 for paper. */
  public int kindBits(int state) {
    return kinds[state];
  }

  /** Whether a state bears no ink. */
  public boolean isPaper(int state) {
    return kinds[state] == 0;
  }
}
