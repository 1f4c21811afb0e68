package selvage.separation;

import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Notes objects that stand for others which a press would be given in their place. */
final class ProxyDoubts {
  private static final COSName OPI = COSName.getPDFName("OPI");
  private static final COSName REFERENCE = COSName.getPDFName("Ref");
  private static final COSName ALTERNATES = COSName.getPDFName("Alternates");
  private static final COSName DEFAULT_FOR_PRINTING = COSName.getPDFName("DefaultForPrinting");

  private ProxyDoubts() {}

  static void note(COSDictionary object, PageScope scope) {
    if (object.containsKey(OPI)) {
      warn(scope, "it stands for a finer image (OPI); what lies in the job was taken");
    }
    if (object.containsKey(REFERENCE)) {
      warn(scope, "it stands for a page of another file; what lies in the job was taken");
    }
    COSArray alternates = object.getCOSArray(ALTERNATES);
    for (int i = 0; alternates != null && i < alternates.size(); i++) {
      if (alternates.getObject(i) instanceof COSDictionary alternate
          && alternate.getBoolean(DEFAULT_FOR_PRINTING, false)) {
        warn(scope, "it has another image to be printed instead; the first was taken");
      }
    }
  }

  private static void warn(PageScope scope, String text) {
    scope.findings().warning("proxy-taken", scope.where() + ": " + text);
  }
}
