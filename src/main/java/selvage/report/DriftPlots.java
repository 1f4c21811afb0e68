package selvage.report;

import java.util.List;
import selvage.color.Lab;
import selvage.strip.PatchSet;

/**
 * Where the colours went: on the a*b* plane a stroke from each aim towards the measured colour,
 * drawn longer than it is, and over L* the change of L*. Job patches are discs in their aim's
 * colour, standard patches small squares.
 */
final class DriftPlots {
  private static final int[] STRETCHES = {50, 20, 10, 5, 2, 1};
  private static final double LONGEST = 0.5;
  private static final double TEXT_MM = 2.1;

  private final Drawing drawing;
  private final List<PlottedPatch> patches;
  private final double range;
  private final double lightnessRange;
  private final int stretch;

  DriftPlots(Drawing drawing, List<PlottedPatch> patches) {
    this.drawing = drawing;
    this.patches = patches;
    double reach = 40;
    double longest = 0;
    double lightness = 2;
    for (PlottedPatch patch : patches) {
      Lab aim = patch.aim();
      reach = Math.max(reach, Math.max(Math.abs(aim.a()), Math.abs(aim.b())));
      longest = Math.max(longest, patch.dch());
      lightness = Math.max(lightness, Math.abs(patch.dl()));
    }
    this.range = Math.ceil((reach + 8) / 10) * 10;
    this.lightnessRange = Math.ceil(lightness * 1.1);
    this.stretch = stretch(longest);
  }

  private int stretch(double longest) {
    for (int candidate : STRETCHES) {
      if (longest * candidate <= LONGEST * range) {
        return candidate;
      }
    }
    return 1;
  }

  /** How many times longer than they are the strokes of the a*b* plane are drawn. */
  int stretch() {
    return stretch;
  }

  /** Draws the a*b* plane in a square. */
  void drawPlane(double x, double y, double size) {
    drawing.frame(x, y, size, size, Shade.RULE, 0.2);
    double centreX = x + size / 2;
    double centreY = y + size / 2;
    double unit = size / 2 / range;
    for (int mark = -100; mark <= 100; mark += 50) {
      if (Math.abs(mark) < range) {
        double weight = mark == 0 ? 0.3 : 0.12;
        drawing.line(centreX + mark * unit, y, centreX + mark * unit, y + size, Shade.RULE, weight);
        drawing.line(x, centreY + mark * unit, x + size, centreY + mark * unit, Shade.RULE, weight);
        if (mark != 0 && Math.abs(mark) < 0.8 * range) {
          String text = Figures.fixed(mark, 0);
          label(centreX + mark * unit, y + size - 0.8, Drawing.Anchor.MIDDLE, text);
          label(x + 0.6, centreY - mark * unit - 0.4, Drawing.Anchor.START, text);
        }
      }
    }
    drawing.text(x + size - 0.8, centreY - 0.8, TEXT_MM, true, Shade.INK, Drawing.Anchor.END, "a*");
    drawing.text(centreX + 0.8, y + 2.4, TEXT_MM, true, Shade.INK, Drawing.Anchor.START, "b*");
    for (PlottedPatch patch : patches) {
      Lab aim = patch.aim();
      double fromX = centreX + aim.a() * unit;
      double fromY = centreY - aim.b() * unit;
      double toX = fromX + stretch * (patch.lab().a() - aim.a()) * unit;
      double toY = fromY - stretch * (patch.lab().b() - aim.b()) * unit;
      drawing.line(
          fromX,
          fromY,
          inside(toX, x, x + size),
          inside(toY, y, y + size),
          Shade.INK,
          isJob(patch) ? 0.35 : 0.2);
    }
    for (PlottedPatch patch : patches) {
      Lab aim = patch.aim();
      mark(patch, centreX + aim.a() * unit, centreY - aim.b() * unit);
    }
  }

  /** Draws the change of L* over the aim's L*. */
  void drawLightness(double x, double y, double width, double height) {
    drawing.frame(x, y, width, height, Shade.RULE, 0.2);
    double zero = y + height / 2;
    double inset = 3;
    for (int lightness = 0; lightness <= 100; lightness += 50) {
      double at = x + inset + lightness / 100.0 * (width - 2 * inset);
      drawing.line(at, y, at, y + height, Shade.RULE, 0.12);
      label(at, y + height - 0.8, Drawing.Anchor.MIDDLE, Integer.toString(lightness));
    }
    drawing.line(x, zero, x + width, zero, Shade.RULE, 0.3);
    label(x + 0.6, y + 5, Drawing.Anchor.START, Figures.signed(lightnessRange, 0));
    label(x + 0.6, y + height - 3.4, Drawing.Anchor.START, Figures.signed(-lightnessRange, 0));
    drawing.text(x + width - 0.8, zero - 0.8, TEXT_MM, true, Shade.INK, Drawing.Anchor.END, "L*");
    drawing.text(x + 0.6, y + 2.4, TEXT_MM, true, Shade.INK, Drawing.Anchor.START, "ΔL*");
    for (PlottedPatch patch : patches) {
      double lightness = Math.min(100, Math.max(0, patch.aim().l()));
      double at = x + inset + lightness / 100 * (width - 2 * inset);
      double to = zero - patch.dl() / lightnessRange * height / 2;
      drawing.line(at, zero, at, to, Shade.INK, isJob(patch) ? 0.35 : 0.2);
      mark(patch, at, to);
    }
  }

  private void mark(PlottedPatch patch, double x, double y) {
    if (isJob(patch)) {
      drawing.dot(x, y, 0.95, patch.aim());
    } else {
      drawing.box(x - 0.65, y - 0.65, 1.3, 1.3, Shade.INK);
      drawing.swatch(x - 0.5, y - 0.5, 1, 1, patch.aim());
    }
  }

  private void label(double x, double y, Drawing.Anchor anchor, String text) {
    drawing.text(x, y, TEXT_MM, false, Shade.MUTED, anchor, text);
  }

  private static boolean isJob(PlottedPatch patch) {
    return patch.set() == PatchSet.JOB;
  }

  private static double inside(double value, double low, double high) {
    return Math.min(high, Math.max(low, value));
  }
}
