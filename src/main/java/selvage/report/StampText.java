package selvage.report;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import selvage.finding.Finding;
import selvage.strip.Coverage;
import selvage.strip.PatchSet;
import selvage.strip.Strip;
import selvage.strip.StripsFile;

/** Tells of a stamped proof to a person at a terminal. */
public final class StampText {
  private StampText() {}

  /**
   * Writes.
   *
   * @param written the files, the proof first
   */
  public static void write(
      StripsFile strips, List<Finding> findings, List<Path> written, PrintWriter out) {
    out.printf(
        Locale.ROOT,
        "%s: %d strip%s, reference printing condition %s (%s)%n",
        strips.job().file(),
        strips.strips().size(),
        strips.strips().size() == 1 ? "" : "s",
        strips.conditionName(),
        strips.conditionSource());
    for (Strip strip : strips.strips()) {
      write(strip, out);
    }
    for (Finding finding : findings) {
      out.println(finding.severity().word() + ": " + finding.text());
    }
    for (Path file : written) {
      out.println("wrote " + file);
    }
  }

  private static String where(Strip.Place place) {
    if (place.ownPage()) {
      return "on a page of its own, page " + place.proofPage() + " of the proof";
    }
    return "at the "
        + place.edge()
        + " edge, "
        + (place.mediaExtended() ? "sheet extended" : "in free space of the sheet");
  }

  private static void write(Strip strip, PrintWriter out) {
    int job = strip.patches(PatchSet.JOB).size();
    int standard = strip.patches(PatchSet.STANDARD).size();
    long printed = strip.patches().stream().map(patch -> patch.box()).distinct().count();
    out.printf(
        Locale.ROOT,
        "Page %d: strip %s %s; %d job patches, %d standard patches, %d printed%n",
        strip.page(),
        strip.stripId(),
        where(strip.place()),
        job,
        standard,
        printed);
    Coverage coverage = strip.coverage();
    out.printf(
        Locale.ROOT,
        "  within ΔE00 3 of a job patch: %.1f %% of the inked area (within 2: %.1f %%, mean ΔE00"
            + " %.2f); of a standard patch: %.1f %%%n",
        coverage.within3Percent(),
        coverage.within2Percent(),
        coverage.meanDe00(),
        coverage.standardWithin3Percent());
  }
}
