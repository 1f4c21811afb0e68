package selvage.strip;

import java.util.List;

/**
 * A set that an operator approved.
 *
 * @param patches exactly these; at least one
 * @param inThisOrder whether the rows of the strip follow this order, instead of the one that makes
 *     neighbours differ most
 */
public record ChosenSet(List<ChosenPatch> patches, boolean inThisOrder) {
  public ChosenSet {
    patches = List.copyOf(patches);
    if (patches.isEmpty()) {
      throw new IllegalArgumentException("a chosen set without a patch");
    }
  }
}
