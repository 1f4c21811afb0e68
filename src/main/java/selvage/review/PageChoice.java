package selvage.review;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import selvage.ink.InkMixture;
import selvage.strip.ChosenPatch;
import selvage.strip.ChosenSet;
import selvage.strip.Wishes;

/**
 * What an operator made of the automatic set of one strip.
 *
 * @param patches the set as it stands, in its order
 * @param kept those that a change of the number leaves in; a part of the set
 * @param dropped mixtures that a change of the number must not bring back
 * @param count how many were asked for last; 0 for as many as pay
 * @param ordered whether the order is the operator's own
 */
public record PageChoice(
    List<ChosenPatch> patches,
    Set<InkMixture> kept,
    Set<InkMixture> dropped,
    int count,
    boolean ordered) {
  public PageChoice {
    patches = List.copyOf(patches);
    kept = Set.copyOf(kept);
    dropped = Set.copyOf(dropped);
    Objects.requireNonNull(patches, "patches");
    if (patches.isEmpty()) {
      throw new IllegalArgumentException("a set without a patch");
    }
  }

  /** The place of a mixture in the set; -1 where it is not in it. */
  public int indexOf(InkMixture mixture) {
    for (int i = 0; i < patches.size(); i++) {
      if (patches.get(i).mixture().equals(mixture)) {
        return i;
      }
    }
    return -1;
  }

  /** Without a patch, which is not to come back by itself. */
  PageChoice without(InkMixture mixture) {
    List<ChosenPatch> left = new ArrayList<>(patches);
    left.remove(indexOf(mixture));
    return new PageChoice(left, less(kept, mixture), more(dropped, mixture), count, ordered);
  }

  /** With another patch at the end, which stays whatever number is asked for. */
  PageChoice with(ChosenPatch patch) {
    List<ChosenPatch> all = new ArrayList<>(patches);
    all.add(patch);
    return new PageChoice(
        all, more(kept, patch.mixture()), less(dropped, patch.mixture()), count, ordered);
  }

  /** The same with a patch kept, or no longer kept. */
  PageChoice keeping(InkMixture mixture, boolean keep) {
    return new PageChoice(
        patches, keep ? more(kept, mixture) : less(kept, mixture), dropped, count, ordered);
  }

  /** The same in another order. */
  PageChoice moved(InkMixture mixture, int to) {
    List<ChosenPatch> all = new ArrayList<>(patches);
    ChosenPatch patch = all.remove(indexOf(mixture));
    all.add(Math.max(0, Math.min(all.size(), to)), patch);
    return new PageChoice(all, kept, dropped, count, true);
  }

  private static Set<InkMixture> more(Set<InkMixture> some, InkMixture one) {
    Set<InkMixture> all = new LinkedHashSet<>(some);
    all.add(one);
    return all;
  }

  private static Set<InkMixture> less(Set<InkMixture> some, InkMixture one) {
    Set<InkMixture> left = new LinkedHashSet<>(some);
    left.remove(one);
    return left;
  }

  /** What holds when another number is asked for. */
  Wishes wishes() {
    List<InkMixture> first = new ArrayList<>();
    for (ChosenPatch patch : patches) {
      if (kept.contains(patch.mixture())) {
        first.add(patch.mixture());
      }
    }
    return new Wishes(first, dropped);
  }

  /** What is stamped. */
  ChosenSet chosen() {
    return new ChosenSet(patches, ordered);
  }
}
