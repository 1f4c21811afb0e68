package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.NoninvertibleTransformException;
import java.awt.geom.Path2D;
import java.io.IOException;
import java.util.Arrays;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.graphics.image.PDInlineImage;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;

/** Paints images and stencil masks: each sample of the page takes the image sample under it. */
final class ImagePainter {
  private static final COSName SMASK_IN_DATA = COSName.getPDFName("SMaskInData");

  private final PageArtist artist;

  ImagePainter(PageArtist artist) {
    this.artist = artist;
  }

  private ImageDecoder decoder() {
    return new ImageDecoder(
        artist.scope().findings(), artist.scope().limits().imageBytes(), artist.scope().images());
  }

  /**
   * Paints an image XObject.
   *
   * @param colorAllowed false inside an uncoloured glyph or pattern, where only stencils paint
   */
  void paint(COSStream stream, boolean colorAllowed) throws IOException {
    String where = artist.scope().where();
    if (stream.getBoolean(COSName.IMAGE_MASK, false)) {
      paintStencil(decoder().decode(stream, 1, where), decodeOf(stream));
      return;
    }
    if (!colorAllowed) {
      return;
    }
    Region region = region();
    if (region.isEmpty()) {
      return;
    }
    COSBase stated = stream.getDictionaryObject(COSName.COLORSPACE);
    SourceSpace space = stated == null ? null : spaceOf(stated);
    ImageData data = decoder().decode(stream, space == null ? 0 : space.components(), where);
    int own = data.components() - (hasOpacity(stream, data) ? 1 : 0);
    if (space == null || space.components() != own) {
      space = spaceFor(own, space, where);
    }
    paintColors(region, stream, data, space);
  }

  private SourceSpace spaceOf(COSBase stated) throws IOException {
    COSDictionary resources = artist.resourceDictionary();
    SpaceReader spaces = artist.scope().spaces();
    if (stated instanceof COSName name && spaces.isMissing(name, resources)) {
      throw new IOException("its colour space " + name.getName() + " is not there");
    }
    return spaces.read(stated, resources);
  }

  /** Whether the last channel of a JPX image's data is its opacity. */
  private static boolean hasOpacity(COSDictionary image, ImageData data) {
    return image.getInt(SMASK_IN_DATA, 0) > 0
        && !image.containsKey(COSName.SMASK)
        && ImageDecoder.filters(image).contains("JPXDecode")
        && data.components() > 1;
  }

  /** The device space with as many components as the data have. */
  private SourceSpace spaceFor(int components, SourceSpace stated, String where)
      throws IOException {
    SpaceReader spaces = artist.scope().spaces();
    COSDictionary resources = artist.resourceDictionary();
    if (stated != null) {
      artist
          .scope()
          .findings()
          .warning(
              "image-components",
              where
                  + ": its data have "
                  + components
                  + " components, its colour space "
                  + stated.components());
      if (components > stated.components()) {
        return stated; // an alpha channel, say: the first components count
      }
    }
    return switch (components) {
      case 1, 2 -> spaces.gray(resources);
      case 3 -> spaces.rgb(resources);
      case 4 -> spaces.cmyk(resources);
      default -> throw new IOException("an image of " + components + " components");
    };
  }

  void paintInline(COSDictionary parameters, byte[] bytes, boolean colorAllowed)
      throws IOException {
    COSDictionary resources = artist.resourceDictionary();
    boolean mask = parameters.getBoolean(COSName.IMAGE_MASK, COSName.IM, false);
    if (!mask && !colorAllowed) {
      return;
    }
    COSBase stated = parameters.getDictionaryObject(COSName.COLORSPACE, COSName.CS);
    SpaceReader spaces = artist.scope().spaces();
    SourceSpace space = null;
    if (!mask) {
      space = stated == null ? spaces.gray(resources) : spaceOf(stated);
    }
    String where = artist.scope().where();
    ImageData data = inlineData(parameters, bytes, mask ? 1 : space.components(), where);
    if (mask) {
      paintStencil(data, decodeOf(parameters));
    } else {
      if (space.components() != data.components()) {
        space = spaceFor(data.components(), space, where);
      }
      paintColors(region(), parameters, data, space);
    }
  }

