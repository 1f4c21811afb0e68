package selvage.score;

import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Limits that a strip is held against. Data, read by {@link ToleranceSets}.
 *
 * @param name for example {@code iso-12647-7-2016}
 * @param source where the figures come from, in short
 * @param limits in the order in which results list them, at least one, names unique
 */
public record ToleranceSet(String name, String source, List<Limit> limits) {
  public ToleranceSet {
    limits = List.copyOf(limits);
    if (name.isBlank() || source.isBlank() || limits.isEmpty()) {
      throw new IllegalArgumentException("a tolerance set needs a name, a source and limits");
    }
    Set<String> names = new HashSet<>();
    for (Limit limit : limits) {
      if (!names.add(limit.name())) {
        throw new IllegalArgumentException("two limits of the name " + limit.name());
      }
    }
  }
}
