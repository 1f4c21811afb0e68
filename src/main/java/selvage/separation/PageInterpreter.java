package selvage.separation;

import java.awt.geom.GeneralPath;
import java.awt.geom.Path2D;
import java.awt.geom.Point2D;
import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.contentstream.PDFStreamEngine;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.contentstream.operator.state.SetMatrix;
import org.apache.pdfbox.contentstream.operator.text.BeginText;
import org.apache.pdfbox.contentstream.operator.text.EndText;
import org.apache.pdfbox.contentstream.operator.text.MoveText;
import org.apache.pdfbox.contentstream.operator.text.MoveTextSetLeading;
import org.apache.pdfbox.contentstream.operator.text.NextLine;
import org.apache.pdfbox.contentstream.operator.text.SetCharSpacing;
import org.apache.pdfbox.contentstream.operator.text.SetFontAndSize;
import org.apache.pdfbox.contentstream.operator.text.SetTextHorizontalScaling;
import org.apache.pdfbox.contentstream.operator.text.SetTextLeading;
import org.apache.pdfbox.contentstream.operator.text.SetTextRenderingMode;
import org.apache.pdfbox.contentstream.operator.text.SetTextRise;
import org.apache.pdfbox.contentstream.operator.text.SetWordSpacing;
import org.apache.pdfbox.contentstream.operator.text.ShowText;
import org.apache.pdfbox.contentstream.operator.text.ShowTextAdjusted;
import org.apache.pdfbox.contentstream.operator.text.ShowTextLine;
import org.apache.pdfbox.contentstream.operator.text.ShowTextLineAndSpace;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSNumber;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.util.Matrix;

/**
 * Reads a content stream and calls {@link PageArtist} for what it paints. PDFBox's engine parses,
 * keeps the graphics state and shows text; paths, colours, images and marked content are taken
 * here, so that nothing is skipped without a finding.
 */
abstract class PageInterpreter extends PDFStreamEngine {
  private static final int NO_CLIP = -1;
  private static final int MOST_SAVED_STATES = 4_000;
  private static final int MOST_CLIPS = 10_000;
  private static final int MOST_DASHES = 1_000;

  private final Path2D.Double path = new Path2D.Double();
  private int pendingClip = NO_CLIP;
  private int hiddenDepth;
  private int contentDepth;
  private int unsavedStates;
  private final PageScope scope;
  private CarriedColor lockedColor;
  private boolean colorPending;

  PageInterpreter(PageScope scope) {
    this.scope = scope;
    addOperator(new BeginText(this));
    addOperator(new EndText(this));
    addOperator(new StateParameters(this, scope));
    addOperator(new NextLine(this));
    addOperator(new SetCharSpacing(this));
    addOperator(new MoveText(this));
    addOperator(new MoveTextSetLeading(this));
    addOperator(new SetFontAndSize(this));
    addOperator(new ShowText(this));
    addOperator(new ShowTextAdjusted(this));
    addOperator(new SetTextLeading(this));
    addOperator(new SetMatrix(this));
    addOperator(new SetTextRenderingMode(this));
    addOperator(new SetTextRise(this));
    addOperator(new SetWordSpacing(this));
    addOperator(new SetTextHorizontalScaling(this));
    addOperator(new ShowTextLine(this));
    addOperator(new ShowTextLineAndSpace(this));
  }

  final PageScope scope() {
    return scope;
  }

  /** Fills the path. */
  abstract void fill(Path2D path, boolean evenOdd);

  /** Strokes the path. */
  abstract void stroke(Path2D path);

  /** Fills and strokes the path as one object. */
  abstract void fillAndStroke(Path2D path, boolean evenOdd) throws IOException;

  /** Paints an XObject of the current resources. */
  abstract void paintXObject(COSName name) throws IOException;

  /** Paints an inline image. */
  abstract void paintInlineImage(COSDictionary parameters, byte[] data) throws IOException;

