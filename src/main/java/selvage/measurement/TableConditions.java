package selvage.measurement;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import selvage.finding.Finding;
import selvage.strip.StripsFile;

/**
 * Tables of one file that were measured under several conditions (M0, M1, M2 side by side) are no
 * repeats: one condition is taken, and how it was measured is held against what the aims are for.
 */
final class TableConditions {
  /** What comes first where the aims do not tell; a polarizer's readings are no alternative. */
  private static final List<String> PREFERRED = List.of("M1", "M0", "M2");

  private final List<Measurement> kept = new ArrayList<>();
  private final List<String> left = new ArrayList<>();
  private final Optional<String> aimIllumination;
  private final Optional<String> aimBacking;
  private final String condition;

  TableConditions(StripsFile file, List<Measurement> measurements) {
    condition = file.conditionName();
    String squeezed = condition.toUpperCase(Locale.ROOT).replace(" ", "");
    boolean white =
        squeezed.contains("FOGRA39") || squeezed.contains("FOGRA40") || squeezed.contains("TR006");
    boolean black = squeezed.contains("TR002");
    aimBacking = white ? Optional.of("white") : black ? Optional.of("black") : Optional.empty();
    aimIllumination = white || black ? Optional.of("M0") : Optional.empty();
    Map<String, List<Measurement>> byFile = new LinkedHashMap<>();
    for (Measurement one : measurements) {
      byFile.computeIfAbsent(fileOf(one), name -> new ArrayList<>()).add(one);
    }
    byFile.values().forEach(this::choose);
  }

  /** A source is a file's name, and a table's after a comma where it holds several. */
  private static String fileOf(Measurement measurement) {
    int comma = measurement.source().lastIndexOf(", ");
    return comma < 0 ? measurement.source() : measurement.source().substring(0, comma);
  }

  private void choose(List<Measurement> ofFile) {
    List<String> stated = new ArrayList<>();
    for (Measurement one : ofFile) {
      one.condition().illumination().filter(word -> !stated.contains(word)).ifPresent(stated::add);
    }
    String taken = null;
    if (stated.size() > 1) {
      List<String> order = new ArrayList<>(PREFERRED);
      aimIllumination.ifPresent(word -> order.add(0, word));
      for (String word : order) {
        taken = taken == null && stated.contains(word) ? word : taken;
      }
    }
    for (Measurement one : ofFile) {
      String own = one.condition().illumination().orElse("");
      if (taken == null || own.equals(taken) || own.isEmpty()) {
        kept.add(one);
      } else {
        left.add(one.source() + " (" + own + ")");
      }
    }
  }

  /** The measurements to be matched. */
  List<Measurement> kept() {
    return kept;
  }

  /** What differs from the aims' condition, and what was left out. */
  List<Finding> findings(Measurement measurement) {
    List<Finding> findings = new ArrayList<>();
    if (!left.isEmpty()) {
      findings.add(
          Finding.note(
              "conditions-left-out",
              "measured under several conditions; taken was "
                  + measurement.condition().describe()
                  + ", left out were "
                  + String.join(", ", left)));
    }
    MeasurementCondition own = measurement.condition();
    boolean otherBacking =
        aimBacking.isPresent()
            && own.backing().isPresent()
            && !own.backing().get().contains(aimBacking.get())
            && (own.backing().get().contains("white") || own.backing().get().contains("black"));
    if (otherBacking) {
      findings.add(
          Finding.warning(
              "backing-differs-from-aims",
              measurement.source()
                  + ": measured over "
                  + own.backing().get()
                  + " backing, the aims of "
                  + condition
                  + " are for "
                  + aimBacking.get()
                  + "; paper and light tints differ by it"));
    }
    if (aimIllumination.isPresent()
        && own.illumination().isPresent()
        && !own.illumination().equals(aimIllumination)) {
      findings.add(
          Finding.note(
              "illumination-differs-from-aims",
              measurement.source()
                  + ": measured as "
                  + own.illumination().get()
                  + ", the data of "
                  + condition
                  + " are older than these conditions and stand nearest to "
                  + aimIllumination.get()
                  + "; on papers with brightener the two differ"));
    }
    return findings;
  }
}
