package selvage.separation;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.StringTokenizer;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.common.function.PDFunction;

/**
 * Reads functions (ISO 32000-2, 7.10), and refuses those that would take evaluation without end, or
 * more memory than a function is worth. Sampled functions, which shadings ask for every sample of
 * the page, are evaluated here; the others by PDFBox.
 */
final class FunctionReader {
  private static final int MOST_DEPTH = 8;
  private static final int MOST_FUNCTIONS = 4096;
  private static final int MOST_INPUTS = 12;
  private static final long MOST_VALUES = 4_000_000;
  private static final int MOST_PROGRAM_BYTES = 1 << 16;
  private static final int MOST_BRACES = 64;

  /** The operand stack that a calculator function may count on (ISO 32000-1, annex C). */
  private static final int MOST_OPERANDS = 100;

  private int seen;

  private FunctionReader() {}

  /**
   * A function.
   *
   * @throws IOException if it is none, or unsound
   */
  static TintFunction read(COSBase function) throws IOException {
    new FunctionReader().check(function, 0);
    COSBase direct = function instanceof COSObject reference ? reference.getObject() : function;
    if (direct instanceof COSStream stream && stream.getInt(COSName.FUNCTION_TYPE) == 0) {
      return new SampledFunction(stream, StreamBytes.first(stream, 4L * MOST_VALUES));
    }
    PDFunction other = PDFunction.create(function);
    return (in, out) -> {
      float[] values = other.eval(in);
      System.arraycopy(values, 0, out, 0, Math.min(values.length, out.length));
    };
  }

  private void check(COSBase base, int depth) throws IOException {
    COSBase direct = base instanceof COSObject reference ? reference.getObject() : base;
    if (depth > MOST_DEPTH || ++seen > MOST_FUNCTIONS) {
      throw new IOException("a function made of too many functions, or of itself");
    }
    if (!(direct instanceof COSDictionary function)) {
      return; // an identity, or nothing that could do harm
    }
    switch (function.getInt(COSName.FUNCTION_TYPE)) {
      case 0 -> checkSampled(function);
      case 3 -> {
        COSArray parts = function.getCOSArray(COSName.FUNCTIONS);
        for (int i = 0; parts != null && i < parts.size(); i++) {
          check(parts.get(i), depth + 1);
        }
      }
      case 4 -> checkProgram(function);
      default -> {
        // A power of the input, or of a kind that PDFBox refuses.
      }
    }
  }

  private static void checkSampled(COSDictionary function) throws IOException {
    COSArray sizes = function.getCOSArray(COSName.SIZE);
    COSArray range = function.getCOSArray(COSName.RANGE);
    COSArray domain = function.getCOSArray(COSName.DOMAIN);
    if (sizes == null || range == null || domain == null || sizes.size() < domain.size() / 2) {
      throw new IOException("a sampled function without its size, domain or range");
    }
    double values = Math.max(1, range.size() / 2);
    for (int i = 0; i < sizes.size(); i++) {
      int size = sizes.getInt(i);
      if (size < 1) {
        throw new IOException("a sampled function of " + size + " samples");
      }
      values *= size;
    }
    if (values > MOST_VALUES || domain.size() / 2 > MOST_INPUTS) {
      throw new IOException("a sampled function of " + (long) values + " values");
    }
    if (function instanceof COSStream stream) {
      StreamBytes.check(stream, 4L * MOST_VALUES);
    }
  }

  private static void checkProgram(COSDictionary function) throws IOException {
    if (!(function instanceof COSStream stream)) {
      throw new IOException("a calculator function without its program");
    }
    byte[] bytes = StreamBytes.first(stream, MOST_PROGRAM_BYTES + 1);
    if (bytes.length > MOST_PROGRAM_BYTES) {
      throw new IOException("a calculator function of more than 64 kilobytes");
    }
    String program = new String(bytes, StandardCharsets.ISO_8859_1);
    String before = "";
    int open = 0;
    StringTokenizer tokens = new StringTokenizer(program, "{} \t\r\n\f\0", true);
    while (tokens.hasMoreTokens()) {
      String token = tokens.nextToken();
      if (token.isBlank() || token.equals("\0")) {
        continue;
      }
      open += token.equals("{") ? 1 : token.equals("}") ? -1 : 0;
      if (open > MOST_BRACES) {
        throw new IOException("a calculator function of too many braces in one another");
      }
      if (token.equals("copy") && !isSmall(before)) {
        throw new IOException("a calculator function that copies more than its stack holds");
      }
      before = token;
    }
  }

  private static boolean isSmall(String number) {
    boolean digits = !number.isEmpty() && number.length() <= 3;
    for (int i = 0; i < number.length(); i++) {
      digits &= number.charAt(i) >= '0' && number.charAt(i) <= '9';
    }
    return digits && Integer.parseInt(number) <= MOST_OPERANDS;
  }
}
