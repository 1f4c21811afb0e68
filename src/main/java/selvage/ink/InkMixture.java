package selvage.ink;

import java.util.Collections;
import java.util.Locale;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * An immutable mixture of inks at one place: a tint greater than 0 for each colorant present. The
 * empty mixture is the unprinted substrate.
 */
public final class InkMixture {
  /** Unprinted substrate. */
  public static final InkMixture PAPER = new InkMixture(new TreeMap<>());

  private final SortedMap<Colorant, Integer> units;

  private InkMixture(SortedMap<Colorant, Integer> units) {
    this.units = Collections.unmodifiableSortedMap(units);
  }

  /**
   * A mixture from tints in {@link Tint} units; zeros are left out.
   *
   * @throws IllegalArgumentException if a tint is outside 0..{@link Tint#FULL}
   */
  public static InkMixture ofUnits(Map<Colorant, Integer> units) {
    TreeMap<Colorant, Integer> copy = new TreeMap<>();
    units.forEach(
        (colorant, tint) -> {
          if (tint < 0 || tint > Tint.FULL) {
            throw new IllegalArgumentException(
                colorant.name() + ": tint of " + tint + " units, expected 0 to " + Tint.FULL);
          }
          if (tint > 0) {
            copy.put(colorant, tint);
          }
        });
    return copy.isEmpty() ? PAPER : new InkMixture(copy);
  }

  /**
   * A mixture from tints in percent by colorant name; zeros are left out.
   *
   * @throws IllegalArgumentException if a tint is not from 0 to 100
   */
  public static InkMixture ofPercents(Map<String, Double> percents) {
    TreeMap<Colorant, Integer> units = new TreeMap<>();
    percents.forEach(
        (name, percent) -> {
          if (!(percent >= 0 && percent <= 100)) {
            throw new IllegalArgumentException(name + ": tint of " + percent + " %");
          }
          units.put(Colorant.named(name), Tint.ofPercent(percent));
        });
    return ofUnits(units);
  }

  /** A mixture of the four process colorants, in percent from 0 to 100. */
  public static InkMixture cmyk(double c, double m, double y, double k) {
    return ofPercents(Map.of("Cyan", c, "Magenta", m, "Yellow", y, "Black", k));
  }

  /** One colorant at one tint in percent. */
  public static InkMixture of(Colorant colorant, double percent) {
    return ofPercents(Map.of(colorant.name(), percent));
  }

  /** The colorants present, in their order, with tints in {@link Tint} units, each above 0. */
  public SortedMap<Colorant, Integer> units() {
    return units;
  }

  /** The tint of a colorant in {@link Tint} units; 0 where it is absent. */
  public int units(Colorant colorant) {
    return units.getOrDefault(colorant, 0);
  }

  /** The tint of a colorant in percent; 0 where it is absent. */
  public double percent(Colorant colorant) {
    return Tint.toPercent(units(colorant));
  }

  /** The tints of the process colorants C, M, Y, K in percent. */
  public double[] cmyk() {
    double[] percents = new double[4];
    for (int i = 0; i < 4; i++) {
      percents[i] = percent(Colorant.PROCESS.get(i));
    }
    return percents;
  }

  /** The sum of all tints in percent (total ink). */
  public double totalPercent() {
    return Tint.toPercent(units.values().stream().mapToInt(Integer::intValue).sum());
  }

  /** Whether no ink is present. */
  public boolean isPaper() {
    return units.isEmpty();
  }

  /** Whether any spot colorant is present. */
  public boolean hasSpot() {
    return !units.isEmpty() && units.lastKey().isSpot();
  }

  /** Whether any process colorant is present. */
  public boolean hasProcess() {
    return !units.isEmpty() && !units.firstKey().isSpot();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof InkMixture mixture && units.equals(mixture.units);
  }

  @Override
  public int hashCode() {
    return units.hashCode();
  }

  /** For people: {@code Cyan 40 + Dune Red 100}, or {@code paper}. */
  @Override
  public String toString() {
    if (isPaper()) {
      return "paper";
    }
    return units.entrySet().stream()
        .map(entry -> entry.getKey().name() + " " + shortPercent(entry.getValue()))
        .collect(Collectors.joining(" + "));
  }

  private static String shortPercent(int tint) {
    String text = String.format(Locale.ROOT, "%.1f", Tint.toPercent(tint));
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }
}
