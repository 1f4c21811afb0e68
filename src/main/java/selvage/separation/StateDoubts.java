package selvage.separation;

import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Notes what a graphics state dictionary asks for that is not done as it asks. */
final class StateDoubts {
  private static final COSName[] BLACK = {
    COSName.getPDFName("BG2"), COSName.getPDFName("BG"),
    COSName.getPDFName("UCR2"), COSName.getPDFName("UCR")
  };

  private static final COSName HALFTONE = COSName.getPDFName("HT");
  private static final COSName TR2 = COSName.getPDFName("TR2");

  private final FindingList findings;
  private final Place place;

  StateDoubts(FindingList findings, Place place) {
    this.findings = findings;
    this.place = place;
  }

  void note(COSDictionary state) {
    blend(state.getDictionaryObject(COSName.BM));
    COSBase mask = state.getDictionaryObject(COSName.SMASK);
    if (state.containsKey(COSName.SMASK)
        && !(mask instanceof COSDictionary)
        && !isName(mask, "None")) {
      findings.warning("soft-mask-skipped", place + ": its soft mask is not there");
    }
    for (COSName key : BLACK) {
      if (isFunction(state.getDictionaryObject(key))) {
        findings.note(
            "black-generation-ignored",
            place
                + ": its "
                + key.getName()
                + " was ignored; RGB is taken to ink by the condition's profile");
        break;
      }
    }
    COSBase halftone = state.getDictionaryObject(HALFTONE);
    if (halftone instanceof COSDictionary) {
      findings.note(
          "halftone-ignored", place + ": its halftone was ignored; tints are counted as authored");
    }
    if (isFunction(state.getDictionaryObject(TR2))
        || (!state.containsKey(TR2) && isFunction(state.getDictionaryObject(COSName.TR)))) {
      findings.note(
          "transfer-applied",
          place + ": it has transfer functions; tints are counted as they change them");
    }
  }

  private void blend(COSBase stated) {
    boolean known = stated == null || isKnown(stated);
    if (stated instanceof COSArray array) {
      for (int i = 0; i < array.size() && !known; i++) {
        known = isKnown(array.getObject(i));
      }
    }
    if (!known) {
      findings.warning(
          "blend-mode-unknown", place + ": its blend mode is not known; Normal was taken");
    }
  }

  private static boolean isKnown(COSBase mode) {
    return isName(mode, "Compatible")
        || (mode instanceof COSName name && Blend.ofPdfName(name.getName()) != null);
  }

  private static boolean isName(COSBase base, String name) {
    return base instanceof COSName stated && stated.getName().equals(name);
  }

  /** Whether there is something other than a name, all of which leave the device's own ways. */
  private static boolean isFunction(COSBase base) {
    if (base instanceof COSArray array) {
      for (int i = 0; i < array.size(); i++) {
        if (array.getObject(i) instanceof COSDictionary) {
          return true;
        }
      }
      return false;
    }
    return base instanceof COSDictionary;
  }
}
