package selvage.measurement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * Puts several measurements of one strip together: parts of it are joined, repeats averaged in
 * CIELAB, their spread stated as a repeatability, and odd ones named.
 */
final class Repeats {
  /** ΔE00 from the others beyond which a reading is odd, and the least of it (house rule). */
  private static final double ODD_LEAST = 2;

  private static final double ODD_DEVIATIONS = 4;
  private static final int NAMES_IN_MESSAGE = 12;

  /** A reading and the file that it stands in. */
  record Sourced(Reading reading, String source) {}

  private final Strip strip;
  private final List<Assignment> parts;
  private final List<SheetPatch> printed;
  private final List<Finding> findings = new ArrayList<>();
  private final Map<Patch, List<Sourced>> readings = new LinkedHashMap<>();

  private Repeats(Strip strip, List<Assignment> parts) {
    this.strip = strip;
    this.parts = parts;
    this.printed = SheetPatch.of(strip);
    for (Assignment part : parts) {
      findings.addAll(part.findings());
      part.readings()
          .forEach(
              (patch, list) ->
                  list.forEach(
                      reading ->
                          readings
                              .computeIfAbsent(patch, one -> new ArrayList<>())
                              .add(new Sourced(reading, part.measurement().source()))));
    }
  }

  /**
   * A strip with one reading a patch.
   *
   * @param parts measurements of this strip, at least one
   * @param allowMissing whether patches may lack a reading
   * @throws InputException where patches lack a reading
   */
  static MatchedStrip combined(Strip strip, List<Assignment> parts, boolean allowMissing)
      throws InputException {
    return new Repeats(strip, parts).combined(allowMissing);
  }

  private MatchedStrip combined(boolean allowMissing) throws InputException {
    List<SheetPatch> missing = new ArrayList<>();
    for (SheetPatch patch : printed) {
      List<Sourced> any = null;
      for (Patch one : patch.patches()) {
        any = any == null ? readings.get(one) : any;
      }
      if (any == null) {
        missing.add(patch);
      } else {
        for (Patch one : patch.patches()) {
          readings.putIfAbsent(one, any);
        }
      }
    }
    if (!missing.isEmpty()) {
      takeMissing(missing, allowMissing);
    }
    double deviation = deviation();
    RepeatSpread spread = new RepeatSpread();
    Map<Patch, Reading> means = new LinkedHashMap<>();
    for (SheetPatch patch : printed) {
      for (Patch one : patch.patches()) {
        List<Sourced> list = readings.get(one);
        if (list != null) {
          boolean first = one.equals(patch.first()) || !list.equals(readings.get(patch.first()));
          means.put(one, mean(one, list, deviation, first, spread));
        }
      }
    }
    List<PatchReading> result = new ArrayList<>();
    for (Patch patch : strip.patches()) {
      if (means.containsKey(patch)) {
        result.add(new PatchReading(patch, means.get(patch)));
      }
    }
    spread.repeatability(sourceNames()).ifPresent(one -> findings.add(RepeatSpread.note(one)));
    return new MatchedStrip(
        strip, measurement(), alignment(), result, spread.repeatability(sourceNames()), findings);
  }

