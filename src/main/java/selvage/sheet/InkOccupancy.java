package selvage.sheet;

/** Where a page bears no ink; answered by whoever has its ink planes. */
@FunctionalInterface
public interface InkOccupancy {
  /** Knows nothing, so that no place counts as free. */
  InkOccupancy UNKNOWN = (llx, lly, urx, ury) -> false;

  /**
   * Whether a rectangle bears no ink at all.
   *
   * @param llx lower left corner in the page's default user space, in its units; and so the others
   */
  boolean isBlank(double llx, double lly, double urx, double ury);
}