  private ImageData inlineData(COSDictionary parameters, byte[] bytes, int components, String where)
      throws IOException {
    var filters = ImageDecoder.filters(parameters);
    if (filters.size() == 1
        && (filters.get(0).equals("DCT") || filters.get(0).equals("DCTDecode"))) {
      return new JpegDecoder(artist.scope().findings(), artist.scope().limits().imageBytes())
          .decode(bytes, new COSDictionary(), where);
    }
    PDInlineImage image =
        new PDInlineImage(parameters, bytes, new PDResources(new COSDictionary()));
    return decoder().inline(parameters, components, image.getData(), where);
  }

  private static float[] decodeOf(COSDictionary dictionary) {
    COSArray array =
        dictionary.getDictionaryObject(COSName.DECODE, COSName.D) instanceof COSArray a ? a : null;
    return array == null ? new float[0] : array.toFloatArray();
  }

  /** The samples that the image's unit square covers and the clip lets through. */
  private Region region() {
    PDGraphicsState state = artist.getGraphicsState();
    AffineTransform place = state.getCurrentTransformationMatrix().createAffineTransform();
    AffineTransform samples = artist.painter().toSamples(state);
    // An image thinner than a sample is widened to one, so that it does not fall between samples.
    double u = Math.hypot(samples.getScaleX(), samples.getShearY());
    double v = Math.hypot(samples.getShearX(), samples.getScaleY());
    double du = u > 0 && u < 1 ? (1 / u - 1) / 2 : 0;
    double dv = v > 0 && v < 1 ? (1 / v - 1) / 2 : 0;
    Path2D square = new Path2D.Double();
    square.moveTo(-du, -dv);
    square.lineTo(1 + du, -dv);
    square.lineTo(1 + du, 1 + dv);
    square.lineTo(-du, 1 + dv);
    square.closePath();
    square.transform(place);
    return artist.painter().inside(square, false, state);
  }

  /** From samples of the page to those of an image. */
  private AffineTransform toImage(ImageData data) throws IOException {
    AffineTransform place = artist.painter().toSamples(artist.getGraphicsState());
    place.concatenate(new AffineTransform(1.0 / data.width(), 0, 0, -1.0 / data.height(), 0, 1));
    try {
      return place.createInverse();
    } catch (NoninvertibleTransformException e) {
      throw new IOException("an image on a line or a point", e);
    }
  }

  private void paintStencil(ImageData data, float[] decode) throws IOException {
    boolean inverted = decode.length > 0 && decode[0] >= 1;
    AffineTransform toImage = toImage(data);
    Region shape = select(region(), toImage, data, inverted ? 1 : 0);
    ObjectKind kind = artist.override() == null ? ObjectKind.IMAGE : artist.override();
    artist.paint(shape, false, kind);
  }

  /** The part of a region where a one-component image has a value. */
  private static Region select(Region region, AffineTransform toImage, ImageData data, int wanted) {
    int rows = region.bottom() - region.top();
    int[] starts = new int[rows + 1];
    int[] spans = new int[64];
    int n = 0;
    Walk walk = new Walk(toImage, data.width(), data.height());
    for (int y = region.top(); y < region.bottom(); y++) {
      for (int i = region.rowStart(y); i < region.rowEnd(y); i += 2) {
        boolean open = false;
        for (int x = region.span(i); x < region.span(i + 1); x++) {
          walk.at(x, y);
          boolean in = data.sample(walk.column, walk.row, 0) == wanted;
          if (in != open) {
            if (n == spans.length) {
              spans = Arrays.copyOf(spans, 2 * n);
            }
            spans[n++] = x;
            open = in;
          }
        }
        if (open) {
          if (n == spans.length) {
            spans = Arrays.copyOf(spans, 2 * n);
          }
          spans[n++] = region.span(i + 1);
        }
      }
      starts[y - region.top() + 1] = n;
    }
    return n == 0 ? Region.EMPTY : new Region(region.top(), starts, Arrays.copyOf(spans, n));
  }

  /** Finds the image sample under a sample of the page. */
  static final class Walk {
    private final double a;
    private final double b;
    private final double c;
    private final double d;
    private final double e;
    private final double f;
    private final int lastColumn;
    private final int lastRow;
    int column;
    int row;