  /** Paints a shading over the clip. */
  abstract void paintShading(COSName name) throws IOException;

  /** Whether what is painted now belongs to hidden optional content. */
  final boolean isHidden() {
    return hiddenDepth > 0;
  }

  final COSDictionary resourceDictionary() {
    PDResources resources = getResources();
    return resources == null ? null : resources.getCOSObject();
  }

  @Override
  protected final void processOperator(Operator operator, List<COSBase> operands)
      throws IOException {
    scope.countOperator();
    if (colorPending) {
      colorPending = false;
      PDGraphicsState state = getGraphicsState();
      state.setStrokingColor(lockedColor.toPdColor());
      state.setNonStrokingColor(lockedColor.toPdColor());
    }
    String name = operator.getName();
    try {
      if (!paths(name, operands)
          && !state(name, operands)
          && !colors(name, operands)
          && !objects(operator, operands)) {
        TextOperands.check(name, operands);
        super.processOperator(operator, operands);
      }
    } catch (ContentLimits.PassedException e) {
      throw e;
    } catch (IOException | RuntimeException | StackOverflowError e) {
      failed(name, e);
    }
  }

  /** Work on one object of the page. */
  interface Work {
    void run() throws IOException;
  }

  /**
   * Does work on an object; where it fails, the finding says on which.
   *
   * @param object in words, with its number
   * @param code of the finding
   */
  final void within(String object, String code, Work work) {
    scope.enter(object);
    try {
      work.run();
    } catch (ContentLimits.PassedException e) {
      throw e;
    } catch (IOException | RuntimeException | StackOverflowError e) {
      scope.findings().warning(code, scope.where() + " was skipped: " + Reason.of(e));
    } finally {
      scope.leave();
    }
  }

  private void failed(String operator, Throwable e) {
    scope
        .findings()
        .warning(
            "operator-skipped",
            scope.where() + ": the operator " + operator + " was skipped: " + Reason.of(e));
  }

  @Override
  protected final void unsupportedOperator(Operator operator, List<COSBase> operands) {
    scope
        .findings()
        .warning(
            "operator-unknown",
            scope.where() + ": the operator " + printable(operator.getName()) + " is not known");
  }

  @Override
  protected final void operatorException(
      Operator operator, List<COSBase> operands, IOException exception) {
    failed(operator.getName(), exception);
  }

