package selvage.cgats;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import selvage.finding.Finding;
import selvage.finding.InputException;

/** From bytes to lines: character set, line ends, the end-of-file mark of old systems. */
final class CgatsText {
  private static final char END_MARK = 0x1A; // ^Z

  private CgatsText() {}

  /**
   * The lines of a file, without their ends.
   *
   * @throws InputException where the file is empty or not text
   */
  static List<String> lines(String fileName, byte[] bytes, List<Finding> findings)
      throws InputException {
    String text = decode(fileName, bytes, findings);
    int end = text.indexOf(END_MARK);
    if (end >= 0) {
      if (!isBlank(text, end)) {
        findings.add(
            Finding.warning(
                "text-after-end-mark",
                fileName + ": the text after the end-of-file mark (^Z) was left out"));
      }
      text = text.substring(0, end);
    }
    requireText(fileName, text);
    return split(text);
  }

  private static String decode(String fileName, byte[] bytes, List<Finding> findings)
      throws InputException {
    if (startsWith(bytes, 0xEF, 0xBB, 0xBF)) {
      return decodeStrictly(fileName, bytes, 3, StandardCharsets.UTF_8);
    }
    if (startsWith(bytes, 0xFF, 0xFE)) {
      return decodeStrictly(fileName, bytes, 2, StandardCharsets.UTF_16LE);
    }
    if (startsWith(bytes, 0xFE, 0xFF)) {
      return decodeStrictly(fileName, bytes, 2, StandardCharsets.UTF_16BE);
    }
    try {
      return decoded(bytes, 0, StandardCharsets.UTF_8);
    } catch (CharacterCodingException e) {
      findings.add(
          Finding.note(
              "read-as-latin-1",
              fileName + ": the text is not UTF-8; it was read as ISO 8859-1 (Latin-1)"));
      return new String(bytes, StandardCharsets.ISO_8859_1);
    }
  }

  private static String decodeStrictly(String fileName, byte[] bytes, int from, Charset charset)
      throws InputException {
    try {
      return decoded(bytes, from, charset);
    } catch (CharacterCodingException e) {
      throw InputException.of(
          fileName,
          "expected text in "
              + charset
              + " as its byte order mark says, found other bytes; save it as plain text",
          e);
    }
  }

  private static String decoded(byte[] bytes, int from, Charset charset)
      throws CharacterCodingException {
    return charset
        .newDecoder()
        .onMalformedInput(CodingErrorAction.REPORT)
        .onUnmappableCharacter(CodingErrorAction.REPORT)
        .decode(ByteBuffer.wrap(bytes, from, bytes.length - from))
        .toString();
  }

  private static boolean startsWith(byte[] bytes, int... mark) {
    if (bytes.length < mark.length) {
      return false;
    }
    for (int i = 0; i < mark.length; i++) {
      if ((bytes[i] & 0xFF) != mark[i]) {
        return false;
      }
    }
    return true;
  }

  private static boolean isBlank(String text, int from) {
    for (int i = from; i < text.length(); i++) {
      if (text.charAt(i) > ' ' && text.charAt(i) != END_MARK) {
        return false;
      }
    }
    return true;
  }

  private static void requireText(String fileName, String text) throws InputException {
    boolean blank = true;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < ' ' && (c < '\t' || c > '\r')) {
        throw InputException.of(
            fileName, "expected CGATS text, found binary data; export the data as CGATS text");
      }
      blank &= c <= ' ';
    }
    if (blank) {
      throw InputException.of(fileName, "expected CGATS text, found an empty file");
    }
    if (text.stripLeading().startsWith("<")) {
      throw InputException.of(
          fileName, "expected CGATS text, found XML; export the data as CGATS text");
    }
  }

  private static List<String> split(String text) {
    List<String> lines = new ArrayList<>();
    int start = 0;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '\n' || c == '\r') {
        lines.add(text.substring(start, i));
        if (c == '\r' && i + 1 < text.length() && text.charAt(i + 1) == '\n') {
          i++;
        }
        start = i + 1;
      }
    }
    lines.add(text.substring(start));
    return lines;
  }
}
