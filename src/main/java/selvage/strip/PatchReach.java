package selvage.strip;

import java.util.List;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.survey.Census;

/**
 * For every row of a census, which patch of a set stands for it, and how far the nearest in ΔE00
 * is. The two may be different patches: one of nearly the same colour but of other inks tells less
 * of a mixture than one a little farther away and of its own inks.
 */
public final class PatchReach {
  private final StandingPatches standing;
  private final NearestPatches nearest;

  PatchReach(StandingPatches standing, NearestPatches nearest) {
    this.standing = standing;
    this.nearest = nearest;
  }

  /** Searches a census of which nothing is worked out yet. */
  static PatchReach of(Census census, List<InkMixture> mixtures, List<Lab> aims) {
    ColorCells cells = ColorCells.of(census, JobSet.CELL_STEP);
    return new PatchReach(
        StandingPatches.of(census, InkCells.of(census, cells), mixtures, aims),
        NearestPatches.of(census, cells, aims));
  }

  /** The index of the patch that stands for a row; -1 for paper. */
  public int patch(int row) {
    return standing.patch(row);
  }

  /**
   * The ΔE00 of a row to the nearest patch; 0 for paper. It falls on the right side of 2 and of 3;
   * elsewhere that of a row of small area is an estimate.
   */
  public float de00(int row) {
    return nearest.de00(row);
  }
}
