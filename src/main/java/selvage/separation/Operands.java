package selvage.separation;

import java.io.IOException;
import java.util.List;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSNumber;

/** Reads the operands of an operator. */
final class Operands {
  private Operands() {}

  /**
   * A number.
   *
   * @param index from 0
   * @throws IOException if it is missing or no number
   */
  static double number(List<COSBase> operands, int index) throws IOException {
    if (index < operands.size() && operands.get(index) instanceof COSNumber number) {
      return number.floatValue();
    }
    throw new IOException("operand " + (index + 1) + " is missing or no number");
  }

  /**
   * The first operand, a name.
   *
   * @throws IOException if it is missing or no name
   */
  static COSName name(List<COSBase> operands) throws IOException {
    if (!operands.isEmpty() && operands.get(0) instanceof COSName name) {
      return name;
    }
    throw new IOException("operand 1 is missing or no name");
  }
}
