package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.GeneralPath;
import java.awt.geom.Path2D;
import java.io.IOException;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType3CharProc;
import org.apache.pdfbox.pdmodel.font.PDType3Font;
import org.apache.pdfbox.pdmodel.font.PDVectorFont;
import org.apache.pdfbox.pdmodel.graphics.blend.BlendMode;
import org.apache.pdfbox.pdmodel.graphics.form.PDTransparencyGroup;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.pdmodel.graphics.state.RenderingMode;
import org.apache.pdfbox.util.Matrix;
import org.apache.pdfbox.util.Vector;
import selvage.ink.Tint;

/** Paints what a page's content streams describe onto the compositor's layers. */
final class PageArtist extends PageInterpreter {
  /** What a glyph of a Type 3 font may unpack to. */
  private static final long MOST_GLYPH_BYTES = 16L << 20;

  private final Painter painter;
  private final ContentNesting nesting;
  private final SoftMaskMaker masks;
  private final PatternPainter patterns;
  private final ImagePainter images;
  private final ShadingPainter shadings;
  private final GlyphOutlines glyphs;
  private final TextKnockout knockout = new TextKnockout();
  private Path2D.Double textClip;
  private ObjectKind override;

  PageArtist(PageScope scope, Painter painter, ContentNesting nesting) {
    super(scope);
    this.painter = painter;
    this.nesting = nesting;
    this.glyphs = new GlyphOutlines(scope);
    this.masks = new SoftMaskMaker(this);
    this.images = new ImagePainter(this);
    this.shadings = new ShadingPainter(this);
    this.patterns = new PatternPainter(this, shadings);
  }

  Painter painter() {
    return painter;
  }

  /** Another artist of the same page, with a graphics state of its own. */
  PageArtist newChild() {
    return new PageArtist(scope(), painter, nesting);
  }

  /** Another artist of the same page, painting through another painter. */
  PageArtist newChild(Painter other) {
    return new PageArtist(scope(), other, nesting);
  }

  SoftMask mask() {
    return masks.of(getGraphicsState());
  }

  /** Reads the page itself, then its printable annotations. */
  void paintPage() throws IOException {
    processPage(scope().page());
    override = ObjectKind.ANNOTATION;
    new Annotations(this).paint();
    override = null;
  }

  /** Reads a content stream of its own, with a fresh graphics state. */
  void paintStream(PlacedStream stream) throws IOException {
    nesting.enter(stream.content());
    try {
      processChildStream(stream, scope().page());
    } finally {
      nesting.leave();
    }
  }

  private ObjectKind kind(ObjectKind kind) {
    return override == null ? kind : override;
  }

  ObjectKind override() {
    return override;
  }

  void override(ObjectKind kind) {
    override = kind;
  }

  @Override
  void fill(Path2D path, boolean evenOdd) {
    paint(painter.inside(path, evenOdd, getGraphicsState()), false, kind(ObjectKind.FILL));
  }

  @Override
  void stroke(Path2D path) {
    paint(painter.under(path, getGraphicsState()), true, kind(ObjectKind.STROKE));
  }

  @Override
  void fillAndStroke(Path2D path, boolean evenOdd) throws IOException {
    PDGraphicsState state = getGraphicsState();
    Region inside = painter.inside(path, evenOdd, state);
    Region under = painter.under(path, state);
    fillAndStroke(inside, under, kind(ObjectKind.FILL), kind(ObjectKind.STROKE));
  }

  /** Paints a filled and stroked object as one where there is transparency (11.7.4.4). */
  private void fillAndStroke(Region inside, Region under, ObjectKind fill, ObjectKind stroke)
      throws IOException {
    PDGraphicsState state = getGraphicsState();
    boolean alike = state.getAlphaConstant() == state.getNonStrokeAlphaConstant();
    boolean opaque = alike && state.getAlphaConstant() >= 1 && mask() == null;
    if (inside.isEmpty()
        || under.isEmpty()
        || (opaque && painter.mode(state, false, null, null).isPlain())) {
      paint(inside, false, fill);
      paint(under, true, stroke);
      return;
    }
    boolean overprints = alike && (state.isOverprint() || state.isNonStrokingOverprint());
    Compositor compositor = painter.compositor();
    Compositor.Mode whole =
        overprints
            ? painter.mode(state, false, null, mask())
            : new Compositor.Mode(null, Tint.FULL, Blend.NORMAL, null);
    compositor.beginGroup(
        inside.boundsWith(under), false, !overprints, compositor.layer().blending);
    saveGraphicsState();
    Layer layer;
    try {
      if (overprints) {
        PDGraphicsState within = getGraphicsState();
        within.setAlphaConstant(1);
        within.setNonStrokeAlphaConstant(1);
        within.setBlendMode(BlendMode.NORMAL);
        within.setSoftMask(null);
      }
      paint(inside, false, fill);
      paint(under, true, stroke);
    } finally {
      restoreGraphicsState();
      layer = compositor.endGroup();
    }
    compositor.paintGroup(layer, layer.region(), whole);
  }

