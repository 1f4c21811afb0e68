package selvage.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.GregorianCalendar;
import java.util.List;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.common.PDMetadata;

/** The dates of change of a document, in its information dictionary and its XMP packet. */
final class DocumentDates {
  private static final List<String> XMP_DATES = List.of("xmp:ModifyDate", "xmp:MetadataDate");

  private DocumentDates() {}

  /** Sets them; dates that the packet does not have are not added. */
  static void setModified(PDDocument document, Instant modified) throws IOException {
    Instant second = modified.truncatedTo(ChronoUnit.SECONDS);
    document
        .getDocumentInformation()
        .setModificationDate(GregorianCalendar.from(second.atZone(ZoneOffset.UTC)));
    PDMetadata metadata = document.getDocumentCatalog().getMetadata();
    if (metadata == null) {
      return;
    }
    byte[] packet;
    try (InputStream in = metadata.createInputStream()) {
      packet = in.readAllBytes();
    }
    // Latin-1 keeps every byte as it is; the dates are ASCII in any encoding of eight bits.
    String text = new String(packet, StandardCharsets.ISO_8859_1);
    String date = DateTimeFormatter.ISO_INSTANT.format(second);
    String changed = text;
    for (String name : XMP_DATES) {
      changed = replaced(changed, name, date);
    }
    if (!changed.equals(text)) {
      write(metadata.getCOSObject(), changed.getBytes(StandardCharsets.ISO_8859_1));
    }
  }

  /** Replaces the value of an element or attribute wherever it stands. */
  private static String replaced(String text, String name, String value) {
    StringBuilder result = new StringBuilder(text.length());
    int from = 0;
    for (int at = text.indexOf(name); at >= 0; at = text.indexOf(name, at + 1)) {
      int start = at + name.length();
      boolean closing = at > 0 && text.charAt(at - 1) == '/';
      int end = -1;
      if (!closing && start < text.length() && text.charAt(start) == '>') {
        start++;
        end = text.indexOf('<', start);
      } else if (!closing && start + 1 < text.length() && text.charAt(start) == '=') {
        char quote = text.charAt(start + 1);
        start += 2;
        end = quote == '"' || quote == '\'' ? text.indexOf(quote, start) : -1;
      }
      if (end >= 0) {
        result.append(text, from, start).append(value);
        from = end;
      }
    }
    return result.append(text, from, text.length()).toString();
  }

  private static void write(COSStream stream, byte[] packet) throws IOException {
    stream.removeItem(COSName.DECODE_PARMS);
    stream.removeItem(COSName.FILTER); // XMP is best left readable
    try (OutputStream out = stream.createOutputStream()) {
      out.write(packet);
    }
  }
}
