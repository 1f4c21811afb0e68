package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.io.IOException;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.util.Matrix;
import selvage.ink.Tint;

/** Paints paths, glyphs and other sources with what the graphics state says. */
final class Painter {
  private final Compositor compositor;
  private final BlendSpaces blendSpaces;
  private final AffineTransform toSamples;
  private final PageGeometry.Window window;
  private final Region base;
  private final ClipCache clips;
  private final FindingList findings;
  private final Runnable beforeAll;
  private final Deadline deadline;
  private COSBase lastTransferStated;
  private Transfer lastTransfer;

  /**
   * @param window the samples of the band
   * @param beforeAll makes sure that every colorant of the page is known, before All is painted
   */
  Painter(
      Compositor compositor,
      BlendSpaces blendSpaces,
      AffineTransform toSamples,
      PageGeometry.Window window,
      FindingList findings,
      Runnable beforeAll,
      Deadline deadline) {
    this(
        compositor,
        blendSpaces,
        toSamples,
        window,
        Region.ofRectangle(window.left(), window.top(), window.right(), window.bottom()),
        findings,
        beforeAll,
        deadline);
  }

  private Painter(
      Compositor compositor,
      BlendSpaces blendSpaces,
      AffineTransform toSamples,
      PageGeometry.Window window,
      Region base,
      FindingList findings,
      Runnable beforeAll,
      Deadline deadline) {
    this.base = base;
    this.compositor = compositor;
    this.blendSpaces = blendSpaces;
    this.toSamples = toSamples;
    this.window = window;
    this.clips = new ClipCache(toSamples, window, base, deadline);
    this.findings = findings;
    this.beforeAll = beforeAll;
    this.deadline = deadline;
  }

  /** A painter whose clip begins with a region. */
  Painter clippedTo(Region region) {
    return new Painter(
        compositor, blendSpaces, toSamples, window, region, findings, beforeAll, deadline);
  }

  /** A painter on a raster of its own. */
  Painter ofCell(AffineTransform toCell, int width, int height) {
    return new Painter(
        compositor,
        blendSpaces,
        toCell,
        new PageGeometry.Window(0, 0, width, height),
        findings,
        beforeAll,
        deadline);
  }

  Compositor compositor() {
    return compositor;
  }

  /** From default user space to samples; a copy. */
  AffineTransform toSamples() {
    return new AffineTransform(toSamples);
  }

  PageGeometry.Window window() {
    return window;
  }

  /** The clip that a graphics state has in force. */
  Region clip(PDGraphicsState state) {
    return clips.of(state.getCurrentClippingPaths());
  }

  /** The samples inside a path that the clip lets through; the path is in default user space. */
  Region inside(Path2D path, boolean evenOdd, PDGraphicsState state) {
    EdgeList edges = newEdges();
    ThinParts thin = new ThinParts(deadline);
    Flattener.walk(path, toSamples, Flattener.filling(edges, thin));
    Region region = thin.addTo(edges.toRegion(evenOdd), window, evenOdd);
    return region.isEmpty() ? region : region.intersect(clip(state));
  }

  /** The samples inside a path, without the graphics state's clip. */
  Region inside(Path2D path, boolean evenOdd) {
    EdgeList edges = newEdges();
    Flattener.walk(path, toSamples, Flattener.filling(edges));
    return edges.toRegion(evenOdd).intersect(base);
  }

  /** The samples under a path's stroke that the clip lets through. */
  Region under(Path2D path, PDGraphicsState state) {
    AffineTransform pen = new AffineTransform(toSamples);
    pen.concatenate(state.getCurrentTransformationMatrix().createAffineTransform());
    DashPattern dashes = DashPattern.unpack(state.getLineDashPattern());
    EdgeList edges = newEdges();
    Stroker stroker =
        new Stroker(
            edges,
            new Stroker.Pen(
                state.getLineWidth(),
                state.getLineCap(),
                state.getLineJoin(),
                Math.max(1, state.getMiterLimit()),
                dashes.lengths(),
                dashes.phase()),
            pen);
    Flattener.walk(path, toSamples, stroker);
    if (stroker.gaveUpDashes()) {
      findings.warning(
          "dashes-not-drawn", "a line with very many dashes was drawn in part without them");
    }
    return edges.isEmpty() ? Region.EMPTY : edges.toRegion(false).intersect(clip(state));
  }

  private EdgeList newEdges() {
    return new EdgeList(window.left(), window.top(), window.right(), window.bottom(), deadline);
  }

