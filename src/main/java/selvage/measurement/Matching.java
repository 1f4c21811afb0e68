package selvage.measurement;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import selvage.color.ColorDifference;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * Finds the reading of each patch: by id, else by name, else by the tints that the file states,
 * else by order. A patch that stands in both sets is printed and measured once; its reading may
 * carry either id.
 */
public final class Matching {
  /** Percent by which a stated tint may differ from the strip's: files round to whole percents. */
  private static final double TINT_TOLERANCE = 0.6;

  /** The other direction must fit this many times better before it is taken. */
  private static final double REVERSED_FACTOR = 2;

  /** Mean ΔE*ab below which the order is not doubted. */
  private static final double ORDER_FITS = 10;

  private static final int NAMES_IN_MESSAGE = 12;

  private final Strip strip;
  private final Measurement measurement;
  private final boolean allowMissing;
  private final List<SheetPatch> printed;
  private final Set<Colorant> colorants = new TreeSet<>(Colorant.PROCESS);
  private final List<Finding> findings = new ArrayList<>();

  private Matching(Strip strip, Measurement measurement, boolean allowMissing) {
    this.strip = strip;
    this.measurement = measurement;
    this.allowMissing = allowMissing;
    this.printed = SheetPatch.of(strip);
    printed.forEach(patch -> colorants.addAll(patch.mixture().units().keySet()));
  }

  /**
   * Matches the readings of a measurement to the patches of a strip.
   *
   * @param allowMissing whether patches may lack a reading
   * @throws InputException where the measurement is polarized and so not to be compared, patches
   *     lack a reading, a patch has two, the stated tints are not the strip's, or the readings
   *     can't be told apart
   */
  public static MatchedStrip match(Strip strip, Measurement measurement, boolean allowMissing)
      throws InputException {
    return new Matching(strip, measurement, allowMissing).match();
  }

  private MatchedStrip match() throws InputException {
    if (measurement.condition().polarized()) {
      throw InputException.of(
          measurement.source(),
          "expected a measurement without polarizing filter, as the aim values are, found M3 ("
              + measurement.condition().describe()
              + "); measure with M0, M1 or M2");
    }
    Map<Patch, Reading> found = byKey(Reading::id);
    if (found != null) {
      return finished("by-id", 1, found);
    }
    found = byKey(Reading::name);
    if (found == null) {
      found = byMixtureName();
    }
    if (found != null) {
      return finished("by-name", 1, found);
    }
    found = byTints();
    if (found != null) {
      return finished("by-device", 1, found);
    }
    return byOrder();
  }

  /** By patch id; null where fewer than half of the readings carry one. */
  private Map<Patch, Reading> byKey(Function<Reading, String> key) throws InputException {
    Map<String, Patch> patches = new HashMap<>();
    for (Patch patch : strip.patches()) {
      patches.put(patch.id().toUpperCase(Locale.ROOT), patch);
    }
    Map<Patch, Reading> found = new HashMap<>();
    for (Reading reading : measurement.readings()) {
      Patch patch = patches.get(key.apply(reading).toUpperCase(Locale.ROOT));
      if (patch == null) {
        continue;
      }
      Reading before = found.put(patch, reading);
      if (before != null) {
        throw refused(
            reading.line(),
            patch.id(),
            "expected one reading a patch, found another in line "
                + before.line()
                + "; remove one, or put each strip in a file of its own");
      }
    }
    return 2 * found.size() >= measurement.readings().size() ? found : null;
  }

  /** By the mixture's text as the name, every name known; equal mixtures in their order. */
  private Map<Patch, Reading> byMixtureName() {
    return inOrderAmongEquals(
        (reading, patch) -> reading.name().equalsIgnoreCase(patch.mixture().toString()));
  }

