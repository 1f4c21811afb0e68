package selvage.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A diagnosis in plain words. */
final class CauseWords {
  /** Below this root mean square ΔE*ab there is nothing to explain. */
  static final double NOTHING = 0.5;

  /** Causes of a smaller share are told in brief. */
  private static final double LITTLE = 0.02;

  private static final double MOSTLY = 0.5;
  private static final double LEAST_SHADE = 0.3;

  /** So many patches leave no freedom to judge three numbers of a cause by. */
  private static final int FEW = 3;

  private CauseWords() {}

  static List<String> of(
      List<FoundCause> causes, double error, double rest, double unexplained, List<String> odd) {
    List<String> words = new ArrayList<>();
    if (causes.isEmpty()) {
      words.add(
          error < NOTHING
              ? format("No systematic error was found; the readings scatter by ΔE*ab %.1f.", error)
              : format(
                  "Unexplained: the print is off by ΔE*ab %.1f (root mean square), and none of the"
                      + " causes tried accounts for it. Check that the right strip was measured and"
                      + " measure again.",
                  error));
    }
    List<String> small = new ArrayList<>();
    for (FoundCause cause : causes) {
      if (cause.share() >= LITTLE) {
        words.add(sentence(cause));
        if (!cause.rivals().isEmpty()) {
          words.add(rivals(cause));
        }
      } else {
        small.add(brief(cause));
      }
    }
    if (!small.isEmpty()) {
      words.add("Each less than 2 % of the error: " + String.join("; ", small) + ".");
    }
    if (!causes.isEmpty() && rest >= NOTHING) {
      words.add(
          unexplained > MOSTLY
              ? format(
                  "Most of it is unexplained: %.0f %% of the error (ΔE*ab %.1f) has none of the"
                      + " causes tried.",
                  100 * unexplained, rest)
              : format(
                  "Unexplained: %.0f %% of the error (ΔE*ab %.1f): noise, or causes not tried.",
                  100 * unexplained, rest));
    }
    if (!odd.isEmpty()) {
      words.add(
          String.join(", ", odd)
              + (odd.size() == 1 ? " lies" : " lie")
              + " far off what these causes account for; measure "
              + (odd.size() == 1 ? "it" : "them")
              + " again.");
    }
    return words;
  }

  /** Whether so few patches could show anything; empty where they could. */
  static List<String> few(int readings) {
    return readings > FEW
        ? List.of()
        : List.of(
            format(
                "%d patch%s can't tell one cause from another: measure a strip with more of them.",
                readings, readings == 1 ? "" : "es"));
  }

  private static String sentence(FoundCause found) {
    double value = found.values().get(0);
    double margin = found.margins().get(0);
    String share = format("; %.0f %% of the error.", 100 * found.share());
    String ink = found.cause().ink();
    return switch (found.cause().kind()) {
      case TONE ->
          format(
                  "%s prints about %.1f %% too %s in the mid-tones (± %.1f)",
                  ink, Math.abs(value), value > 0 ? "heavy" : "light", margin)
              + share;
      case DENSITY ->
          format(
                  "The solid of %s is about %.1f %% too %s in density (± %.1f)",
                  ink, Math.abs(value), value > 0 ? "heavy" : "thin", margin)
              + share;
      case PAPER -> "The paper is " + shade(found.values()) + " than its aim" + share;
      case CAST -> "All colours alike are " + shade(found.values()) + share;
      case HUE ->
          format(
                  "All hues are turned by %.1f° (± %.1f), %s",
                  Math.abs(value),
                  margin,
                  value > 0 ? "from red towards yellow" : "from yellow towards red")
              + share;
      case RECIPE ->
          format(
                  "The ink %s itself is off by ΔE*ab %.1f: its solid is %s",
                  ink, size(found.values()), shade(found.values()))
              + share;
    };
  }

  /** For example {@code tone of Cyan +0.6 %}. */
  private static String brief(FoundCause found) {
    String ink = found.cause().ink();
    double value = found.values().get(0);
    return switch (found.cause().kind()) {
      case TONE -> format("tone of %s %+.1f %%", ink, value);
      case DENSITY -> format("density of %s %+.1f %%", ink, value);
      case PAPER -> "paper " + shade(found.values());
      case CAST -> "all colours " + shade(found.values());
      case HUE -> format("hues turned by %+.1f°", value);
      case RECIPE -> "solid of " + ink + " " + shade(found.values());
    };
  }

  /** For example {@code Or else it is the tone of Cyan: these patches can't tell which.} */
  private static String rivals(FoundCause found) {
    List<String> names = new ArrayList<>();
    for (Cause rival : found.rivals()) {
      names.add(
          switch (rival.kind()) {
            case TONE -> "the tone of " + rival.ink();
            case DENSITY -> "the density of " + rival.ink();
            case PAPER -> "the paper";
            case CAST -> "all colours alike";
            case HUE -> "all hues";
            case RECIPE -> "the ink " + rival.ink() + " itself";
          });
    }
    return "Or else it is " + String.join(", or ", names) + ": these patches can't tell which.";
  }

  private static double size(List<Double> lab) {
    return Math.sqrt(lab.get(0) * lab.get(0) + lab.get(1) * lab.get(1) + lab.get(2) * lab.get(2));
  }

  /** For example {@code 1.2 darker and 2.0 yellower}. */
  private static String shade(List<Double> lab) {
    List<String> parts = new ArrayList<>();
    part(parts, lab.get(0), "lighter", "darker");
    part(parts, lab.get(1), "redder", "greener");
    part(parts, lab.get(2), "yellower", "bluer");
    if (parts.isEmpty()) {
      return "a little different";
    }
    String last = parts.remove(parts.size() - 1);
    return parts.isEmpty() ? last : String.join(", ", parts) + " and " + last;
  }

  private static void part(List<String> parts, double value, String more, String less) {
    if (Math.abs(value) >= LEAST_SHADE) {
      parts.add(format("%.1f %s", Math.abs(value), value > 0 ? more : less));
    }
  }

  private static String format(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
