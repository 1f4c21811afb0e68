package selvage.separation;

import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import selvage.finding.Finding;

/** What a document asks of its reader beyond its pages, and is not done here. */
final class DocumentDoubts {
  private static final COSName NEEDS_RENDERING = COSName.getPDFName("NeedsRendering");
  private static final COSName XFA = COSName.getPDFName("XFA");
  private static final COSName JAVA_SCRIPT = COSName.getPDFName("JavaScript");

  private DocumentDoubts() {}

  static List<Finding> of(PDDocument document) {
    List<Finding> doubts = new ArrayList<>();
    COSDictionary catalog = document.getDocumentCatalog().getCOSObject();
    COSDictionary form = catalog.getCOSDictionary(COSName.ACRO_FORM);
    if (form != null && form.containsKey(XFA)) {
      String what = Place.numbered("the document's form", catalog.getItem(COSName.ACRO_FORM));
      doubts.add(
          catalog.getBoolean(NEEDS_RENDERING, false)
              ? Finding.warning(
                  "form-not-drawn",
                  what + " is described in XFA, which is not drawn; ask for a flat PDF")
              : Finding.note(
                  "form-not-drawn",
                  what + " is described in XFA as well; its pages were taken as they stand"));
    }
    if (form != null && form.getBoolean(COSName.NEED_APPEARANCES, false)) {
      doubts.add(
          Finding.note(
              "form-not-drawn",
              Place.numbered("the document's form", catalog.getItem(COSName.ACRO_FORM))
                  + " wants its fields drawn anew; their stored appearances were taken"));
    }
    if (hasScripts(catalog)) {
      doubts.add(Finding.note("scripts-not-run", "the document has scripts; they were not run"));
    }
    return doubts;
  }

  private static boolean hasScripts(COSDictionary catalog) {
    COSDictionary names = catalog.getCOSDictionary(COSName.NAMES);
    COSBase action = catalog.getDictionaryObject(COSName.OPEN_ACTION);
    return (names != null && names.containsKey(JAVA_SCRIPT))
        || (action instanceof COSDictionary opening
            && "JavaScript".equals(opening.getNameAsString(COSName.S)));
  }
}
