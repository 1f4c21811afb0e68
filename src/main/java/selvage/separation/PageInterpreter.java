package selvage.separation;

import java.awt.geom.Path2D;
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
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDResources;

/**
 * Reads a content stream and calls {@link PageArtist} for what it paints. PDFBox's engine parses,
 * keeps the graphics state and shows text; paths, colours, images and marked content are taken
 * here, so that nothing is skipped without a finding.
 */
abstract class PageInterpreter extends PDFStreamEngine {
  private final PageScope scope;
  private final PathOperators paths;
  private final StateOperators states;
  private final ColorOperators colors;
  private final MarkedContent content;

  PageInterpreter(PageScope scope) {
    this.scope = scope;
    this.paths = new PathOperators(this);
    this.states = new StateOperators(this);
    this.colors = new ColorOperators(this);
    this.content = new MarkedContent(scope);
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
    return content.isHidden();
  }

  final COSDictionary resourceDictionary() {
    PDResources resources = getResources();
    return resources == null ? null : resources.getCOSObject();
  }

  @Override
  protected final void processOperator(Operator operator, List<COSBase> operands)
      throws IOException {
    scope.countOperator();
    colors.applyLocked();
    String name = operator.getName();
    try {
      if (!paths.take(name, operands)
          && !states.take(name, operands)
          && !colors.take(name, operands)
          && !content.take(name, operands, resourceDictionary())
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

  private boolean objects(Operator operator, List<COSBase> operands) throws IOException {
    switch (operator.getName()) {
      case "Do" -> {
        COSName name = Operands.name(operands);
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
        COSName name = Operands.name(operands);
        if (!isHidden()) {
          paintShading(name);
        }
      }
      case "Tf" -> setFont(operator, operands);
      default -> {
        return false;
      }
    }
    return true;
  }

  private void setFont(Operator operator, List<COSBase> operands) throws IOException {
    Place.Resource named =
        Place.Resource.of(resourceDictionary(), COSName.FONT, Operands.name(operands));
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

  final ColorOperators colors() {
    return colors;
  }

  /** Whether the content may choose colours; not in an uncoloured glyph or pattern cell. */
  final boolean isColorAllowed() {
    return colors.isAllowed();
  }

  final MarkedContent content() {
    return content;
  }
}
