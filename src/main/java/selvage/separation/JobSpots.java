package selvage.separation;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.color.SpotInk;

/**
 * The alternate colours of a job's spot inks. An ink is one plate, whatever page names it: the
 * alternate colour that is met first, and can be read, counts on all pages, and another one is a
 * finding.
 */
final class JobSpots {
  /** ΔE00 from which two alternate colours of one ink are told of: the nearer limit of coverage. */
  static final double VISIBLE = 2;

  private final Map<String, SpotAlternates.Alternate> first = new HashMap<>();

  /**
   * The colour of an ink on a page.
   *
   * @param found what the page gives for it, see {@link SpotAlternates#of}
   * @param findings takes where another one differs visibly, in the solid or at 50 %
   */
  SpotInk ink(
      String name,
      List<SpotAlternates.Alternate> found,
      AlternateColor colors,
      FindingList findings) {
    SpotAlternates.Alternate counts = first.get(name);
    for (int i = 0; i < found.size() && counts == null; i++) {
      if (!colors.ramp(found.get(i), 1).isEmpty()) {
        counts = found.get(i);
        first.put(name, counts);
      }
    }
    for (SpotAlternates.Alternate other : found) {
      if (counts != null && differs(name, counts, other, colors, findings)) {
        break;
      }
    }
    return colors.of(name, counts);
  }

  private static boolean differs(
      String name,
      SpotAlternates.Alternate counts,
      SpotAlternates.Alternate other,
      AlternateColor colors,
      FindingList findings) {
    NavigableMap<Double, Lab> one = colors.ramp(counts, 2);
    NavigableMap<Double, Lab> two = colors.ramp(other, 2);
    for (double tint : one.descendingKeySet()) {
      if (!two.containsKey(tint)) {
        continue;
      }
      double difference = ColorDifference.de00(one.get(tint), two.get(tint));
      if (difference > VISIBLE) {
        findings.warning(
            "spot-alternates-differ",
            String.format(
                Locale.ROOT,
                "%s: the spot ink \"%s\" has another alternate colour than where it was met first"
                    + " (%s): at %.0f %% Lab %s here, %s there, ΔE00 %.1f; the first counts; ask"
                    + " which is meant, or give its colour with --spots",
                other.where(),
                name,
                counts.where(),
                tint,
                text(two.get(tint)),
                text(one.get(tint)),
                difference));
        return true;
      }
    }
    return false;
  }

  private static String text(Lab lab) {
    return String.format(Locale.ROOT, "%.1f %.1f %.1f", lab.l(), lab.a(), lab.b());
  }
}
