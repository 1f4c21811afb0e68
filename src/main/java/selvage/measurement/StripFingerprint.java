package selvage.measurement;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import selvage.finding.InputException;
import selvage.strip.Patch;
import selvage.strip.Strip;

/** The right strip among several: the one whose aims the readings fit, if no other comes near. */
final class StripFingerprint {
  /** The next strip must fit this many times worse, and by so much ΔE*ab (house rule). */
  private static final double NEXT_FACTOR = 1.5;

  private static final double NEXT_LEAST = 1.5;
  private static final int NAMED = 3;

  private StripFingerprint() {}

  /**
   * The assignment to the strip that a measurement fits.
   *
   * @throws InputException where it fits none, or several about as well; the nearest are named
   */
  static Assignment bestFit(List<Strip> candidates, Measurement measurement) throws InputException {
    if (candidates.size() == 1) {
      return Matching.assign(candidates.get(0), measurement);
    }
    List<Assignment> fits = new ArrayList<>();
    InputException reason = null;
    for (Strip strip : candidates) {
      try {
        fits.add(Matching.assign(strip, measurement));
      } catch (InputException e) {
        reason = e;
      }
    }
    if (fits.stream().anyMatch(StripFingerprint::isWhole)) {
      fits.removeIf(fit -> !isWhole(fit));
    }
    if (fits.stream().anyMatch(StripFingerprint::namesAreInks)) {
      fits.removeIf(fit -> !namesAreInks(fit));
    }
    fits.sort(Comparator.comparingDouble(Assignment::fitDe76));
    if (fits.size() == 1 || (fits.size() > 1 && isClear(fits.get(0), fits.get(1)))) {
      return fits.get(0);
    }
    StringBuilder nearest = new StringBuilder();
    for (int i = 0; i < Math.min(NAMED, fits.size()); i++) {
      nearest
          .append(i == 0 ? "; nearest are " : ", ")
          .append(fits.get(i).strip().stripId())
          .append(String.format(Locale.ROOT, " (mean ΔE*ab %.1f)", fits.get(i).fitDe76()));
    }
    throw InputException.of(
        measurement.source(),
        "expected a header that names its strip, or readings that fit only one of these: "
            + StripChoice.names(candidates)
            + "; found nothing that tells"
            + nearest
            + "; choose with --strip or --page"
            + (reason == null ? "" : " (" + reason.getMessage() + ")"));
  }

  private static boolean isClear(Assignment best, Assignment next) {
    return next.fitDe76() > Math.max(NEXT_FACTOR * best.fitDe76(), best.fitDe76() + NEXT_LEAST);
  }

  /** Whether every reading has a patch and every patch a reading. */
  private static boolean isWhole(Assignment fit) {
    boolean strays =
        fit.findings().stream()
            .anyMatch(
                one ->
                    one.code().equals("readings-left-out")
                        || one.code().equals("reading-of-no-patch"));
    if (strays) {
      return false;
    }
    for (SheetPatch patch : SheetPatch.of(fit.strip())) {
      boolean read = false;
      for (Patch one : patch.patches()) {
        read |= fit.readings().containsKey(one);
      }
      if (!read) {
        return false;
      }
    }
    return true;
  }

  /** Whether every reading's name is what its patch prints, as the program's own files have it. */
  private static boolean namesAreInks(Assignment fit) {
    return fit.readings().entrySet().stream()
        .allMatch(
            one ->
                one.getValue().stream()
                    .allMatch(
                        reading ->
                            reading.name().equalsIgnoreCase(one.getKey().mixture().toString())));
  }
}
