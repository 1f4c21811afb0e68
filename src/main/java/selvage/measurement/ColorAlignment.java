package selvage.measurement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.measurement.RowAlignment.Decision;
import selvage.measurement.RowAlignment.Pass;

/**
 * Finds which reading is of which patch by colour and order alone, and how sure that is.
 *
 * <p>The confidence is our own measure, the lesser of two: 1 − d/r, with d the mean ΔE*ab between
 * readings and their aims and r the same over all pairs, both capped at {@link RowAlignment#CAP};
 * and 1 − exp(−m/(3·max(1, d/4))), with m the ΔE*ab by which the next best alignment costs more
 * that gives some reading to a patch of another colour.
 *
 * @param patchOf the patch of each reading, −1 for a stray one
 * @param how as in {@link Alignment}
 * @param confidence 0 to 1
 * @param findings what was unusual in the order of reading
 */
record ColorAlignment(
    List<Integer> patchOf, String how, double confidence, List<Finding> findings) {
  /** Confidence below which an alignment is not used (house rule, chosen on rehearsals). */
  static final double LEAST_CONFIDENCE = 0.85;

  /** 1 − d/r below which the readings are not taken for this strip's. */
  static final double LEAST_FIT = 0.7;

  /** ΔE*ab between aims up to which it does not matter which patch is which. */
  private static final double ALIKE = 1;

  private static final double MARGIN_SCALE = 3;
  private static final double CALM = 4;

  /** The most pairs of readings and patches that are compared. */
  private static final int MOST_PAIRS = 1_000_000;

  /** The most steps of an alignment, some hundred million a second. */
  private static final double MOST_STEPS = 3e9;

  ColorAlignment {
    patchOf = List.copyOf(patchOf);
    findings = List.copyOf(findings);
  }

  /** Whether there are so few readings that comparing them with all patches is sensible. */
  static boolean isComparable(int readings, int patches) {
    return readings <= 4 * patches + 10 && (long) readings * patches <= MOST_PAIRS;
  }

  /**
   * Whether readings can be aligned within seconds. Rows of twice the length take sixteen times as
   * long; no row that an instrument reads is long enough to be refused.
   *
   * @param patches in reading order, row by row
   */
  static boolean isFeasible(int readings, List<SheetPatch> patches) {
    return isComparable(readings, patches.size())
        && RowAlignment.steps(readings, rowStart(patches)) <= MOST_STEPS;
  }

  /** ΔE*ab by reading and patch. */
  static double[][] distances(List<Reading> readings, List<SheetPatch> patches) {
    double[][] distances = new double[readings.size()][patches.size()];
    for (int i = 0; i < distances.length; i++) {
      for (int j = 0; j < distances[i].length; j++) {
        distances[i][j] =
            ColorDifference.de76(patches.get(j).first().aim().lab(), readings.get(i).lab());
      }
    }
    return distances;
  }

  /** The mean over all pairs, each capped. */
  static double meanOfAll(double[][] distances) {
    double sum = 0;
    int count = 0;
    for (double[] row : distances) {
      for (double value : row) {
        sum += Math.min(RowAlignment.CAP, value);
        count++;
      }
    }
    return sum / count;
  }

  /**
   * Aligns readings.
   *
   * @param source for findings
   * @param readings in the order of reading
   * @param patches in reading order, row by row
   */
  static ColorAlignment of(String source, List<Reading> readings, List<SheetPatch> patches) {
    double[][] distances = distances(readings, patches);
    int[] rowStart = rowStart(patches);
    Decision decision = RowAlignment.decide(distances, rowStart, alike(patches));
    List<Integer> patchOf = decision.result().patchOf();
    double fit = 0;
    int matched = 0;
    for (int i = 0; i < patchOf.size(); i++) {
      if (patchOf.get(i) >= 0) {
        fit += Math.min(RowAlignment.CAP, distances[i][patchOf.get(i)]);
        matched++;
      }
    }
    fit = matched == 0 ? RowAlignment.CAP : fit / matched;
    double all = meanOfAll(distances);
    double byFit = all == 0 ? 0 : Math.max(0, 1 - fit / all);
    double byMargin =
        1 - Math.exp(-Math.max(0, decision.margin()) / (MARGIN_SCALE * Math.max(1, fit / CALM)));
    double strays = (double) (patchOf.size() - matched) / patchOf.size();
    double confidence =
        byFit < LEAST_FIT || strays > 0.1
            ? Math.min(byFit, LEAST_CONFIDENCE / 2)
            : Math.min(byMargin, 1 - fit / (fit + all));
    List<Finding> findings = new ArrayList<>();
    String how =
        describe(
            source, decision.result().passes(), patchOf, readings, patches, rowStart, findings);
    return new ColorAlignment(patchOf, how, confidence, findings);
  }

  boolean isSure() {
    return confidence >= LEAST_CONFIDENCE;
  }

  private static int[] rowStart(List<SheetPatch> patches) {
    int[] starts = new int[patches.size() + 1];
    int rows = 0;
    for (int i = 0; i < patches.size(); i++) {
      if (i == 0 || patches.get(i).first().row() != patches.get(i - 1).first().row()) {
        starts[rows++] = i;
      }
    }
    starts[rows] = patches.size();
    return Arrays.copyOf(starts, rows + 1);
  }

  private static boolean[][] alike(List<SheetPatch> patches) {
    boolean[][] alike = new boolean[patches.size()][patches.size()];
    for (int i = 0; i < alike.length; i++) {
      Lab one = patches.get(i).first().aim().lab();
      for (int j = 0; j < alike.length; j++) {
        alike[i][j] = ColorDifference.de76(one, patches.get(j).first().aim().lab()) <= ALIKE;
      }
    }
    return alike;
  }

  private static String describe(
      String source,
      List<Pass> passes,
      List<Integer> patchOf,
      List<Reading> readings,
      List<SheetPatch> patches,
      int[] rowStart,
      List<Finding> findings) {
    int rows = rowStart.length - 1;
    boolean forward = passes.size() == rows;
    boolean backward = passes.size() == rows;
    Set<Integer> reversed = new TreeSet<>();
    Set<Integer> seen = new TreeSet<>();
    Set<Integer> again = new TreeSet<>();
    boolean ordered = true;
    int last = -1;
    for (int i = 0; i < passes.size(); i++) {
      Pass pass = passes.get(i);
      int name = patches.get(rowStart[pass.row()]).first().row();
      forward &= pass.row() == i && !pass.backwards();
      backward &= pass.row() == rows - 1 - i && pass.backwards();
      ordered &= pass.row() >= last;
      last = pass.row();
      if (pass.backwards()) {
        reversed.add(name);
      }
      if (!seen.add(name)) {
        again.add(name);
      }
    }
    if (backward && !forward) {
      findings.add(
          Finding.warning(
              "read-backwards",
              source
                  + ": the readings fit the strip from its end; it was taken to be read"
                  + " backwards"));
    } else {
      findRows(source, reversed, again, ordered, findings);
    }
    boolean plain = findPatches(source, passes, patchOf, readings, patches, findings);
    if (!plain) {
      return "by-rows";
    }
    return forward ? "by-order" : backward ? "by-order-reversed" : "by-rows";
  }

  private static void findRows(
      String source,
      Set<Integer> reversed,
      Set<Integer> again,
      boolean ordered,
      List<Finding> findings) {
    if (!reversed.isEmpty()) {
      findings.add(
          Finding.warning(
              "rows-read-backwards",
              source + ": rows taken to be read backwards, by their colours: " + list(reversed)));
    }
    if (!again.isEmpty()) {
      findings.add(
          Finding.warning(
              "rows-read-twice",
              source + ": rows taken to be read more than once, by their colours: " + list(again)));
    }
    if (!ordered) {
      findings.add(
          Finding.warning(
              "rows-in-other-order",
              source + ": the rows were taken to be read in another order than the strip's"));
    }
  }

  private static String list(Set<Integer> rows) {
    StringBuilder text = new StringBuilder();
    rows.forEach(row -> text.append(text.length() == 0 ? "row " : ", row ").append(row));
    return text.toString();
  }

  /** Names the patches read twice in a pass; tells whether none was read twice, stray or missed. */
  private static boolean findPatches(
      String source,
      List<Pass> passes,
      List<Integer> patchOf,
      List<Reading> readings,
      List<SheetPatch> patches,
      List<Finding> findings) {
    boolean plain = patchOf.size() == patches.size();
    for (Pass pass : passes) {
      for (int i = pass.from() + 1; i < pass.to(); i++) {
        int patch = patchOf.get(i);
        if (patch >= 0 && patch == patchOf.get(i - 1)) {
          plain = false;
          findings.add(
              Finding.warning(
                  "patch-read-twice",
                  String.format(
                      Locale.ROOT,
                      "%s:%d: taken to be %s read once more, by its colour",
                      source,
                      readings.get(i).line(),
                      patches.get(patch).describe())));
        }
      }
    }
    for (int i = 0; i < patchOf.size(); i++) {
      if (patchOf.get(i) < 0) {
        plain = false;
        findings.add(
            Finding.warning(
                "reading-of-no-patch",
                String.format(
                    Locale.ROOT,
                    "%s:%d: fits no patch near it and was left out",
                    source,
                    readings.get(i).line())));
      }
    }
    return plain;
  }
}