  /** By stated tints, every reading known; equal mixtures in their order. */
  private Map<Patch, Reading> byTints() {
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

  private interface Fit {
    boolean fits(Reading reading, SheetPatch patch);
  }

  private Map<Patch, Reading> inOrderAmongEquals(Fit fit) {
    Map<Patch, Reading> found = new HashMap<>();
    Set<SheetPatch> taken = new HashSet<>();
    for (Reading reading : measurement.readings()) {
      SheetPatch match = null;
      for (SheetPatch patch : printed) {
        if (!taken.contains(patch) && fit.fits(reading, patch)) {
          match = patch;
          break;
        }
      }
      if (match == null) {
        return null;
      }
      taken.add(match);
      match.patches().forEach(patch -> found.put(patch, reading));
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

  private MatchedStrip finished(String how, double confidence, Map<Patch, Reading> found)
      throws InputException {
    List<SheetPatch> missing = new ArrayList<>();
    Set<Reading> used = new HashSet<>();
    for (SheetPatch patch : printed) {
      Reading any = null;
      for (Patch one : patch.patches()) {
        any = any == null ? found.get(one) : any;
      }
      if (any == null) {
        missing.add(patch);
        continue;
      }
      for (Patch one : patch.patches()) {
        Reading reading = found.getOrDefault(one, any);
        found.put(one, reading);
        used.add(reading);
        String contradiction = contradiction(reading, one.mixture());
        if (contradiction != null) {
          throw refused(
              reading.line(),
              one.id(),
              contradiction
                  + " as the strip "
                  + strip.stripId()
                  + " has it; is this the measurement of another strip?");
        }
      }
    }
    if (!missing.isEmpty()) {
      takeMissing(missing);
    }
    int extra = measurement.readings().size() - used.size();
    if (extra > 0) {
      findings.add(
          Finding.warning(
              "readings-left-out",
              measurement.source() + ": " + extra + " readings belong to no patch of the strip"));
    }
    return result(new Alignment(how, confidence), found);
  }

  private void takeMissing(List<SheetPatch> missing) throws InputException {
    String names = names(missing);
    if (!allowMissing) {
      throw InputException.of(
          measurement.source(),
          "expected a reading for each of the "
              + printed.size()
              + " patches of strip "
              + strip.stripId()
              + ", found none for "
              + names
              + "; measure them, or allow it with --allow-missing");
    }
    findings.add(
        Finding.warning(
            "patches-missing",
            missing.size()
                + " of "
                + printed.size()
                + " patches were not measured and do not count: "
                + names));
  }

  private static String names(List<SheetPatch> patches) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < Math.min(patches.size(), NAMES_IN_MESSAGE); i++) {
      text.append(i == 0 ? "" : ", ").append(patches.get(i).describe());
    }
    int more = patches.size() - NAMES_IN_MESSAGE;
    return more > 0 ? text + " and " + more + " more" : text.toString();
  }

  private MatchedStrip byOrder() throws InputException {
    List<Reading> readings = measurement.readings();
    if (readings.size() != printed.size()) {
      throw InputException.of(
          measurement.source(),
          "expected SAMPLE_ID as in the strip "
              + strip.stripId()
              + " (such as "
              + printed.get(0).first().id()
              + ") or exactly "
              + printed.size()
              + " readings in its order, found "
              + readings.size()
              + " readings with other ids; check that it is this strip's measurement");
    }
    double forward = meanDifference(false);
    double backward = meanDifference(true);
    boolean reversed = forward > ORDER_FITS && forward > REVERSED_FACTOR * backward;
    double taken = reversed ? backward : forward;
    double other = reversed ? forward : backward;
    double confidence = taken == 0 ? 1 : 1 - taken / (taken + other);
    if (reversed) {
      findings.add(
          Finding.warning(
              "read-backwards",
              measurement.source()
                  + ": the readings fit the strip from its end; it was taken to be read"
                  + " backwards"));
    } else if (taken > ORDER_FITS) {
      findings.add(
          Finding.warning(
              "order-doubtful",
              String.format(
                  Locale.ROOT,
                  "%s: in the strip's order the readings differ from the aims by ΔE*ab %.1f on"
                      + " average; check that the strip was read in its order",
                  measurement.source(),
                  taken)));
    }
    Map<Patch, Reading> found = new HashMap<>();
    for (int i = 0; i < printed.size(); i++) {
      Reading reading = readings.get(reversed ? printed.size() - 1 - i : i);
      printed.get(i).patches().forEach(patch -> found.put(patch, reading));
    }
    return result(new Alignment(reversed ? "by-order-reversed" : "by-order", confidence), found);
  }

  private double meanDifference(boolean reversed) {
    double sum = 0;
    for (int i = 0; i < printed.size(); i++) {
      Reading reading = measurement.readings().get(reversed ? printed.size() - 1 - i : i);
      sum += ColorDifference.de76(printed.get(i).first().aim().lab(), reading.lab());
    }
    return sum / printed.size();
  }

  private MatchedStrip result(Alignment alignment, Map<Patch, Reading> found) {
    List<PatchReading> readings = new ArrayList<>();
    for (Patch patch : strip.patches()) {
      Reading reading = found.get(patch);
      if (reading != null) {
        readings.add(new PatchReading(patch, reading));
      }
    }
    return new MatchedStrip(strip, measurement, alignment, readings, findings);
  }

  private InputException refused(int line, String field, String problem) {
    return InputException.at(measurement.source(), line, field, problem);
  }
}