  /** Paints a region with a flat colour of the graphics state. */
  void paintFlat(
      Region region,
      CarriedColor color,
      boolean stroking,
      PDGraphicsState state,
      SoftMask mask,
      ObjectKind kind) {
    if (region.isEmpty()) {
      return;
    }
    Reach reach = color == null ? Reach.PROCESS : color.space.reach();
    if (reach.paintsNothing()) {
      return;
    }
    if (reach.isAll()) {
      beforeAll.run();
    }
    char[] row = compositor.newRow();
    boolean[] painted = inkRow(color, state, stroking, kind, row);
    compositor.paint(region, compositor.table().intern(row), mode(state, stroking, painted, mask));
  }

  /**
   * Fills a row with a flat colour, in the current layer's blending space.
   *
   * @return the slots that are painted; null for all
   */
  private boolean[] inkRow(
      CarriedColor color, PDGraphicsState state, boolean stroking, ObjectKind kind, char[] row) {
    row[StateTable.KINDS] = (char) kind.bit();
    row[StateTable.ALPHA] = Tint.FULL;
    boolean overprint = stroking ? state.isOverprint() : state.isNonStrokingOverprint();
    Layer.Blending blending = compositor.layer().blending;
    if (color == null) {
      row[StateTable.INKS + 3] = Tint.FULL;
      changeBy(transfer(state), row);
    } else if (blending == Layer.Blending.CMYK || !writeRgb(color, blending, row)) {
      color.space.ink(color.components, row);
      boolean[] painted = paintedOf(color.space.reach(), overprint, state, row);
      changeBy(transfer(state), row);
      blendSpaces.convert(row, Layer.Blending.CMYK, blending);
      return painted;
    }
    return paintedOf(color == null ? Reach.PROCESS : color.space.reach(), overprint, state, row);
  }

  private static void changeBy(Transfer transfer, char[] row) {
    if (transfer != null) {
      transfer.apply(row);
    }
  }

  /** The transfer functions that a graphics state has in force; null where it has none. */
  Transfer transfer(PDGraphicsState state) {
    COSBase stated = state.getTransfer();
    if (stated == null || stated instanceof COSName) {
      return null;
    }
    if (stated != lastTransferStated) {
      lastTransferStated = stated;
      try {
        lastTransfer = Transfer.of(stated);
      } catch (IOException | RuntimeException e) {
        lastTransfer = null; // StateParameters has said so
      }
    }
    return lastTransfer;
  }

  private boolean[] paintedOf(Reach reach, boolean overprint, PDGraphicsState state, char[] row) {
    return overprint
        ? reach.paintedSlots(row, row.length - StateTable.INKS, state.getOverprintMode() == 1)
        : null;
  }

  private static boolean writeRgb(CarriedColor color, Layer.Blending blending, char[] row) {
    float[] rgb = new float[3];
    if (!color.space.rgb(color.components, rgb)) {
      return false;
    }
    if (blending == Layer.Blending.RGB) {
      BlendSpaces.writeRgb(row, rgb);
    } else {
      BlendSpaces.writeGray(row, rgb);
    }
    return true;
  }

  /** How the graphics state puts an object on what is there. */
  Compositor.Mode mode(PDGraphicsState state, boolean stroking, boolean[] painted, SoftMask mask) {
    double alpha = stroking ? state.getAlphaConstant() : state.getNonStrokeAlphaConstant();
    Blend blend = Blend.ofPdfName(state.getBlendMode().getCOSName().getName());
    return new Compositor.Mode(
        painted, Tint.ofFraction(alpha), blend == null ? Blend.NORMAL : blend, mask);
  }

  /** The slots that an image or shading of a space paints under the state's overprint. */
  boolean[] paintedByComputed(SourceSpace space, boolean stroking, PDGraphicsState state) {
    if (!(stroking ? state.isOverprint() : state.isNonStrokingOverprint())) {
      return null;
    }
    char[] row = compositor.newRow();
    return space.reach().paintedSlots(row, row.length - StateTable.INKS, false);
  }

  /** The transform from a space under the current matrix to samples. */
  AffineTransform toSamples(PDGraphicsState state) {
    AffineTransform transform = new AffineTransform(toSamples);
    Matrix matrix = state.getCurrentTransformationMatrix();
    transform.concatenate(matrix.createAffineTransform());
    return transform;
  }

  static CarriedColor carried(PDColor color) {
    return CarriedColor.of(color);
  }
}
