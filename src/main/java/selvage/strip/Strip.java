package selvage.strip;

import java.util.List;
import java.util.Objects;

/**
 * The strip of one page: a job set beside a standard set, and where it was put.
 *
 * @param stripId identifies the strip on the sheet and in files
 * @param page counted from 1
 * @param seed of every random choice
 * @param place where on the sheet
 * @param reader the instrument's geometry
 * @param patches in order of row and column, both sets
 * @param coverage how well the sets stand for the page, or for all pages of the job
 * @param pages what the job set is worth for each page that it was chosen for
 */
public record Strip(
    String stripId,
    int page,
    long seed,
    Place place,
    Reader reader,
    List<Patch> patches,
    Coverage coverage,
    List<PageShare> pages) {
  /**
   * Where the strip lies.
   *
   * @param edge {@code top}, {@code right}, {@code bottom} or {@code left} of the page as displayed
   * @param mediaExtended whether the media was grown for it
   * @param xPt left edge of the strip's box in the page's default user space (unrotated), in user
   *     space units; the page is the one that bears the strip
   * @param proofPage the page of the proof that bears the strip, counted from 1
   * @param ownPage whether that page bears nothing else and follows the job's page
   */
  public record Place(
      String edge,
      boolean mediaExtended,
      double xPt,
      double yPt,
      double widthPt,
      double heightPt,
      int proofPage,
      boolean ownPage) {
    public Place {
      if (proofPage < 1 || (ownPage && mediaExtended)) {
        throw new IllegalArgumentException("strip on page " + proofPage + " of the proof");
      }
    }
  }

  /**
   * The instrument's geometry, as far as a result needs it.
   *
   * @param name of the reader description under {@code strips/readers}
   * @param apertureMm diameter of the measured spot
   */
  public record Reader(String name, double apertureMm) {}

  public Strip {
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(reader, "reader");
    Objects.requireNonNull(coverage, "coverage");
    patches = List.copyOf(patches);
    pages = List.copyOf(pages);
    if (stripId.isBlank() || page < 1 || patches.isEmpty()) {
      throw new IllegalArgumentException("strip " + stripId + " of page " + page);
    }
  }

  /** The patches of one set, in their order. */
  public List<Patch> patches(PatchSet set) {
    return patches.stream().filter(patch -> patch.set() == set).toList();
  }
}
