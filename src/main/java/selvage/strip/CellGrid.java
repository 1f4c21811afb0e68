package selvage.strip;

/**
 * A grid over {@link EvenSpace}, each place of which has a cell's number or none. What lies outside
 * the gamut of any print falls into the outermost places.
 */
final class CellGrid {
  private static final float LIGHTNESS_TO = 90;
  private static final float WIDEST = 66;

  private final float step;
  private final int lSide;
  private final int abSide;
  private final int[] cellAt; // cell + 1

  /**
   * An empty grid.
   *
   * @param step between its places, in units of about one ΔE00
   */
  CellGrid(double step) {
    this.step = (float) step;
    this.lSide = (int) Math.ceil(LIGHTNESS_TO / step) + 1;
    this.abSide = (int) Math.ceil(2 * WIDEST / step) + 1;
    this.cellAt = new int[lSide * abSide * abSide];
  }

  /** The key of the place in which a colour lies, its three coordinates from {@code at} on. */
  int key(float[] place, int at) {
    return (ofLightness(place[at]) * abSide + ofAb(place[at + 1])) * abSide + ofAb(place[at + 2]);
  }

  private int ofLightness(float value) {
    return clamped(value / step, lSide);
  }

  private int ofAb(float value) {
    return clamped((value + WIDEST) / step, abSide);
  }

  private static int clamped(float value, int side) {
    return Math.max(0, Math.min(side - 1, (int) value));
  }

  /** The cell at a place; -1 for none. */
  int cell(int key) {
    return cellAt[key] - 1;
  }

  /** Puts a cell into a place. */
  void put(int key, int cell) {
    cellAt[key] = cell + 1;
  }

  /**
   * The sum of a value over the cell at a place and those that touch it.
   *
   * @param values by cell
   */
  double sumAround(int key, double[] values) {
    int b = key % abSide;
    int a = key / abSide % abSide;
    int l = key / abSide / abSide;
    double sum = 0;
    for (int li = Math.max(0, l - 1); li <= Math.min(lSide - 1, l + 1); li++) {
      for (int ai = Math.max(0, a - 1); ai <= Math.min(abSide - 1, a + 1); ai++) {
        int line = (li * abSide + ai) * abSide;
        for (int bi = Math.max(0, b - 1); bi <= Math.min(abSide - 1, b + 1); bi++) {
          int cell = cellAt[line + bi] - 1;
          sum += cell < 0 ? 0 : values[cell];
        }
      }
    }
    return sum;
  }

  /**
   * The cells in a box around a colour.
   *
   * @param place its three coordinates
   * @param lightness half of the box's first side
   * @param reach half of the two others
   * @param found takes the cells; no shorter than there are cells
   * @return how many
   */
  int inBox(float[] place, float lightness, float reach, int[] found) {
    int l1 = ofLightness(place[0] + lightness);
    int a0 = ofAb(place[1] - reach);
    int a1 = ofAb(place[1] + reach);
    int b0 = ofAb(place[2] - reach);
    int b1 = ofAb(place[2] + reach);
    int count = 0;
    for (int l = ofLightness(place[0] - lightness); l <= l1; l++) {
      for (int a = a0; a <= a1; a++) {
        int line = (l * abSide + a) * abSide;
        for (int at = line + b0; at <= line + b1; at++) {
          if (cellAt[at] > 0) {
            found[count++] = cellAt[at] - 1;
          }
        }
      }
    }
    return count;
  }
}
