package selvage.web;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;

/** A column by which a score's patches can be sorted. */
public enum PatchColumn {
  PATCH("Patch", false, Comparator.comparing(PatchRow::id)),
  SET("Set", false, Comparator.comparing(PatchRow::set)),
  BUILD("Build", false, Comparator.comparing(PatchRow::build)),
  SHARE("Share %", true, optional(PatchRow::share)),
  DE00("ΔE00", true, by(row -> row.result().de00())),
  DL("ΔL*", true, by(row -> row.result().dl())),
  DC("ΔC*", true, by(row -> row.result().dc())),
  DH("ΔH*", true, by(row -> row.result().dh())),
  LIMIT("Limit", true, optional(row -> row.result().limit()));

  /** The columns in their order. */
  public static final List<PatchColumn> ALL = List.of(values());

  private final String label;
  private final boolean numeric;
  private final Comparator<PatchRow> order;

  PatchColumn(String label, boolean numeric, Comparator<PatchRow> order) {
    this.label = label;
    this.numeric = numeric;
    this.order = order;
  }

  private static Comparator<PatchRow> by(ToDoubleFunction<PatchRow> value) {
    return Comparator.comparingDouble(value);
  }

  /** What has no value counts as least. */
  private static Comparator<PatchRow> optional(
      java.util.function.Function<PatchRow, OptionalDouble> value) {
    return Comparator.comparingDouble(row -> value.apply(row).orElse(Double.NEGATIVE_INFINITY));
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
    return order;
  }
}
