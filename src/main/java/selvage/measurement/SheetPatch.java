package selvage.measurement;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import selvage.ink.InkMixture;
import selvage.strip.BoxMm;
import selvage.strip.Patch;
import selvage.strip.Strip;

/**
 * A patch as it lies on the sheet and under the instrument: printed once, measured once, though it
 * may stand in both sets.
 *
 * @param patches one, or the job's and the standard's of the same box
 */
public record SheetPatch(List<Patch> patches) {
  public SheetPatch {
    patches = List.copyOf(patches);
  }

  /** The printed patches of a strip in reading order: row by row, columns ascending. */
  public static List<SheetPatch> of(Strip strip) {
    Map<BoxMm, List<Patch>> byBox = new LinkedHashMap<>();
    for (Patch patch : strip.patches()) {
      byBox.computeIfAbsent(patch.box(), box -> new ArrayList<>()).add(patch);
    }
    List<SheetPatch> printed = new ArrayList<>();
    byBox.values().forEach(patches -> printed.add(new SheetPatch(patches)));
    printed.sort(
        Comparator.comparingInt((SheetPatch one) -> one.first().row())
            .thenComparingInt(one -> one.first().column()));
    return printed;
  }

  /** The patch that gives the id in files. */
  public Patch first() {
    return patches.get(0);
  }

  /** What is printed. */
  public InkMixture mixture() {
    return first().mixture();
  }

  /** For messages: {@code J05 (Dune Red 100)}. */
  public String describe() {
    return first().id() + " (" + mixture() + ")";
  }
}