  /** Paints a region with the current colour or pattern. */
  void paint(Region region, boolean stroking, ObjectKind kind) {
    if (region.isEmpty()) {
      return;
    }
    scope().checkTime();
    CarriedColor color = colors().current(stroking);
    if (color != null && color.pattern == null && color.space instanceof PatternSpace) {
      scope()
          .findings()
          .warning(
              "pattern-skipped",
              scope().where() + ": what is painted with a pattern has none and was skipped");
    } else if (color != null && color.pattern != null) {
      patterns.paint(region, color, stroking, kind);
    } else {
      painter.paintFlat(region, color, stroking, getGraphicsState(), mask(), kind);
    }
  }

  @Override
  public void beginText() {
    textClip = null;
    knockout.begin();
  }

  private boolean knocksOut(PDGraphicsState state) {
    return state.getTextState().getKnockoutFlag()
        && !painter.mode(state, false, null, mask()).isPlain();
  }

  @Override
  public void endText() {
    if (textClip != null) {
      textClip.setWindingRule(Path2D.WIND_NON_ZERO);
      getGraphicsState().intersectClippingPath(new GeneralPath(textClip));
      textClip = null;
    }
  }

  @Override
  protected void showFontGlyph(Matrix textMatrix, PDFont font, int code, Vector displacement)
      throws IOException {
    scope().checkTime();
    if (!(font instanceof PDVectorFont vectorFont)) {
      throw new IOException(GlyphOutlines.described(font) + " has no outlines");
    }
    Path2D outline = glyphs.of(font, vectorFont, code);
    AffineTransform place = textMatrix.createAffineTransform();
    place.concatenate(font.getFontMatrix().createAffineTransform());
    if (!font.isEmbedded()
        && !font.isVertical()
        && !font.isStandard14()
        && font.hasExplicitWidth(code)) {
      // A substituted glyph is set as wide as the job says.
      float own = font.getWidthFromFont(code);
      if (displacement.getX() > 0 && own > 0) {
        place.scale(displacement.getX() * 1000 / own, 1);
      }
    }
    PDGraphicsState state = getGraphicsState();
    RenderingMode mode = state.getTextState().getRenderingMode();
    Path2D placed = new Path2D.Double(outline, place);
    if (!isHidden()) {
      ObjectKind kind = kind(ObjectKind.TEXT);
      Region inside = mode.isFill() ? painter.inside(placed, false, state) : Region.EMPTY;
      Region under = mode.isStroke() ? painter.under(placed, state) : Region.EMPTY;
      if (mode.isFill() && !mode.isStroke() && knocksOut(state)) {
        inside = knockout.rest(inside, colors().current(false));
      }
      fillAndStroke(inside, under, kind, kind);
    }
    if (mode.isClip()) {
      if (textClip == null) {
        textClip = new Path2D.Double();
      }
      textClip.append(placed, false);
    }
  }

  @Override
  protected void showType3Glyph(Matrix textMatrix, PDType3Font font, int code, Vector displacement)
      throws IOException {
    RenderingMode mode = getGraphicsState().getTextState().getRenderingMode();
    if (isHidden() || mode == RenderingMode.NEITHER || mode == RenderingMode.NEITHER_CLIP) {
      return;
    }
    PDType3CharProc glyph = font.getCharProc(code);
    if (glyph == null) {
      glyphs.noteMissing(font);
      return;
    }
    within(
        Place.numbered("glyph", glyph.getCOSObject()),
        "glyph-not-drawn",
        () -> showType3Glyph(glyph, textMatrix));
  }

