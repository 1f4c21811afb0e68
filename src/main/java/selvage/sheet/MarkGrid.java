package selvage.sheet;

import selvage.strip.IdMark;
import selvage.strip.StripLayout;

/**
 * Sets strips so that the edges of their mark fall between samples at the usual resolutions, where
 * there is play for it: all its modules then come out alike. Lengths are millimetres as displayed.
 */
final class MarkGrid {
  private static final double ROUNDING_MM = 1e-6;

  private MarkGrid() {}

  /**
   * The position on the grid that is nearest to the wanted one.
   *
   * @param least the lowest position that will do
   * @param most the highest
   * @return the wanted one where none between those two is on the grid
   */
  static double near(double wanted, double least, double most) {
    double down = Math.floor(wanted / IdMark.GRID_MM + ROUNDING_MM) * IdMark.GRID_MM;
    double up = up(wanted);
    boolean downFits = down >= least - ROUNDING_MM;
    boolean upFits = up <= most + ROUNDING_MM;
    if (downFits && (!upFits || wanted - down <= up - wanted)) {
      return Math.min(most, Math.max(least, down));
    }
    return upFits ? Math.min(most, Math.max(least, up)) : wanted;
  }

  /** The least length on the grid that is not below the wanted one. */
  static double up(double wanted) {
    return Math.ceil(wanted / IdMark.GRID_MM - ROUNDING_MM) * IdMark.GRID_MM;
  }

  /** As {@link #near}, for the left edge of a strip whose rows stand upright. */
  static double nearUpright(StripLayout layout, double wanted, double least, double most) {
    double height = layout.heightMm();
    return near(wanted + height, least + height, most + height) - height;
  }
}
