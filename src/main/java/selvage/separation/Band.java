package selvage.separation;

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