    Walk(AffineTransform toImage, int width, int height) {
      a = toImage.getScaleX();
      b = toImage.getShearY();
      c = toImage.getShearX();
      d = toImage.getScaleY();
      e = toImage.getTranslateX();
      f = toImage.getTranslateY();
      lastColumn = width - 1;
      lastRow = height - 1;
    }

    void at(int x, int y) {
      double u = a * (x + 0.5) + c * (y + 0.5) + e;
      double v = b * (x + 0.5) + d * (y + 0.5) + f;
      column = u <= 0 ? 0 : u >= lastColumn ? lastColumn : (int) u;
      row = v <= 0 ? 0 : v >= lastRow ? lastRow : (int) v;
    }
  }

  private void paintColors(
      Region region, COSDictionary dictionary, ImageData data, SourceSpace space)
      throws IOException {
    if (region.isEmpty() || space.reach().paintsNothing()) {
      return;
    }
    PDGraphicsState state = artist.getGraphicsState();
    Painter painter = artist.painter();
    if (space.reach().isAll()) {
      artist.scope().learnAllColorants();
    }
    float[] decode = decodeOf(dictionary);
    if (decode.length > 0 && decode.length < 2 * space.components()) {
      artist
          .scope()
          .findings()
          .warning(
              "image-decode-skipped",
              artist.scope().where()
                  + ": its Decode array has "
                  + decode.length
                  + " numbers where "
                  + 2 * space.components()
                  + " are needed; the usual ones were taken");
    }
    ImageMask mask = mask(dictionary, data);
    boolean[] painted = painter.paintedByComputed(space, false, state);
    SoftMask soft = mask != null && mask.isSoft() ? null : artist.mask();
    ObjectKind kind = artist.override() == null ? ObjectKind.IMAGE : artist.override();
    ImageSource source =
        new ImageSource(
            data,
            new Walk(toImage(data), data.width(), data.height()),
            new ColorStates(
                space,
                painter.compositor(),
                artist.scope().blendSpaces(),
                painter.transfer(state),
                kind),
            decode,
            mask);
    painter.compositor().paint(region, source, painter.mode(state, false, painted, soft));
  }

  private ImageMask mask(COSDictionary dictionary, ImageData data) {
    String where = artist.scope().where();
    try {
      if (hasOpacity(dictionary, data)) {
        boolean blended = dictionary.getInt(SMASK_IN_DATA, 0) == 2;
        int channel = data.components() - 1;
        return ImageMask.channel(
            data,
            new Walk(toImage(data), data.width(), data.height()),
            new float[blended ? channel : 0],
            channel);
      }
      COSBase soft = dictionary.getDictionaryObject(COSName.SMASK);
      if (soft instanceof COSStream stream) {
        ImageData opacity = decoder().decode(stream, 1, where + ", soft mask");
        float[] matte =
            stream.getCOSArray(COSName.MATTE) == null
                ? new float[0]
                : stream.getCOSArray(COSName.MATTE).toFloatArray();
        return ImageMask.soft(
            opacity,
            new Walk(toImage(opacity), opacity.width(), opacity.height()),
            decodeOf(stream),
            matte);
      }
      if (soft == null && dictionary.containsKey(COSName.SMASK)) {
        throw new IOException("it is not there");
      }
      COSBase hard = dictionary.getDictionaryObject(COSName.MASK);
      if (hard instanceof COSStream stream) {
        ImageData shape = decoder().decode(stream, 1, where + ", mask");
        float[] decode = decodeOf(stream);
        return ImageMask.hard(
            shape,
            new Walk(toImage(shape), shape.width(), shape.height()),
            decode.length > 0 && decode[0] >= 1);
      }
      if (hard instanceof COSArray key && key.size() >= 2 * data.components()) {
        float[] ranges = key.toFloatArray();
        return ImageMask.colorKey(ranges);
      }
      if (dictionary.containsKey(COSName.MASK)) {
        throw new IOException(
            hard == null ? "it is not there" : "it is neither a stencil nor a key of its colours");
      }
    } catch (IOException | RuntimeException e) {
      artist
          .scope()
          .findings()
          .warning("image-mask-skipped", where + ": its mask was skipped: " + Reason.of(e));
    }
    return null;
  }
}
