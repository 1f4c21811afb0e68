package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSNumber;
import org.apache.pdfbox.cos.COSString;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotation;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAppearanceStream;
import org.apache.pdfbox.util.Matrix;

/** Paints a page's printable annotations by their appearance streams (ISO 32000-2, 12.5.5). */
final class Annotations {
  private static final String SKIPPED = "annotation-skipped";

  private final PageArtist artist;

  Annotations(PageArtist artist) {
    this.artist = artist;
  }

  void paint() {
    COSBase stated = artist.scope().page().getCOSObject().getDictionaryObject(COSName.ANNOTS);
    if (stated == null) {
      return;
    }
    if (!(stated instanceof COSArray array)) {
      warn("its annotations are no array and were skipped");
      return;
    }
    for (int i = 0; i < array.size(); i++) {
      COSBase item = array.get(i);
      if (array.getObject(i) instanceof COSDictionary annotation) {
        String kind = annotation.getNameAsString(COSName.SUBTYPE, "of no kind");
        artist.scope().enter(Place.numbered("annotation " + kind, item));
        try {
          paint(annotation, kind);
        } catch (ContentLimits.PassedException e) {
          throw e;
        } catch (IOException | RuntimeException | StackOverflowError e) {
          warn("it was skipped: " + Reason.of(e));
        } finally {
          artist.scope().leave();
        }
      } else {
        warn(Place.numbered("annotation " + (i + 1), item) + " is not there");
      }
    }
  }

  private void warn(String text) {
    artist.scope().findings().warning(SKIPPED, artist.scope().where() + ": " + text);
  }

  private void paint(COSDictionary dictionary, String kind) throws IOException {
    PDAnnotation annotation = PDAnnotation.createAnnotation(dictionary);
    if (!annotation.isPrinted()
        || annotation.isHidden()
        || kind.equals("Popup")
        || artist.scope().optionalContent().isHidden(dictionary.getCOSDictionary(COSName.OC))) {
      return;
    }
    PDRectangle place = annotation.getRectangle();
    PDAppearanceStream appearance = annotation.getNormalAppearanceStream();
    if (appearance != null) {
      paintAppearance(place, appearance);
    } else if (isMissed(dictionary, kind, place)) {
      warn("it is to be printed and has no appearance; it was skipped");
    }
  }

  /** Whether a reader would draw something where there is no appearance. */
  private static boolean isMissed(COSDictionary annotation, String kind, PDRectangle place) {
    if (place != null && !(place.getWidth() > 0 && place.getHeight() > 0)) {
      return false; // a signature that is not to be seen, say
    }
    COSDictionary appearances = annotation.getCOSDictionary(COSName.AP);
    if (appearances != null
        && appearances.getDictionaryObject(COSName.N) instanceof COSDictionary states) {
      String state = annotation.getNameAsString(COSName.AS);
      // A button that is off has nothing to show.
      return state != null && !state.equals("Off") && states.size() > 0;
    }
    if (appearances != null && appearances.containsKey(COSName.N)) {
      return true;
    }
    return switch (kind) {
      case "Link" -> hasBorder(annotation);
      case "Widget" -> hasValue(annotation);
      default -> true;
    };
  }

  private static boolean hasValue(COSDictionary field) {
    COSDictionary looks = field.getCOSDictionary(COSName.getPDFName("MK"));
    return (looks != null && (looks.containsKey(COSName.BG) || looks.containsKey(COSName.BC)))
        || (field.getDictionaryObject(COSName.V) instanceof COSString value
            && value.getBytes().length > 0);
  }

  private static boolean hasBorder(COSDictionary annotation) {
    COSDictionary style = annotation.getCOSDictionary(COSName.BS);
    if (style != null) {
      return style.getFloat(COSName.W, 1) > 0;
    }
    COSArray border = annotation.getCOSArray(COSName.BORDER);
    return border == null
        || border.size() < 3
        || (border.getObject(2) instanceof COSNumber width && width.floatValue() > 0);
  }

  private void paintAppearance(PDRectangle place, PDAppearanceStream appearance)
      throws IOException {
    PDRectangle box = appearance.getBBox();
    if (place == null) {
      throw new IOException("it has no Rect");
    }
    if (box == null) {
      throw new IOException("its appearance has no BBox");
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
    PageArtist child = artist.newChild();
    child.override(ObjectKind.ANNOTATION);
    child.paintStream(
        new PlacedStream(appearance, appearance.getCOSObject(), fit, box, artist.scope()));
  }
}
