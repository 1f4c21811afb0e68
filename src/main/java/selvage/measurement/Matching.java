package selvage.measurement;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiPredicate;
import java.util.function.Function;
import selvage.color.ColorDifference;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * Finds the readings of each patch: by id, else by name, else by the tints that the file states,
 * else by colour and order ({@link ColorAlignment}). What the file states is held against the
 * colours. A patch that stands in both sets is printed and measured once; its reading may carry
 * either id.
 */
public final class Matching {
  /** Percent by which a stated tint may differ from the strip's: files round to whole percents. */
  private static final double TINT_TOLERANCE = 0.6;

  /** ΔE00 up to which two readings in one file that carry the same id are repeats (house rule). */
  private static final double REPEATS_AGREE = 3;

  private final Strip strip;
  private final Measurement measurement;
  private final List<SheetPatch> printed;
  private final Set<Colorant> colorants = new TreeSet<>(Colorant.PROCESS);
  private final List<Finding> findings = new ArrayList<>();

  private Matching(Strip strip, Measurement measurement) {
    this.strip = strip;
    this.measurement = measurement;
    this.printed = SheetPatch.of(strip);
    printed.forEach(patch -> colorants.addAll(patch.mixture().units().keySet()));
  }

  /**
   * Matches the readings of a measurement to the patches of a strip.
   *
   * @param allowMissing whether patches may lack a reading
   * @throws InputException where the measurement is polarized and so not to be compared, patches
   *     lack a reading, readings of one patch contradict each other, the stated tints or the
   *     colours are not the strip's, or the readings can't be told apart
   */
  public static MatchedStrip match(Strip strip, Measurement measurement, boolean allowMissing)
      throws InputException {
    return Repeats.combined(strip, List.of(assign(strip, measurement)), allowMissing);
  }

  /** As {@link #match}, of a measurement that may hold a part of the strip. */
  static Assignment assign(Strip strip, Measurement measurement) throws InputException {
    return new Matching(strip, measurement).assign();
  }

  private Assignment assign() throws InputException {
    if (measurement.condition().polarized()) {
      throw InputException.of(
          measurement.source(),
          "expected a measurement without polarizing filter, as the aim values are, found M3 ("
              + measurement.condition().describe()
              + "); measure with M0, M1 or M2");
    }
    Map<Patch, List<Reading>> found = byKey(Reading::id);
    if (found != null) {
      return stated("by-id", found);
    }
    found = byKey(Reading::name);
    if (found == null) {
      found = byMixtureName();
    }
    if (found != null) {
      return stated("by-name", found);
    }
    found = byTints();
    return found == null ? byColor() : stated("by-device", found);
  }

  /** By patch id; null where fewer than half of the readings carry one. */
  private Map<Patch, List<Reading>> byKey(Function<Reading, String> key) {
    Map<String, Patch> patches = new HashMap<>();
    for (Patch patch : strip.patches()) {
      patches.put(patch.id().toUpperCase(Locale.ROOT), patch);
    }
    Map<Patch, List<Reading>> found = new LinkedHashMap<>();
    int known = 0;
    for (Reading reading : measurement.readings()) {
      Patch patch = patches.get(key.apply(reading).toUpperCase(Locale.ROOT));
      if (patch != null) {
        found.computeIfAbsent(patch, one -> new ArrayList<>()).add(reading);
        known++;
      }
    }
    return 2 * known >= measurement.readings().size() ? found : null;
  }

  /** By the mixture's text as the name, every name known; equal mixtures in their order. */
  private Map<Patch, List<Reading>> byMixtureName() {
    return inOrderAmongEquals(
        (reading, patch) -> reading.name().equalsIgnoreCase(patch.mixture().toString()));
  }

  /** By stated tints, every reading known; equal mixtures in their order. */
  private Map<Patch, List<Reading>> byTints() {
    Map<String, Double> stated = measurement.readings().get(0).tints();
    for (Colorant colorant : colorants) {
      if (!stated.containsKey(colorant.name())) {
        return null;
      }
    }
    return stated.isEmpty()
        ? null
        : inOrderAmongEquals((reading, patch) -> contradiction(reading, patch.mixture()) == null);
  }

  /** The first reading goes to the first patch that it fits, the next to the next, and around. */
  private Map<Patch, List<Reading>> inOrderAmongEquals(BiPredicate<Reading, SheetPatch> fit) {
    Map<Patch, List<Reading>> found = new LinkedHashMap<>();
    Map<SheetPatch, Integer> taken = new HashMap<>();
    for (Reading reading : measurement.readings()) {
      SheetPatch match = null;
      for (SheetPatch patch : printed) {
        if (fit.test(reading, patch)
            && (match == null || taken.getOrDefault(patch, 0) < taken.getOrDefault(match, 0))) {
          match = patch;
        }
      }
      if (match == null) {
        return null;
      }
      taken.merge(match, 1, Integer::sum);
      match
          .patches()
          .forEach(patch -> found.computeIfAbsent(patch, one -> new ArrayList<>()).add(reading));
    }
    return found;
  }

  /**
   * The stated tint that is not the mixture's; null where all agree, or where the file does not
   * state every ink of the mixture (what it states of the others may be a stand-in for it).
   */
  private String contradiction(Reading reading, InkMixture mixture) {
    for (Colorant colorant : mixture.units().keySet()) {
      if (!reading.tints().containsKey(colorant.name())) {
        return null;
      }
    }
    for (Colorant colorant : colorants) {
      Double stated = reading.tints().get(colorant.name());
      double percent = mixture.percent(colorant);
      if (stated != null && Math.abs(stated - percent) > TINT_TOLERANCE) {
        return String.format(
            Locale.ROOT, "expected %s %.1f %%, found %.1f %%", colorant.name(), percent, stated);
      }
    }
    return null;
  }

