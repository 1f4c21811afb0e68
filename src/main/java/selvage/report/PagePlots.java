package selvage.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import selvage.color.Lab;
import selvage.comparison.Comparison;
import selvage.comparison.ScoredPair;
import selvage.comparison.Trend;
import selvage.report.FiledScore.PatchResult;
import selvage.score.Metric;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * The reports' drawings as SVG elements for pages: no style in them but classes, all texts escaped.
 * Safe for use by several threads.
 */
public final class PagePlots {
  private static final int PATCHES_A_CHART = 8;
  private static final double SLOT_MM = 7.4;
  private static final double BARS_MM = 22;
  private static final double PLOT_MM = 70;
  private static final double LIGHTNESS_MM = 46;

  private final ScreenColor screen = new ScreenColor();

  /** A colour on a display, {@code #rrggbb}. */
  public String hex(Lab color) {
    return SvgDrawing.hex(screen.of(color));
  }

  /** The sign of a verdict, told apart by shape. */
  public String sign(Verdict verdict) {
    SvgDrawing drawing = new SvgDrawing(screen, 10, 10, "sign", verdict.word());
    VerdictSign.draw(drawing, verdict, 5, 5, 4.4);
    return drawing.element();
  }

  /** A colour for itself on neutral grey. */
  public String swatch(Lab color, String description) {
    SvgDrawing drawing = new SvgDrawing(screen, 16, 7, "swatch-one", description);
    drawing.box(0, 0, 16, 7, Shade.SURROUND);
    drawing.swatch(1, 1, 14, 5, color);
    return drawing.element();
  }

  /** Aim and reading, touching, on neutral grey. */
  public String pair(Lab aim, Lab lab, String description) {
    SvgDrawing drawing = new SvgDrawing(screen, 16, 7, "swatch-pair", description);
    drawing.box(0, 0, 16, 7, Shade.SURROUND);
    drawing.swatch(1, 1, 7, 5, aim);
    drawing.swatch(8, 1, 7, 5, lab);
    return drawing.element();
  }

  /** How far each patch of a set is off, with its limit, some patches a drawing. */
  public List<String> bars(PatchSet set, List<PatchResult> patches) {
    Metric metric =
        patches.stream()
            .flatMap(patch -> patch.limitMetric().stream())
            .findFirst()
            .orElse(Metric.DE00);
    List<PlottedPatch> all = patches.stream().map(patch -> patch.plotted(metric)).toList();
    List<String> drawings = new ArrayList<>();
    for (int from = 0; from < all.size(); from += PATCHES_A_CHART) {
      List<PlottedPatch> some = all.subList(from, Math.min(all.size(), from + PATCHES_A_CHART));
      SvgDrawing drawing =
          new SvgDrawing(
              screen,
              PatchBars.widthMm(PATCHES_A_CHART, SLOT_MM),
              PatchBars.heightMm(BARS_MM),
              "bars",
              String.format(
                  Locale.ROOT,
                  "%s, %s of patches %s to %s; the figures stand in the table",
                  ScoreWords.setName(set),
                  metric.sign(),
                  some.get(0).id(),
                  some.get(some.size() - 1).id()));
      new PatchBars(drawing, java.util.OptionalDouble.empty(), all, BARS_MM, SLOT_MM)
          .draw(0, 0, some);
      drawings.add(drawing.element());
    }
    return drawings;
  }

  /**
   * Where the colours went.
   *
   * @param plane on the a*b* plane
   * @param lightness over L*
   * @param stretch how many times longer than they are the strokes of the plane are drawn
   */
  public record Drift(String plane, String lightness, int stretch) {}

  /** Where the colours of a strip went. */
  public Drift drift(List<PatchResult> patches) {
    List<PlottedPatch> all = patches.stream().map(patch -> patch.plotted(Metric.DE00)).toList();
    SvgDrawing plane =
        new SvgDrawing(
            screen, PLOT_MM, PLOT_MM, "plot", "Drift on the a*b* plane, aim to measured");
    DriftPlots plots = new DriftPlots(plane, all);
    plots.drawPlane(0, 0, PLOT_MM);
    SvgDrawing lightness =
        new SvgDrawing(screen, LIGHTNESS_MM, PLOT_MM, "plot", "Drift of L* over L*");
    new DriftPlots(lightness, all).drawLightness(0, 0, LIGHTNESS_MM, PLOT_MM);
    return new Drift(plane.element(), lightness.element(), plots.stretch());
  }

  /** Least, quartiles and greatest of the strips' mean differences. */
  public String quartiles(Comparison.Differences differences) {
    SvgDrawing drawing =
        new SvgDrawing(
            screen,
            122,
            50,
            "plot wide",
            "Quartiles of the mean ΔE00; the figures stand in the table");
    new QuartilePlot(drawing).draw(differences, 2, 2, 116, 44);
    return drawing.element();
  }

  /** Each proof by the mean differences of its two strips. */
  public String pairs(List<ScoredPair> pairs) {
    SvgDrawing drawing =
        new SvgDrawing(
            screen,
            92,
            96,
            "plot",
            "Each proof by the mean ΔE00 of its standard and its job strip");
    new PairPlot(drawing, pairs).draw(0, 3, 88);
    return drawing.element();
  }

  /**
   * The control chart of one axis of a trend.
   *
   * @param axis 0 for L*, 1 for a*, 2 for b*
   */
  public String trend(Trend trend, int axis) {
    SvgDrawing drawing =
        new SvgDrawing(
            screen,
            182,
            64,
            "plot wide",
            "Control chart of Δ"
                + ComparisonText.AXES[axis]
                + ", "
                + ComparisonText.name(trend.source()));
    new TrendPlot(drawing, trend).draw(axis, 0, 6, 182, 50);
    return drawing.element();
  }
}
