package selvage.measurement;

import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * How a virtual proofing device is off. Colorants are given by name ({@code Cyan}, {@code Dune
 * Red}).
 *
 * @param tone tone value change in percent at a tint of 50 %, −25 to 25, by colorant
 * @param density change of the solid's density in percent of itself, −50 to 50, by colorant
 * @param paper shift of the substrate
 * @param spots shift of a spot ink's solid, by colorant
 * @param allSpots shift of the solids of all other spot inks
 * @param noise root mean square ΔE*ab of a reading around the printed colour, 0 to 20
 * @param seed of the noise
 */
public record Drift(
    Map<String, Double> tone,
    Map<String, Double> density,
    LabShift paper,
    Map<String, LabShift> spots,
    LabShift allSpots,
    double noise,
    long seed) {
  /** A device that is not off at all. */
  public static final Drift NONE =
      new Drift(Map.of(), Map.of(), LabShift.NONE, Map.of(), LabShift.NONE, 0, 1);

  private static final double MOST_TONE = 25;
  private static final double MOST_DENSITY = 50;
  private static final double MOST_NOISE = 20;

  public Drift {
    Objects.requireNonNull(paper, "paper");
    Objects.requireNonNull(allSpots, "allSpots");
    tone = Map.copyOf(tone);
    density = Map.copyOf(density);
    spots = Map.copyOf(spots);
    requireWithin("tone value change", tone, MOST_TONE);
    requireWithin("density change", density, MOST_DENSITY);
    if (!(noise >= 0 && noise <= MOST_NOISE)) {
      throw new IllegalArgumentException("noise of " + noise + "; expected 0 to " + MOST_NOISE);
    }
  }

  private static void requireWithin(String what, Map<String, Double> values, double most) {
    values.forEach(
        (name, value) -> {
          if (!(Math.abs(value) <= most)) {
            throw new IllegalArgumentException(
                what + " of " + value + " % for " + name + "; expected −" + most + " to " + most);
          }
        });
  }

  /** Whether the printed colours differ from the aims, noise apart. */
  public boolean moves() {
    return tone.values().stream().anyMatch(value -> value != 0)
        || density.values().stream().anyMatch(value -> value != 0)
        || spots.values().stream().anyMatch(shift -> !shift.isNone())
        || !paper.isNone()
        || !allSpots.isNone();
  }

  LabShift spot(String name) {
    return spots.getOrDefault(name, allSpots);
  }

  /** For people and headers, for example {@code tone Cyan +3.0 %; noise 0.30; seed 1}. */
  public String describe() {
    StringBuilder text = new StringBuilder();
    new TreeMap<>(tone).forEach((name, value) -> text.append("tone ").append(percent(name, value)));
    new TreeMap<>(density)
        .forEach((name, value) -> text.append("density ").append(percent(name, value)));
    if (!paper.isNone()) {
      text.append("paper ").append(paper).append("; ");
    }
    new TreeMap<>(spots)
        .forEach(
            (name, shift) ->
                text.append("spot ").append(name).append(' ').append(shift).append("; "));
    if (!allSpots.isNone()) {
      text.append("other spots ").append(allSpots).append("; ");
    }
    return String.format(Locale.ROOT, "%snoise %.2f; seed %d", text, noise, seed);
  }

  private static String percent(String name, double value) {
    return String.format(Locale.ROOT, "%s %+.1f %%; ", name, value);
  }
}