  /** What the file states, unless the colours say otherwise. */
  private Assignment stated(String how, Map<Patch, List<Reading>> found) throws InputException {
    int used = 0;
    for (Map.Entry<Patch, List<Reading>> one : found.entrySet()) {
      requireTints(one.getKey(), one.getValue());
      requireAgreement(one.getKey(), one.getValue());
    }
    Set<Integer> lines = new TreeSet<>();
    found.values().forEach(list -> list.forEach(reading -> lines.add(reading.line())));
    for (Reading reading : measurement.readings()) {
      used += lines.contains(reading.line()) ? 1 : 0;
    }
    StatedFit fit = StatedFit.of(strip, measurement, printed, found);
    if (fit.isDoubtful() && ColorAlignment.isFeasible(measurement.readings().size(), printed)) {
      ColorAlignment colors =
          ColorAlignment.of(measurement.source(), measurement.readings(), printed);
      if (colors.isSure() && 2 * fit(assigned(colors)) < fit.meanDe76()) {
        findings.add(
            Finding.warning(
                "ids-do-not-fit-colors",
                measurement.source()
                    + ": the readings do not fit the patches that the file names, but fit the"
                    + " strip in another order, which was taken; check how it was read"));
        return byColor(colors);
      }
    }
    fit.require();
    fit.findMisreadings(findings);
    int extra = measurement.readings().size() - used;
    if (extra > 0) {
      findings.add(
          Finding.warning(
              "readings-left-out",
              measurement.source() + ": " + extra + " readings belong to no patch of the strip"));
    }
    return new Assignment(
        strip, measurement, new Alignment(how, 1), found, fit.meanDe76(), findings);
  }

  private void requireTints(Patch patch, List<Reading> readings) throws InputException {
    for (Reading reading : readings) {
      String contradiction = contradiction(reading, patch.mixture());
      if (contradiction != null) {
        throw refused(
            reading.line(),
            patch.id(),
            contradiction
                + " as the strip "
                + strip.stripId()
                + " has it; is this the measurement of another strip?");
      }
    }
  }

  private void requireAgreement(Patch patch, List<Reading> readings) throws InputException {
    Reading first = readings.get(0);
    for (Reading reading : readings) {
      double difference = ColorDifference.de00(first.lab(), reading.lab());
      if (difference > REPEATS_AGREE) {
        throw refused(
            reading.line(),
            patch.id(),
            String.format(
                Locale.ROOT,
                "expected one reading a patch, or several that agree, found another in line %d that"
                    + " differs by ΔE00 %.1f; remove one, or put each strip in a file of its own",
                first.line(),
                difference));
      }
    }
  }

  private Assignment byColor() throws InputException {
    List<Reading> readings = measurement.readings();
    if (!ColorAlignment.isFeasible(readings.size(), printed)) {
      throw InputException.of(
          measurement.source(),
          expectedIds() + "found " + readings.size() + " readings with other ids; check the file");
    }
    return byColor(ColorAlignment.of(measurement.source(), readings, printed));
  }

  private Assignment byColor(ColorAlignment colors) throws InputException {
    Map<Patch, List<Reading>> found = assigned(colors);
    if (!colors.isSure()) {
      throw InputException.of(
          measurement.source(),
          String.format(
              Locale.ROOT,
              "%sfound %d readings with other ids, whose colours do not tell for sure which is"
                  + " which (confidence %.2f, needed %.2f, mean ΔE*ab %.1f); check that it is this"
                  + " strip's measurement, or read it again in its order",
              expectedIds(),
              measurement.readings().size(),
              colors.confidence(),
              ColorAlignment.LEAST_CONFIDENCE,
              fit(found)));
    }
    findings.addAll(colors.findings());
    return new Assignment(
        strip,
        measurement,
        new Alignment(colors.how(), colors.confidence()),
        found,
        fit(found),
        findings);
  }

  private String expectedIds() {
    return "expected SAMPLE_ID as in the strip "
        + strip.stripId()
        + " (such as "
        + printed.get(0).first().id()
        + ") or the "
        + printed.size()
        + " patches in its order, ";
  }

  private Map<Patch, List<Reading>> assigned(ColorAlignment colors) {
    Map<Patch, List<Reading>> found = new LinkedHashMap<>();
    for (int i = 0; i < colors.patchOf().size(); i++) {
      if (colors.patchOf().get(i) >= 0) {
        Reading reading = measurement.readings().get(i);
        printed
            .get(colors.patchOf().get(i))
            .patches()
            .forEach(patch -> found.computeIfAbsent(patch, one -> new ArrayList<>()).add(reading));
      }
    }
    return found;
  }

  /** Mean ΔE*ab between readings and aims. */
  private static double fit(Map<Patch, List<Reading>> found) {
    double sum = 0;
    int count = 0;
    for (Map.Entry<Patch, List<Reading>> one : found.entrySet()) {
      for (Reading reading : one.getValue()) {
        sum += ColorDifference.de76(one.getKey().aim().lab(), reading.lab());
        count++;
      }
    }
    return count == 0 ? Double.MAX_VALUE : sum / count;
  }

  private InputException refused(int line, String field, String problem) {
    return InputException.at(measurement.source(), line, field, problem);
  }
}
