package selvage.strip;

/** For every row of a census, which patch of a set is nearest in ΔE00 and how far it is. */
public final class NearestPatch {
  private final NearestPatches search;

  NearestPatch(NearestPatches search) {
    this.search = search;
  }

  /** The index of a row's nearest patch, the first of equals; -1 for paper. */
  public int patch(int row) {
    return search.nearest(row);
  }

  /**
   * Its ΔE00; 0 for paper. It falls on the right side of 2 and of 3; elsewhere that of a row of
   * small area is an estimate.
   */
  public float de00(int row) {
    return search.de00(row);
  }
}