  private void showType3Glyph(PDType3CharProc glyph, Matrix textMatrix) throws IOException {
    StreamBytes.check(glyph.getCOSObject(), MOST_GLYPH_BYTES);
    nesting.enter(glyph.getCOSObject());
    ObjectKind before = override;
    override = kind(ObjectKind.TEXT);
    try {
      processType3Stream(glyph, textMatrix);
    } finally {
      override = before;
      nesting.leave();
    }
  }

  @Override
  void paintXObject(COSName name) throws IOException {
    Place.Resource named = Place.Resource.of(resourceDictionary(), COSName.XOBJECT, name);
    if (!(named.object() instanceof COSStream stream)) {
      throw new IOException("the " + named.described("object") + " is not there");
    }
    if (scope().optionalContent().isHidden(stream.getCOSDictionary(COSName.OC))) {
      return;
    }
    String type = stream.getNameAsString(COSName.SUBTYPE);
    if ("Image".equals(type)) {
      within(
          named.described("image"),
          "image-not-decoded",
          () -> {
            ProxyDoubts.note(stream, scope());
            images.paint(stream, isColorAllowed());
          });
    } else if ("Form".equals(type)) {
      within(
          named.described("form"),
          "form-skipped",
          () -> {
            ProxyDoubts.note(stream, scope());
            paintForm(stream);
          });
    } else {
      throw new IOException(
          "the " + named.described("object") + " is neither image nor form, but " + type);
    }
  }

  private void paintForm(COSStream stream) throws IOException {
    nesting.enter(stream);
    MarkedContent.Depth depth = content().save();
    try {
      COSDictionary attributes = stream.getCOSDictionary(COSName.GROUP);
      if (attributes != null && "Transparency".equals(attributes.getNameAsString(COSName.S))) {
        paintGroup(new WatchedForm(stream, scope()), attributes);
      } else {
        showForm(new WatchedForm(stream, scope()));
      }
    } finally {
      content().restore(depth);
      nesting.leave();
    }
  }

  private void paintGroup(PDTransparencyGroup form, COSDictionary attributes) throws IOException {
    scope().checkTime();
    PDGraphicsState state = getGraphicsState();
    SoftMask mask = mask();
    Compositor compositor = painter.compositor();
    Compositor.Mode mode = painter.mode(state, false, null, mask);
    boolean isolated = attributes.getBoolean(COSName.I, false);
    boolean knockout = attributes.getBoolean(COSName.K, false);
    Layer parent = compositor.layer();
    PDResources formResources = form.getResources();
    COSDictionary resources =
        formResources == null ? resourceDictionary() : formResources.getCOSObject();
    Layer.Blending blending =
        isolated ? GroupSpaces.blending(attributes, resources, parent.blending) : parent.blending;
    boolean bare = mode.isPlain() && !parent.knockout && !knockout && blending == parent.blending;
    if (bare && (!isolated || !TransparencyScan.depositsDependOnBackdrop(resources))) {
      showTransparencyGroup(form);
      return;
    }
    Region clip = painter.clip(state);
    Region box =
        form.getBBox() == null
            ? clip
            : painter.inside(
                form.getBBox()
                    .transform(
                        Matrix.concatenate(
                            state.getCurrentTransformationMatrix(), form.getMatrix())),
                false,
                state);
    if (box.isEmpty()) {
      return;
    }
    compositor.beginGroup(
        new PageGeometry.Window(box.left(), box.top(), box.right(), box.bottom()),
        isolated,
        knockout,
        blending);
    Layer layer;
    try {
      showTransparencyGroup(form);
    } finally {
      layer = compositor.endGroup();
    }
    compositor.paintGroup(layer, box, mode);
  }

  @Override
  void paintInlineImage(COSDictionary parameters, byte[] data) {
    within(
        "inline image",
        "image-not-decoded",
        () -> images.paintInline(parameters, data, isColorAllowed()));
  }

  @Override
  void paintShading(COSName name) throws IOException {
    Place.Resource named = Place.Resource.of(resourceDictionary(), COSName.SHADING, name);
    if (!(named.object() instanceof COSDictionary shading)) {
      throw new IOException("the " + named.described("shading") + " is not there");
    }
    within(
        named.described("shading"),
        "shading-skipped",
        () -> shadings.paint(painter.clip(getGraphicsState()), shading));
  }
}