  private void takeMissing(List<SheetPatch> missing, boolean allowMissing) throws InputException {
    String names = names(missing);
    if (!allowMissing) {
      throw InputException.of(
          sources(),
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

  /** The median of the patches' mean differences: a few odd readings do not move it. */
  private double deviation() {
    List<Double> spreads = new ArrayList<>();
    for (List<Sourced> list : readings.values()) {
      if (list.size() > 1) {
        Lab mean = meanOf(list);
        double sum = 0;
        for (Sourced one : list) {
          sum += ColorDifference.de00(mean, one.reading().lab());
        }
        spreads.add(sum / list.size());
      }
    }
    Collections.sort(spreads);
    return spreads.isEmpty() ? 0 : spreads.get(spreads.size() / 2);
  }

  /** The mean of a patch's readings, without an odd one where two or more others agree. */
  private Reading mean(
      Patch patch, List<Sourced> list, double deviation, boolean counts, RepeatSpread spread) {
    Reading first = list.get(0).reading();
    if (list.size() == 1) {
      return first;
    }
    double limit = Math.max(ODD_LEAST, ODD_DEVIATIONS * deviation);
    List<Sourced> kept = new ArrayList<>(list);
    if (list.size() > 2) {
      kept.removeIf(one -> ColorDifference.de00(middle(list), one.reading().lab()) > limit);
      kept = kept.size() < 2 ? new ArrayList<>(list) : kept;
    }
    if (counts) {
      for (Sourced one : list) {
        if (!kept.contains(one)) {
          double difference = ColorDifference.de00(meanOf(kept), one.reading().lab());
          findings.add(odd(patch, one, difference));
          spread.addOdd(patch, one, difference);
        }
      }
      double apart = ColorDifference.de00(kept.get(0).reading().lab(), kept.get(1).reading().lab());
      if (kept.size() == 2 && apart > limit) {
        findings.add(differing(patch, kept, apart));
      }
      spread.add(patch, kept);
    }
    return new Reading(first.id(), first.name(), first.tints(), meanOf(kept), first.line());
  }

  private static Finding odd(Patch patch, Sourced one, double difference) {
    return Finding.warning(
        "odd-reading",
        String.format(
            Locale.ROOT,
            "%s:%d: %s differs from its other readings by ΔE00 %.1f and was left out",
            one.source(),
            one.reading().line(),
            patch.id(),
            difference));
  }

  private static Finding differing(Patch patch, List<Sourced> two, double difference) {
    return Finding.warning(
        "repeats-differ",
        String.format(
            Locale.ROOT,
            "%s: its readings in %s:%d and %s:%d differ by ΔE00 %.1f; their mean was taken, measure"
                + " again to see which is right",
            patch.id(),
            two.get(0).source(),
            two.get(0).reading().line(),
            two.get(1).source(),
            two.get(1).reading().line(),
            difference));
  }

  /** Medians of L*, a* and b*. */
  private static Lab middle(List<Sourced> list) {
    double[][] axes = new double[3][list.size()];
    for (int i = 0; i < list.size(); i++) {
      Lab lab = list.get(i).reading().lab();
      axes[0][i] = lab.l();
      axes[1][i] = lab.a();
      axes[2][i] = lab.b();
    }
    for (double[] axis : axes) {
      Arrays.sort(axis);
    }
    int low = (list.size() - 1) / 2;
    int high = list.size() / 2;
    return new Lab(
        (axes[0][low] + axes[0][high]) / 2,
        (axes[1][low] + axes[1][high]) / 2,
        (axes[2][low] + axes[2][high]) / 2);
  }

  static Lab meanOf(List<Sourced> list) {
    double l = 0;
    double a = 0;
    double b = 0;
    for (Sourced one : list) {
      l += one.reading().lab().l();
      a += one.reading().lab().a();
      b += one.reading().lab().b();
    }
    return new Lab(l / list.size(), a / list.size(), b / list.size());
  }

  private String sources() {
    return String.join(", ", sourceNames());
  }

  private List<String> sourceNames() {
    Set<String> names = new LinkedHashSet<>();
    parts.forEach(part -> names.add(part.measurement().source()));
    return List.copyOf(names);
  }

  private Measurement measurement() {
    Measurement first = parts.get(0).measurement();
    if (parts.size() == 1) {
      return first;
    }
    List<Reading> all = new ArrayList<>();
    List<Finding> doubts = new ArrayList<>();
    Set<String> methods = new LinkedHashSet<>();
    boolean simulated = false;
    for (Assignment part : parts) {
      Measurement one = part.measurement();
      all.addAll(one.readings());
      doubts.addAll(one.findings());
      methods.add(one.labMethod());
      simulated |= one.simulated();
      if (!one.condition().equals(first.condition())) {
        doubts.add(
            Finding.warning(
                "measured-differently",
                one.source()
                    + " was measured otherwise ("
                    + one.condition().describe()
                    + ") than "
                    + first.source()
                    + " ("
                    + first.condition().describe()
                    + "); they were put together all the same"));
      }
    }
    return new Measurement(
        sources(),
        first.header(),
        first.condition(),
        first.labOrigin(),
        String.join("; ", methods),
        simulated,
        all,
        doubts);
  }

  /** The least sure of the parts' alignments. */
  private Alignment alignment() {
    Alignment least = parts.get(0).alignment();
    for (Assignment part : parts) {
      least = part.alignment().confidence() < least.confidence() ? part.alignment() : least;
    }
    return least;
  }
}
