package selvage.web;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** A column by which a score's patches can be sorted. */
public enum PatchColumn {
  PATCH("Patch", false),
  SET("Set", false),
  BUILD("Build", false),
  SHARE("Share %", true),
  DE00("ΔE00", true),
  DL("ΔL*", true),
  DC("ΔC*", true),
  DH("ΔH*", true),
  LIMIT("Limit", true);

  /** The columns in their order. */
  public static final List<PatchColumn> ALL = List.of(values());

  private final String label;
  private final boolean numeric;

  PatchColumn(String label, boolean numeric) {
    this.label = label;
    this.numeric = numeric;
  }

  /** The heading. */
  public String label() {
    return label;
  }

  /** Whether it holds numbers: they begin with the greatest. */
  public boolean numeric() {
    return numeric;
  }

  /** The word in an address. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  Comparator<PatchRow> order() {
    return switch (this) {
      case PATCH -> Comparator.comparing(PatchRow::id);
      case SET -> Comparator.comparing(PatchRow::set);
      case BUILD -> Comparator.comparing(PatchRow::build);
      case SHARE -> Comparator.comparingDouble(row -> orLeast(row.share()));
      case DE00 -> Comparator.comparingDouble(row -> row.result().de00());
      case DL -> Comparator.comparingDouble(row -> row.result().dl());
      case DC -> Comparator.comparingDouble(row -> row.result().dc());
      case DH -> Comparator.comparingDouble(row -> row.result().dh());
      case LIMIT -> Comparator.comparingDouble(row -> orLeast(row.result().limit()));
    };
  }

  /** What has no value counts as least. */
  private static double orLeast(OptionalDouble value) {
    return value.orElse(Double.NEGATIVE_INFINITY);
  }
}
