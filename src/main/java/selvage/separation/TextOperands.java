package selvage.separation;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSNumber;
import org.apache.pdfbox.cos.COSString;

/** Checks the operands of text operators, where PDFBox skips an unsound one without a word. */
final class TextOperands {
  private static final int MOST_RENDERING_MODE = 7;

  private TextOperands() {}

  /**
   * Checks an operator's operands; those of other operators than text's are left alone.
   *
   * @throws IOException if they are not what the operator takes
   */
  static void check(String operator, List<COSBase> operands) throws IOException {
    switch (operator) {
      case "Tc", "Tw", "Tz", "TL", "Ts" -> numbers(operands, 1);
      case "Td", "TD" -> numbers(operands, 2);
      case "Tm" -> numbers(operands, 6);
      case "Tr" -> {
        numbers(operands, 1);
        int mode = ((COSNumber) operands.get(0)).intValue();
        if (mode < 0 || mode > MOST_RENDERING_MODE) {
          throw new IOException("there is no rendering mode " + mode);
        }
      }
      case "Tj", "'" -> string(operands, 0);
      case "\"" -> {
        numbers(operands, 2);
        string(operands, 2);
      }
      case "TJ" -> {
        if (operands.isEmpty() || !(operands.get(0) instanceof COSArray)) {
          throw new IOException("operand 1 is missing or no array");
        }
      }
      default -> {
        // no text operator
      }
    }
  }

  private static void numbers(List<COSBase> operands, int count) throws IOException {
    for (int i = 0; i < count; i++) {
      if (i >= operands.size() || !(operands.get(i) instanceof COSNumber)) {
        throw new IOException("operand " + (i + 1) + " is missing or no number");
      }
    }
  }

  private static void string(List<COSBase> operands, int index) throws IOException {
    if (index >= operands.size() || !(operands.get(index) instanceof COSString)) {
      throw new IOException("operand " + (index + 1) + " is missing or no string");
    }
  }
}
