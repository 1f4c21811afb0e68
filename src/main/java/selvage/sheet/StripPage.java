package selvage.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.common.PDStream;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;

/** A page with a strip and nothing else. */
final class StripPage {
  private StripPage() {}

  /** A page that bears nothing yet: media, trim and bleed are the same box. */
  static PDPage blank(PDRectangle box) {
    PDPage page = new PDPage(box);
    page.setTrimBox(box);
    page.setBleedBox(box);
    return page;
  }

  /** Paints the strip, whose form knows its place, as the page's whole content. */
  static void paint(PDDocument document, PDPage page, PDFormXObject form) throws IOException {
    PDResources resources = new PDResources();
    resources.put(COSName.getPDFName("ControlStrip"), form);
    page.setResources(resources);
    COSStream content = document.getDocument().createCOSStream();
    try (OutputStream out = content.createOutputStream()) {
      out.write("q /ControlStrip Do Q\n".getBytes(StandardCharsets.US_ASCII));
    }
    page.setContents(new PDStream(content));
  }
}
