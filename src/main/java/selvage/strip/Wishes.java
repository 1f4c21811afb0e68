package selvage.strip;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import selvage.ink.InkMixture;

/**
 * What an operator wants of a set that is chosen otherwise.
 *
 * @param kept are taken first, in this order, and never left out; none twice
 * @param dropped are never taken, nor where they would be forced; those that the job does not have
 *     say nothing
 */
public record Wishes(List<InkMixture> kept, Set<InkMixture> dropped) {
  /** No wish: the set is chosen as it is without an operator. */
  public static final Wishes NONE = new Wishes(List.of(), Set.of());

  public Wishes {
    kept = List.copyOf(kept);
    dropped = Set.copyOf(dropped);
    Set<InkMixture> met = new HashSet<>();
    for (InkMixture mixture : kept) {
      if (!met.add(mixture)) {
        throw new IllegalArgumentException(mixture + " is to be kept twice");
      }
      if (dropped.contains(mixture)) {
        throw new IllegalArgumentException(mixture + " is to be kept and to be dropped");
      }
    }
  }
}
