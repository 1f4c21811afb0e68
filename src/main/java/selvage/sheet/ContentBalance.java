package selvage.sheet;

import java.io.IOException;
import org.apache.pdfbox.contentstream.operator.Operator;
import org.apache.pdfbox.pdfparser.PDFStreamParser;
import org.apache.pdfbox.pdmodel.PDPage;

/**
 * What a page's content leaves open, so that the strip can be painted after it in the state that
 * the page began with.
 *
 * @param missingSaves how often the content restores a state that it never saved
 * @param openSaves how many saved states are left at its end, those of {@code missingSaves} added
 * @param openMarks how many marked-content sequences are left open
 * @param openText whether a text object is left open
 * @param readable whether the content could be read to its end
 */
record ContentBalance(
    int missingSaves, int openSaves, int openMarks, boolean openText, boolean readable) {

  static ContentBalance of(PDPage page) {
    int depth = 0;
    int lowest = 0;
    int marks = 0;
    boolean text = false;
    boolean readable = true;
    try {
      PDFStreamParser parser = new PDFStreamParser(page);
      for (Object token = parser.parseNextToken(); token != null; token = parser.parseNextToken()) {
        if (token instanceof Operator operator) {
          switch (operator.getName()) {
            case "q" -> depth++;
            case "Q" -> lowest = Math.min(lowest, --depth);
            case "BMC", "BDC" -> marks++;
            case "EMC" -> marks = Math.max(0, marks - 1);
            case "BT" -> text = true;
            case "ET" -> text = false;
            default -> {}
          }
        }
      }
    } catch (IOException | RuntimeException e) {
      readable = false; // what was counted up to here is what a reader executes
    }
    return new ContentBalance(-lowest, depth - lowest, marks, text, readable);
  }

  /** What goes before the content. */
  String before() {
    return "q\n".repeat(missingSaves + 1);
  }

  /** What goes after it. */
  String after() {
    return (openText ? "\nET" : "")
        + "\nEMC".repeat(openMarks)
        + "\nQ".repeat(openSaves + 1)
        + "\n";
  }
}
