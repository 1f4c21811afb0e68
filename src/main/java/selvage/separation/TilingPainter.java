package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.NoninvertibleTransformException;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.pattern.PDTilingPattern;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.util.Matrix;

/**
 * Paints regions with tiling patterns. Few tiles are drawn one by one, exactly where they fall; of
 * many, one cell is drawn and looked up for each sample.
 */
final class TilingPainter {
  private static final int MOST_DRAWN_TILES = 64;
  private static final int LEAST_CELL = 16;
  private static final int MOST_CELL = 2048;

  private final PageArtist artist;

  TilingPainter(PageArtist artist) {
    this.artist = artist;
  }

  /** One pattern as it is to be painted. */
  private static final class Tiling {
    final PDTilingPattern pattern;
    final Matrix matrix; // pattern space to default user space
    final AffineTransform toSamples;
    final AffineTransform fromSamples;
    final PDRectangle box;
    final double xStep;
    final double yStep;

    Tiling(PDTilingPattern pattern, Matrix matrix, AffineTransform userToSamples)
        throws IOException {
      this.pattern = pattern;
      this.matrix = matrix;
      toSamples = new AffineTransform(userToSamples);
      toSamples.concatenate(matrix.createAffineTransform());
      try {
        fromSamples = toSamples.createInverse();
      } catch (NoninvertibleTransformException e) {
        throw new IOException("its matrix can't be inverted", e);
      }
      box = pattern.getBBox();
      if (box == null || !(box.getWidth() > 0 && box.getHeight() > 0)) {
        throw new IOException("its BBox is empty");
      }
      xStep = stepOr(pattern.getXStep(), box.getWidth());
      yStep = stepOr(pattern.getYStep(), box.getHeight());
    }

    private static double stepOr(float step, float otherwise) {
      return step == 0 || !Float.isFinite(step) ? otherwise : Math.abs(step);
    }
  }

  void paint(Region region, COSStream stream, CarriedColor color, boolean stroking)
      throws IOException {
    PDTilingPattern pattern = new PDTilingPattern(stream, artist.scope().cache());
    Painter painter = artist.painter();
    Tiling tiling =
        new Tiling(
            pattern,
            Matrix.concatenate(artist.getInitialMatrix(), pattern.getMatrix()),
            painter.toSamples());
    CarriedColor locked = null;
    if (pattern.getPaintType() == PDTilingPattern.PAINT_UNCOLORED) {
      SourceSpace underlying =
          color.space instanceof PatternSpace space ? space.underlying() : null;
      if (underlying == null) {
        throw new IOException("it is uncoloured and no colour is given");
      }
      locked = new CarriedColor(underlying, color.components, null);
    }
    Rectangle2D extent =
        tiling
            .fromSamples
            .createTransformedShape(
                new Rectangle2D.Double(
                    region.left(),
                    region.top(),
                    region.right() - region.left(),
                    region.bottom() - region.top()))
            .getBounds2D();
    double i0 = Math.floor((extent.getMinX() - tiling.box.getUpperRightX()) / tiling.xStep) + 1;
    double i1 = Math.ceil((extent.getMaxX() - tiling.box.getLowerLeftX()) / tiling.xStep) - 1;
    double j0 = Math.floor((extent.getMinY() - tiling.box.getUpperRightY()) / tiling.yStep) + 1;
    double j1 = Math.ceil((extent.getMaxY() - tiling.box.getLowerLeftY()) / tiling.yStep) - 1;
    if (i1 < i0 || j1 < j0) {
      return;
    }
    PDGraphicsState state = artist.getGraphicsState();
    Compositor.Mode mode = painter.mode(state, stroking, null, artist.mask());
    double tiles = (i1 - i0 + 1) * (j1 - j0 + 1);
    if (Double.isNaN(tiles)) {
      throw new IOException("its matrix, box or steps are beyond all measure");
    }
    if (tiles <= MOST_DRAWN_TILES) {
      drawEach(region, tiling, locked, mode, (long) i0, (long) i1, (long) j0, (long) j1);
    } else {
      paintCell(region, tiling, locked, mode);
    }
  }

  private void drawEach(
      Region region,
      Tiling tiling,
      CarriedColor locked,
      Compositor.Mode mode,
      long i0,
      long i1,
      long j0,
      long j1)
      throws IOException {
    Compositor compositor = artist.painter().compositor();
    boolean grouped = !mode.isPlain() || compositor.layer().knockout;
    if (grouped) {
      compositor.beginGroup(
          new PageGeometry.Window(region.left(), region.top(), region.right(), region.bottom()),
          false,
          false,
          compositor.layer().blending);
    }
    Layer layer = null;
    try {
      Painter clipped = artist.painter().clippedTo(region);
      for (long j = j0; j <= j1; j++) {
        for (long i = i0; i <= i1; i++) {
          Matrix place = tiling.matrix.clone();
          place.translate((float) (i * tiling.xStep), (float) (j * tiling.yStep));
          draw(tiling, place, locked, clipped);
        }
      }
    } finally {
      if (grouped) {
        layer = compositor.endGroup();
      }
    }
    if (layer != null) {
      compositor.paintGroup(layer, region, mode);
    }
  }

