package selvage.separation;

import java.awt.geom.AffineTransform;
import java.awt.geom.GeneralPath;
import java.awt.geom.Path2D;
import java.io.IOException;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType3CharProc;
import org.apache.pdfbox.pdmodel.font.PDType3Font;
import org.apache.pdfbox.pdmodel.font.PDVectorFont;
import org.apache.pdfbox.pdmodel.graphics.blend.BlendMode;
import org.apache.pdfbox.pdmodel.graphics.form.PDTransparencyGroup;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.pdmodel.graphics.state.RenderingMode;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotation;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAppearanceStream;
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
  private final IdentityHashMap<PDFont, Map<Integer, Path2D>> glyphs = new IdentityHashMap<>();
  private Path2D.Double textClip;
  private ObjectKind override;

  PageArtist(PageScope scope, Painter painter, ContentNesting nesting) {
    super(scope);
    this.painter = painter;
    this.nesting = nesting;
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
    processAnnotations();
  }

  private void processAnnotations() throws IOException {
    COSBase stated = scope().page().getCOSObject().getDictionaryObject(COSName.ANNOTS);
    if (stated == null) {
      return;
    }
    override = ObjectKind.ANNOTATION;
    try {
      for (PDAnnotation annotation : scope().page().getAnnotations()) {
        COSDictionary dictionary = annotation.getCOSObject();
        boolean printed = annotation.isPrinted() && !annotation.isHidden();
        if (!printed
            || "Popup".equals(annotation.getSubtype())
            || scope().optionalContent().isHidden(dictionary.getCOSDictionary(COSName.OC))) {
          continue;
        }
        paintAnnotation(annotation);
      }
    } catch (IOException | RuntimeException e) {
      passOn(e);
      scope()
          .findings()
          .warning("annotation-skipped", scope().where() + ": annotations: " + Reason.of(e));
    } finally {
      override = null;
    }
  }

  private static void passOn(Exception e) {
    if (e instanceof ContentLimits.PassedException passed) {
      throw passed;
    }
  }

  private void paintAnnotation(PDAnnotation annotation) {
    scope().enter("annotation " + annotation.getSubtype());
    try {
      PDAppearanceStream appearance = annotation.getNormalAppearanceStream();
      if (appearance != null) {
        PageArtist child = newChild();
        child.override = ObjectKind.ANNOTATION;
        child.paintAppearance(annotation, appearance);
      }
    } catch (IOException | RuntimeException e) {
      passOn(e);
      scope()
          .findings()
          .warning(
              "annotation-skipped",
              scope().where() + ": its appearance was skipped: " + Reason.of(e));
    } finally {
      scope().leave();
    }
  }

  /** Places an appearance as ISO 32000-2, 12.5.5, algorithm "appearance streams" says. */
  private void paintAppearance(PDAnnotation annotation, PDAppearanceStream appearance)
      throws IOException {
    PDRectangle box = appearance.getBBox();
    PDRectangle place = annotation.getRectangle();
    if (box == null || place == null) {
      return;
    }
    var bounds = box.transform(appearance.getMatrix()).getBounds2D();
    if (!(bounds.getWidth() > 0 && bounds.getHeight() > 0)) {
      return;
    }
    Matrix fit = Matrix.getTranslateInstance(place.getLowerLeftX(), place.getLowerLeftY());
    fit.scale(
        (float) (place.getWidth() / bounds.getWidth()),
        (float) (place.getHeight() / bounds.getHeight()));
    fit.translate((float) -bounds.getX(), (float) -bounds.getY());
    fit.concatenate(appearance.getMatrix());
    paintStream(new PlacedStream(appearance, appearance.getCOSObject(), fit, box, scope()));
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
    CarriedColor color = current(stroking);
    if (color != null && color.pattern != null) {
      patterns.paint(region, color, stroking, kind);
    } else {
      painter.paintFlat(region, color, stroking, getGraphicsState(), mask(), kind);
    }
  }

  @Override
  public void beginText() {
    textClip = null;
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
      return;
    }
    Path2D outline = glyph(font, vectorFont, code);
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
      fillAndStroke(inside, under, kind, kind);
    }
    if (mode.isClip()) {
      if (textClip == null) {
        textClip = new Path2D.Double();
      }
      textClip.append(placed, false);
    }
  }

  private Path2D glyph(PDFont font, PDVectorFont vectorFont, int code) throws IOException {
    Map<Integer, Path2D> known = glyphs.get(font);
    if (known == null) {
      known = new HashMap<>();
      glyphs.put(font, known);
      if (!font.isEmbedded()) {
        scope()
            .findings()
            .warning(
                "font-substituted",
                scope().where()
                    + ": the font "
                    + font.getName()
                    + " is not embedded; another was taken");
      }
    }
    Path2D path = known.get(code);
    if (path == null) {
      try {
        if (!vectorFont.hasGlyph(code) && code != 32 && code != 10 && code != 13) {
          scope()
              .findings()
              .note(
                  "glyph-missing",
                  scope().where() + ": the font " + font.getName() + " lacks a glyph");
        }
        path = vectorFont.getNormalizedPath(code);
      } catch (IOException | RuntimeException | StackOverflowError e) {
        scope()
            .findings()
            .warning(
                "glyph-not-drawn",
                scope().where() + ": a glyph of the font " + font.getName() + ": " + Reason.of(e));
        path = new Path2D.Double();
      }
      known.put(code, path);
    }
    return path;
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
      return;
    }
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
    COSDictionary resources = resourceDictionary();
    COSDictionary objects = resources == null ? null : resources.getCOSDictionary(COSName.XOBJECT);
    COSBase item = objects == null ? null : objects.getItem(name);
    COSBase object = item instanceof COSObject reference ? reference.getObject() : item;
    if (!(object instanceof COSStream stream)) {
      throw new IOException("the object " + name.getName() + " is not there");
    }
    if (scope().optionalContent().isHidden(stream.getCOSDictionary(COSName.OC))) {
      return;
    }
    String number =
        item instanceof COSObject reference
            ? " (object " + reference.getKey().getNumber() + ")"
            : "";
    String type = stream.getNameAsString(COSName.SUBTYPE);
    scope().enter(("Image".equals(type) ? "image " : "form ") + name.getName() + number);
    try {
      if ("Image".equals(type)) {
        images.paint(stream, isColorAllowed());
      } else if ("Form".equals(type)) {
        paintForm(stream);
      } else {
        scope()
            .findings()
            .warning(
                "object-skipped",
                scope().where() + ": an XObject of the kind " + type + " was skipped");
      }
    } finally {
      scope().leave();
    }
  }

  private void paintForm(COSStream stream) throws IOException {
    nesting.enter(stream);
    ContentDepth depth = saveContentDepth();
    try {
      COSDictionary attributes = stream.getCOSDictionary(COSName.GROUP);
      if (attributes != null && "Transparency".equals(attributes.getNameAsString(COSName.S))) {
        paintGroup(new WatchedForm(stream, scope()), attributes);
      } else {
        showForm(new WatchedForm(stream, scope()));
      }
    } finally {
      restoreContentDepth(depth);
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
  void paintInlineImage(COSDictionary parameters, byte[] data) throws IOException {
    scope().enter("inline image");
    try {
      images.paintInline(parameters, data, isColorAllowed());
    } finally {
      scope().leave();
    }
  }

  @Override
  void paintShading(COSName name) throws IOException {
    COSDictionary resources = resourceDictionary();
    COSDictionary named = resources == null ? null : resources.getCOSDictionary(COSName.SHADING);
    COSBase shading = named == null ? null : named.getDictionaryObject(name);
    if (!(shading instanceof COSDictionary dictionary)) {
      throw new IOException("the shading " + name.getName() + " is not there");
    }
    shadings.paint(painter.clip(getGraphicsState()), dictionary);
  }
}
