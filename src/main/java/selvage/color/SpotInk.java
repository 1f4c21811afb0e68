package selvage.color;

import java.util.Collections;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Objects;
import java.util.TreeMap;

/**
 * What is known of a spot colorant's colour.
 *
 * @param name the colorant's name
 * @param ramp absolute Lab by tint in percent; holds 100, and holds other tints only where they
 *     were measured or stated
 * @param source {@link AimSource#LIBRARY} or {@link AimSource#ALTERNATE}
 */
public record SpotInk(String name, NavigableMap<Double, Lab> ramp, AimSource source) {
  public SpotInk {
    Objects.requireNonNull(source, "source");
    ramp = Collections.unmodifiableNavigableMap(new TreeMap<>(ramp));
    if (!ramp.containsKey(100.0)) {
      throw new IllegalArgumentException(name + ": a spot colour needs its solid");
    }
  }

  /** A spot ink of which only the solid is known. */
  public static SpotInk ofSolid(String name, Lab solid, AimSource source) {
    return new SpotInk(name, new TreeMap<>(Map.of(100.0, solid)), source);
  }

  /** The colour of the solid. */
  public Lab solid() {
    return ramp.get(100.0);
  }
}
