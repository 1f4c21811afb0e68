package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.NoninvertibleTransformException;
import java.awt.geom.Path2D;
import java.io.IOException;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.util.Matrix;
import selvage.ink.Tint;

/** Paints shadings of all seven types, by {@code sh} and as patterns. */
final class ShadingPainter {
  private static final int MOST_MESH_BYTES = 64 << 20;

  private final PageArtist artist;

  ShadingPainter(PageArtist artist) {
    this.artist = artist;
  }

  /** Paints a shading under the current matrix, over a region. */
  void paint(Region region, COSDictionary shading) throws IOException {
    paint(
        region,
        shading,
        artist.getGraphicsState().getCurrentTransformationMatrix(),
        false,
        false,
        ObjectKind.SHADING);
  }

  /** Paints a region with a shading pattern. */
  void paintPattern(Region region, COSDictionary pattern, boolean stroking, ObjectKind kind)
      throws IOException {
    if (!(pattern.getDictionaryObject(COSName.SHADING) instanceof COSDictionary shading)) {
      throw new IOException("a shading pattern without its shading");
    }
    Matrix matrix =
        Matrix.concatenate(
            artist.getInitialMatrix(),
            Matrix.createMatrix(pattern.getDictionaryObject(COSName.MATRIX)));
    paint(region, shading, matrix, stroking, true, kind);
  }

  private void paint(
      Region region,
      COSDictionary shading,
      Matrix matrix,
      boolean stroking,
      boolean isPattern,
      ObjectKind kind)
      throws IOException {
    if (region.isEmpty()) {
      return;
    }
    COSBase stated = shading.getDictionaryObject(COSName.COLORSPACE, COSName.CS);
    if (stated == null) {
      throw new IOException("a shading without a colour space");
    }
    SourceSpace space = artist.scope().spaces().read(stated, artist.resourceDictionary());
    if (space.reach().paintsNothing() || space instanceof PatternSpace) {
      return;
    }
    if (space.reach().isAll()) {
      artist.scope().learnAllColorants();
    }
    Painter painter = artist.painter();
    AffineTransform toSamples = painter.toSamples();
    toSamples.concatenate(matrix.createAffineTransform());
    Region inside = withinBox(region, shading, matrix);
    PDGraphicsState state = artist.getGraphicsState();
    SoftMask mask = artist.mask();
    boolean[] painted = painter.paintedByComputed(space, stroking, state);
    Compositor.Mode mode = painter.mode(state, stroking, painted, mask);
    ObjectKind own = artist.override() == null ? kind : artist.override();
    ColorStates states =
        new ColorStates(
            space,
            painter.compositor(),
            artist.scope().blendSpaces(),
            painter.transfer(state),
            own);
    COSArray background = shading.getCOSArray(COSName.BACKGROUND);
    if (!isPattern || background == null || background.size() < space.components()) {
      paintShading(shading, inside, states, toSamples, mode);
      return;
    }
    // Background and shading are one object, which is lightened and blended as a whole.
    Compositor compositor = painter.compositor();
    compositor.beginGroup(region.boundsWith(region), true, false, compositor.layer().blending);
    Layer layer;
    try {
      Compositor.Mode plain = new Compositor.Mode(null, Tint.FULL, Blend.NORMAL, null);
      compositor.paint(region, states.of(background.toFloatArray()), plain);
      paintShading(shading, inside, states, toSamples, plain);
    } finally {
      layer = compositor.endGroup();
    }
    compositor.paintGroup(layer, region, mode);
  }

  private void paintShading(
      COSDictionary shading,
      Region inside,
      ColorStates states,
      AffineTransform toSamples,
      Compositor.Mode mode)
      throws IOException {
    Painter painter = artist.painter();
    int type = shading.getInt(COSName.SHADING_TYPE);
    switch (type) {
      case 1, 2, 3 ->
          painter.compositor().paint(inside, points(type, shading, states, toSamples), mode);
      case 4, 5, 6, 7 -> {
        if (!inside.isEmpty()) {
          MeshRaster raster = mesh(type, shading, states, toSamples, inside);
          painter.compositor().paint(inside, raster, mode);
        }
      }
      default -> throw new IOException("a shading of the unknown type " + type);
    }
  }

  private Region withinBox(Region region, COSDictionary shading, Matrix matrix) {
    COSArray stated = shading.getCOSArray(COSName.BBOX);
    if (stated == null || stated.size() < 4) {
      return region;
    }
    float[] box = stated.toFloatArray();
    Path2D path = new Path2D.Double();
    path.moveTo(box[0], box[1]);
    path.lineTo(box[2], box[1]);
    path.lineTo(box[2], box[3]);
    path.lineTo(box[0], box[3]);
    path.closePath();
    path.transform(matrix.createAffineTransform());
    return artist.painter().inside(path, false).intersect(region);
  }

  private RowSource points(
      int type, COSDictionary shading, ColorStates states, AffineTransform toSamples)
      throws IOException {
    PointShading points = PointShading.of(type, shading, states);
    AffineTransform back;
    try {
      back = toSamples.createInverse();
    } catch (NoninvertibleTransformException e) {
      throw new IOException("a shading on a line or a point", e);
    }
    double a = back.getScaleX();
    double b = back.getShearY();
    double c = back.getShearX();
    double d = back.getScaleY();
    double e = back.getTranslateX();
    double f = back.getTranslateY();
    return new RowSource() {
      @Override
      public boolean hasAlpha() {
        return false;
      }

      @Override
      public void row(int y, int x0, int x1, int[] out, char[] alphas) {
        artist.scope().checkTime();
        for (int x = x0; x < x1; x++) {
          double px = x + 0.5;
          double py = y + 0.5;
          out[x - x0] = points.at(a * px + c * py + e, b * px + d * py + f);
        }
      }
    };
  }

  private MeshRaster mesh(
      int type, COSDictionary shading, ColorStates states, AffineTransform toSamples, Region region)
      throws IOException {
    if (!(shading instanceof COSStream stream)) {
      throw new IOException("a mesh shading that is no stream");
    }
    byte[] data = StreamBytes.first(stream, MOST_MESH_BYTES);
    ShadingFunctions functions = ShadingFunctions.of(shading, states.space().components());
    int components = functions == null ? states.space().components() : 1;
    MeshReader reader = new MeshReader(data, shading, components);
    float[] decode = shading.getCOSArray(COSName.DECODE).toFloatArray();
    float[] range = new float[2 * components];
    System.arraycopy(decode, 4, range, 0, range.length);
    ParametricStates ramp =
        functions == null ? null : new ParametricStates(functions, states, range[0], range[1]);
    MeshRaster raster = new MeshRaster(region, toSamples, states, ramp, range);
    new MeshShading(reader, raster, artist.scope()).draw(type, shading);
    return raster;
  }
}
