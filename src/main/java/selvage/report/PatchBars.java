package selvage.report;

import java.util.List;
import java.util.OptionalDouble;
import selvage.color.Lab;
import selvage.score.Verdict;

/**
 * Patches side by side: above, how far each is off, with its own limit; below, aim and measured
 * colour, touching, on neutral grey. A patch beyond its limit has a dark bar with an arrowhead on
 * top; one that is not judged has an empty bar.
 */
final class PatchBars {
  static final double AXIS_MM = 6;
  private static final double HEAD_MM = 3;
  private static final double SWATCH_MM = 6.4;
  private static final double SURROUND_MM = 0.9;
  private static final double FOOT_MM = 3.4;
  private static final double LEAST_SCALE = 6;
  private static final double MOST_SCALE = 20;

  private final Drawing drawing;
  private final OptionalDouble meanLimit;
  private final double scale;
  private final double barsMm;
  private final double slotMm;
  private final double textMm;

  /**
   * Prepares charts that share a scale.
   *
   * @param meanLimit on the mean of all, drawn in dashes
   * @param all whose greatest difference sets the scale
   * @param barsMm height of the part with the bars
   * @param slotMm width for each patch
   */
  PatchBars(
      Drawing drawing,
      OptionalDouble meanLimit,
      List<PlottedPatch> all,
      double barsMm,
      double slotMm) {
    this.drawing = drawing;
    this.meanLimit = meanLimit;
    this.barsMm = barsMm;
    this.slotMm = slotMm;
    this.textMm = Math.max(1.6, Math.min(2.4, 0.47 * slotMm));
    double most = all.stream().mapToDouble(PlottedPatch::value).max().orElse(0);
    double most5 = Math.max(LEAST_SCALE, Math.min(MOST_SCALE, most * 1.12));
    this.scale = Math.ceil(most5);
  }

  static double heightMm(double barsMm) {
    return HEAD_MM + barsMm + SURROUND_MM * 2 + SWATCH_MM + FOOT_MM;
  }

  static double widthMm(int patches, double slotMm) {
    return AXIS_MM + patches * slotMm;
  }

  /** Draws some patches with the chart's upper left corner there. */
  void draw(double x, double y, List<PlottedPatch> patches) {
    double left = x + AXIS_MM;
    double zero = y + HEAD_MM + barsMm;
    double right = left + patches.size() * slotMm;
    int step = scale > 10 ? 5 : scale > 6 ? 2 : 1;
    for (int mark = 0; mark <= scale; mark += step) {
      double at = zero - mark / scale * barsMm;
      drawing.line(left, at, right, at, Shade.RULE, 0.12);
      drawing.text(
          left - 1, at + 0.7, 2, false, Shade.MUTED, Drawing.Anchor.END, Integer.toString(mark));
    }
    drawing.box(left, zero, right - left, SWATCH_MM + 2 * SURROUND_MM, Shade.SURROUND);
    for (int i = 0; i < patches.size(); i++) {
      drawPatch(left + i * slotMm, zero, patches.get(i));
    }
    if (meanLimit.isPresent() && meanLimit.getAsDouble() <= scale) {
      double at = zero - meanLimit.getAsDouble() / scale * barsMm;
      drawing.dashes(left, at, right, at, Shade.MUTED, 0.2);
    }
  }

  private void drawPatch(double x, double zero, PlottedPatch patch) {
    double value = patch.value();
    double height = Math.min(1, value / scale) * barsMm;
    double barX = x + 0.2 * slotMm;
    double barWidth = 0.6 * slotMm;
    double middle = x + slotMm / 2;
    Verdict verdict = patch.verdict();
    boolean beyond = verdict != Verdict.PASS;
    Shade shade = beyond ? VerdictSign.shade(verdict) : Shade.BAR;
    if (!patch.judged()) {
      drawing.frame(barX, zero - height, barWidth, height, Shade.BAR, 0.2);
    } else {
      drawing.box(barX, zero - height, barWidth, height, shade);
    }
    double top = zero - height;
    if (beyond) {
      double half = 0.5 * barWidth + 0.35;
      drawing.polygon(shade, middle - half, top, middle + half, top, middle, top - 1.2);
      top -= 1.2;
    }
    drawing.text(
        middle,
        top - 0.5,
        textMm,
        beyond,
        beyond ? shade : Shade.INK,
        Drawing.Anchor.MIDDLE,
        Figures.fixed(value, slotMm >= 6 ? 2 : 1));
    OptionalDouble limit = patch.limit();
    if (limit.isPresent() && limit.getAsDouble() <= scale) {
      double at = zero - limit.getAsDouble() / scale * barsMm;
      drawing.line(x + 0.12, at, x + slotMm - 0.12, at, Shade.INK, 0.3);
    }
    drawPair(x, zero + SURROUND_MM, patch);
    drawing.text(
        middle,
        zero + 2 * SURROUND_MM + SWATCH_MM + 2.3,
        textMm,
        false,
        Shade.INK,
        Drawing.Anchor.MIDDLE,
        patch.id());
  }

  private void drawPair(double x, double y, PlottedPatch patch) {
    double inset = Math.min(0.7, 0.1 * slotMm);
    double half = slotMm / 2 - inset;
    Lab aim = patch.aim();
    drawing.swatch(x + inset, y, half, SWATCH_MM, aim);
    drawing.swatch(x + slotMm / 2, y, half, SWATCH_MM, patch.lab());
  }
}