  private void draw(Tiling tiling, Matrix place, CarriedColor locked, Painter painter)
      throws IOException {
    PageArtist child = artist.newChild(painter);
    child.colors().lock(locked);
    child.paintStream(
        new PlacedStream(
            tiling.pattern,
            tiling.pattern.getContentStream().getCOSObject(),
            place,
            tiling.box,
            artist.scope()));
  }

  private void paintCell(Region region, Tiling tiling, CarriedColor locked, Compositor.Mode mode)
      throws IOException {
    AffineTransform t = tiling.toSamples;
    Period x = Period.of(tiling.xStep * Math.hypot(t.getScaleX(), t.getShearY()));
    Period y = Period.of(tiling.yStep * Math.hypot(t.getShearX(), t.getScaleY()));
    int width = x.samples();
    int height = y.samples();
    double xPeriod = x.steps() * tiling.xStep;
    double yPeriod = y.steps() * tiling.yStep;
    double left = tiling.box.getLowerLeftX();
    double lower = tiling.box.getLowerLeftY();
    AffineTransform toCell = AffineTransform.getScaleInstance(width / xPeriod, height / yPeriod);
    toCell.translate(-left, -lower);
    Compositor compositor = artist.painter().compositor();
    compositor.beginCell(width, height);
    Layer cell;
    try {
      Painter inCell = artist.painter().ofCell(toCell, width, height);
      // A box larger than the step reaches into the cells that follow.
      int across = reach(tiling.box.getWidth(), tiling.xStep);
      int up = reach(tiling.box.getHeight(), tiling.yStep);
      for (int j = -up; j < y.steps(); j++) {
        for (int i = -across; i < x.steps(); i++) {
          draw(
              tiling,
              Matrix.getTranslateInstance((float) (i * tiling.xStep), (float) (j * tiling.yStep)),
              locked,
              inCell);
        }
      }
    } finally {
      cell = compositor.endGroup();
    }
    compositor.paint(
        region,
        new CellSource(cell, tiling.fromSamples, left, lower, xPeriod, yPeriod, compositor.table()),
        mode);
  }

  /**
   * How a cell is sampled along one axis. Several steps are taken together where one is no whole
   * number of samples, so that rounding does not change the tint.
   *
   * @param steps how many steps the cell holds
   * @param samples how many samples it has
   */
  record Period(int steps, int samples) {
    private static final int MOST_STEPS = 5;

    /**
     * The best sampling of a step.
     *
     * @param step in samples of the page
     */
    static Period of(double step) {
      if (step * MOST_STEPS > MOST_CELL) {
        return new Period(1, (int) Math.min(MOST_CELL, Math.round(step)));
      }
      boolean fine = step < LEAST_CELL;
      double unit = fine ? step * Math.ceil(LEAST_CELL / Math.max(0.01, step)) : step;
      Period best = null;
      double least = Double.POSITIVE_INFINITY;
      for (int n = 1; n <= MOST_STEPS; n++) {
        double size = fine ? unit + (n - 1) * step : n * unit;
        long samples = Math.max(1, Math.round(size));
        double error = Math.abs(samples - size) / Math.max(size, Double.MIN_NORMAL);
        if (error < least - 1e-4) {
          least = error;
          best = new Period(fine ? 1 : n, (int) Math.min(MOST_CELL, samples));
        }
      }
      return best == null ? new Period(1, LEAST_CELL) : best;
    }
  }

  private static int reach(double size, double step) {
    return (int) Math.min(8, Math.max(0, Math.ceil(size / step - 1e-6) - 1));
  }

  /** Looks a sample up in the cell that it falls into. */
  private static final class CellSource implements RowSource {
    private final Layer cell;
    private final AffineTransform fromSamples;
    private final double left;
    private final double lower;
    private final double xStep;
    private final double yStep;
    private final StateTable table;

    CellSource(
        Layer cell,
        AffineTransform fromSamples,
        double left,
        double lower,
        double xStep,
        double yStep,
        StateTable table) {
      this.cell = cell;
      this.fromSamples = fromSamples;
      this.left = left;
      this.lower = lower;
      this.xStep = xStep;
      this.yStep = yStep;
      this.table = table;
    }

    @Override
    public boolean hasAlpha() {
      return false;
    }

    @Override
    public void row(int y, int x0, int x1, int[] out, char[] alphas) {
      double a = fromSamples.getScaleX();
      double b = fromSamples.getShearY();
      double c = fromSamples.getShearX();
      double d = fromSamples.getScaleY();
      double e = fromSamples.getTranslateX();
      double f = fromSamples.getTranslateY();
      for (int x = x0; x < x1; x++) {
        double u = (a * (x + 0.5) + c * (y + 0.5) + e - left) / xStep;
        double v = (b * (x + 0.5) + d * (y + 0.5) + f - lower) / yStep;
        int column = Math.min(cell.width - 1, (int) ((u - Math.floor(u)) * cell.width));
        int row = Math.min(cell.height - 1, (int) ((v - Math.floor(v)) * cell.height));
        int state = cell.cells[row * cell.width + column];
        out[x - x0] = table.kinds(state) == 0 ? NONE : state;
      }
    }
  }
}