  private static String printable(String name) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < Math.min(12, name.length()); i++) {
      char c = name.charAt(i);
      text.append(c > ' ' && c < 127 ? c : '?');
    }
    return text.toString();
  }

  private static double number(List<COSBase> operands, int index) throws IOException {
    if (index < operands.size() && operands.get(index) instanceof COSNumber number) {
      return number.floatValue();
    }
    throw new IOException("operand " + (index + 1) + " is missing or no number");
  }

  private Point2D.Double point(List<COSBase> operands, int index) throws IOException {
    return transformed(number(operands, index), number(operands, index + 1));
  }

  private Point2D.Double transformed(double x, double y) {
    Matrix m = getGraphicsState().getCurrentTransformationMatrix();
    return new Point2D.Double(
        x * m.getScaleX() + y * m.getShearX() + m.getTranslateX(),
        x * m.getShearY() + y * m.getScaleY() + m.getTranslateY());
  }

  private boolean paths(String name, List<COSBase> operands) throws IOException {
    switch (name) {
      case "m" -> {
        Point2D.Double p = point(operands, 0);
        path.moveTo(p.x, p.y);
      }
      case "l" -> {
        Point2D.Double p = point(operands, 0);
        if (path.getCurrentPoint() == null) {
          path.moveTo(p.x, p.y);
        } else {
          path.lineTo(p.x, p.y);
        }
      }
      case "c" -> curve(point(operands, 0), point(operands, 2), point(operands, 4));
      case "v" -> curve(null, point(operands, 0), point(operands, 2));
      case "y" -> curve(point(operands, 0), point(operands, 2), point(operands, 2));
      case "h" -> {
        if (path.getCurrentPoint() != null) {
          path.closePath();
        }
      }
      case "re" -> rectangle(operands);
      case "S" -> paintPath(false, false, true);
      case "s" -> {
        closePath();
        paintPath(false, false, true);
      }
      case "f", "F" -> paintPath(true, false, false);
      case "f*" -> paintPath(true, true, false);
      case "B" -> paintPath(true, false, true);
      case "B*" -> paintPath(true, true, true);
      case "b" -> {
        closePath();
        paintPath(true, false, true);
      }
      case "b*" -> {
        closePath();
        paintPath(true, true, true);
      }
      case "n" -> paintPath(false, false, false);
      case "W" -> pendingClip = Path2D.WIND_NON_ZERO;
      case "W*" -> pendingClip = Path2D.WIND_EVEN_ODD;
      default -> {
        return false;
      }
    }
    return true;
  }

  private void closePath() {
    if (path.getCurrentPoint() != null) {
      path.closePath();
    }
  }

  private void curve(Point2D.Double a, Point2D.Double b, Point2D.Double c) {
    Point2D current = path.getCurrentPoint();
    if (current == null) {
      path.moveTo(c.x, c.y);
    } else if (a == null) {
      path.curveTo(current.getX(), current.getY(), b.x, b.y, c.x, c.y);
    } else {
      path.curveTo(a.x, a.y, b.x, b.y, c.x, c.y);
    }
  }

  private void rectangle(List<COSBase> operands) throws IOException {
    double x = number(operands, 0);
    double y = number(operands, 1);
    double w = number(operands, 2);
    double h = number(operands, 3);
    Point2D.Double p = transformed(x, y);
    path.moveTo(p.x, p.y);
    p = transformed(x + w, y);
    path.lineTo(p.x, p.y);
    p = transformed(x + w, y + h);
    path.lineTo(p.x, p.y);
    p = transformed(x, y + h);
    path.lineTo(p.x, p.y);
    path.closePath();
  }

  private void checkClips() throws IOException {
    if (getGraphicsState().getCurrentClippingPaths().size() >= MOST_CLIPS) {
      throw new IOException("a clip of more than " + MOST_CLIPS + " paths");
    }
  }

  private void paintPath(boolean fill, boolean evenOdd, boolean stroke) throws IOException {
    try {
      paintOpenPath(fill, evenOdd, stroke);
    } finally {
      path.reset();
      pendingClip = NO_CLIP;
    }
  }

  private void paintOpenPath(boolean fill, boolean evenOdd, boolean stroke) throws IOException {
    if (path.getCurrentPoint() != null) {
      if (!isHidden()) {
        if (fill && stroke) {
          fillAndStroke(path, evenOdd);
        } else if (fill) {
          fill(path, evenOdd);
        } else if (stroke) {
          stroke(path);
        }
      }
      if (pendingClip != NO_CLIP) {
        checkClips();
        path.setWindingRule(pendingClip);
        getGraphicsState().intersectClippingPath(new GeneralPath(path));
      }
    }
  }

  private boolean state(String name, List<COSBase> operands) throws IOException {
    PDGraphicsState state = getGraphicsState();
    switch (name) {
      case "q" -> {
        if (getGraphicsStackSize() <= MOST_SAVED_STATES) {
          saveGraphicsState();
        } else if (unsavedStates++ == 0) {
          scope
              .findings()
              .warning(
                  "too-many-q",
                  scope.where()
                      + ": more than "
                      + MOST_SAVED_STATES
                      + " graphics states are saved; further ones are not");
        }
      }
      case "Q" -> {
        if (getGraphicsStackSize() > MOST_SAVED_STATES && unsavedStates > 0) {
          unsavedStates--;
        } else if (getGraphicsStackSize() > 1) {
          restoreGraphicsState();
        } else {
          scope.findings().note("unbalanced-q", scope.where() + ": Q without q");
        }
      }
      case "cm" ->
          state
              .getCurrentTransformationMatrix()
              .concatenate(
                  new Matrix(
                      (float) number(operands, 0),
                      (float) number(operands, 1),
                      (float) number(operands, 2),
                      (float) number(operands, 3),
                      (float) number(operands, 4),
                      (float) number(operands, 5)));
      case "w" -> state.setLineWidth((float) number(operands, 0));
      case "J" -> state.setLineCap(choice(number(operands, 0)));
      case "j" -> state.setLineJoin(choice(number(operands, 0)));
      case "M" -> state.setMiterLimit((float) number(operands, 0));
      case "d" -> {
        if (operands.isEmpty() || !(operands.get(0) instanceof COSArray dashes)) {
          throw new IOException("operand 1 is missing or no array");
        }
        if (dashes.size() > MOST_DASHES) {
          throw new IOException("a dash pattern of " + dashes.size() + " lengths");
        }
        state.setLineDashPattern(
            DashPattern.pack(dashes, operands.size() > 1 ? number(operands, 1) : 0));
      }
      case "i", "ri", "BX", "EX", "MP", "DP", "d0", "d1" -> {
        // Flatness, intent and compatibility leave the ink as it is; d1 is read by the engine.
      }
      default -> {
        return false;
      }
    }
    return true;
  }

  private static int choice(double value) {
    return value == 1 || value == 2 ? (int) value : 0;
  }

  private boolean colors(String name, List<COSBase> operands) throws IOException {
    boolean stroking = Character.isUpperCase(name.charAt(0));
    switch (name) {
      case "g", "G" -> set(stroking, scope.spaces().gray(resourceDictionary()), operands);
      case "rg", "RG" -> set(stroking, scope.spaces().rgb(resourceDictionary()), operands);
      case "k", "K" -> set(stroking, scope.spaces().cmyk(resourceDictionary()), operands);
      case "cs", "CS" -> {
        if (operands.isEmpty()) {
          throw new IOException("no colour space is named");
        }
        setColor(
            stroking,
            CarriedColor.initial(scope.spaces().read(operands.get(0), resourceDictionary())));
      }
      case "sc", "SC", "scn", "SCN" -> {
        CarriedColor current = current(stroking);
        SourceSpace space =
            current == null ? scope.spaces().gray(resourceDictionary()) : current.space;
        set(stroking, space, operands);
      }
      default -> {
        return false;
      }
    }
    return true;
  }

  final CarriedColor current(boolean stroking) {
    PDGraphicsState state = getGraphicsState();
    return CarriedColor.of(stroking ? state.getStrokingColor() : state.getNonStrokingColor());
  }

  private void set(boolean stroking, SourceSpace space, List<COSBase> operands) throws IOException {
    COSBase pattern = null;
    int count = operands.size();
    if (count > 0 && operands.get(count - 1) instanceof COSName name) {
      Place.Resource named = Place.Resource.of(resourceDictionary(), COSName.PATTERN, name);
      pattern = named.object();
      if (pattern == null) {
        throw new IOException("the " + named.described("pattern") + " is not there");
      }
      count--;
    }
    if (pattern == null && space instanceof PatternSpace) {
      throw new IOException("a colour in a Pattern space names no pattern");
    }
    float[] components = new float[Math.max(count, space.components())];
    if (pattern == null && count < space.components()) {
      throw new IOException(
          "a colour of " + count + " components where " + space.components() + " are needed");
    }
    for (int i = 0; i < count; i++) {
      components[i] = (float) number(operands, i);
    }
    setColor(stroking, new CarriedColor(space, components, pattern));
  }

  private void setColor(boolean stroking, CarriedColor color) {
    if (!isColorAllowed()) {
      return;
    }
    PDGraphicsState state = getGraphicsState();
    if (stroking) {
      state.setStrokingColorSpace(color);
      state.setStrokingColor(color.toPdColor());
    } else {
      state.setNonStrokingColorSpace(color);
      state.setNonStrokingColor(color.toPdColor());
    }
  }

  private boolean objects(Operator operator, List<COSBase> operands) throws IOException {
    switch (operator.getName()) {
      case "Do" -> {
        COSName name = name(operands);
        if (!isHidden()) {
          paintXObject(name);
        }
      }
      case "BI" -> {
        if (operator.getImageData() == null) {
          throw new IOException("it has no data");
        }
        if (!isHidden()) {
          paintInlineImage(operator.getImageParameters(), operator.getImageData());
        }
      }
      case "sh" -> {
        COSName name = name(operands);
        if (!isHidden()) {
          paintShading(name);
        }
      }
      case "Tf" -> setFont(operator, operands);
      case "BMC" -> contentBegins(null);
      case "BDC" -> {
        boolean optional =
            operands.size() > 1
                && operands.get(0) instanceof COSName tag
                && tag.getName().equals("OC");
        contentBegins(optional ? properties(operands.get(1)) : null);
      }
      case "EMC" -> contentEnds();
      default -> {
        return false;
      }
    }
    return true;
  }

  private static COSName name(List<COSBase> operands) throws IOException {
    if (!operands.isEmpty() && operands.get(0) instanceof COSName name) {
      return name;
    }
    throw new IOException("operand 1 is missing or no name");
  }

  private void setFont(Operator operator, List<COSBase> operands) throws IOException {
    Place.Resource named = Place.Resource.of(resourceDictionary(), COSName.FONT, name(operands));
    String place = named.described("font");
    if (!(named.object() instanceof COSDictionary font)) {
      scope
          .findings()
          .warning(
              "font-missing", scope.where() + ": the " + place + " is not there; another is taken");
      super.processOperator(operator, operands);
      return;
    }
    within(
        place,
        "font-not-read",
        () -> {
          scope.fonts().check(font);
          super.processOperator(operator, operands);
        });
  }

  @Override
  protected final void showText(byte[] string) throws IOException {
    if (getGraphicsState().getTextState().getFont() == null) {
      scope
          .findings()
          .warning("font-missing", scope.where() + ": text is shown without a font; one is taken");
    }
    super.showText(string);
  }

  private COSDictionary properties(COSBase operand) {
    if (operand instanceof COSDictionary dictionary) {
      return dictionary;
    }
    if (operand instanceof COSName name) {
      Place.Resource named = Place.Resource.of(resourceDictionary(), COSName.PROPERTIES, name);
      if (named.object() instanceof COSDictionary dictionary) {
        return dictionary;
      }
      scope
          .findings()
          .warning(
              "layer-missing",
              scope.where()
                  + ": the "
                  + named.described("layer")
                  + " is not there; what lies on it is painted");
    }
    return null;
  }

  private void contentBegins(COSDictionary optional) {
    contentDepth++;
    if (hiddenDepth > 0 || scope.optionalContent().isHidden(optional)) {
      hiddenDepth++;
    }
  }

  private void contentEnds() {
    if (contentDepth > 0) {
      contentDepth--;
      if (hiddenDepth > 0) {
        hiddenDepth--;
      }
    }
  }

  /**
   * Holds one colour fast for all that follows, as for the cell of an uncoloured pattern.
   *
   * @param color null to let the content choose
   */
  final void lockColor(CarriedColor color) {
    lockedColor = color;
    colorPending = color != null;
  }

  /** Whether the content may choose colours; not in an uncoloured glyph or pattern cell. */
  final boolean isColorAllowed() {
    return lockedColor == null && isShouldProcessColorOperators();
  }

  /** How deep marked content lies, and how deep of it is hidden. */
  record ContentDepth(int depth, int hidden) {}

  /** The depths before a form, which must not disturb those of its caller. */
  final ContentDepth saveContentDepth() {
    return new ContentDepth(contentDepth, hiddenDepth);
  }

  final void restoreContentDepth(ContentDepth saved) {
    contentDepth = saved.depth();
    hiddenDepth = saved.hidden();
  }
}
