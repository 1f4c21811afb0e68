package selvage.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import selvage.finding.Finding;

/**
 * Puts a strip's form on a page: grows the boxes, keeps the others as they were, and paints the
 * form after the page's own content, which stays as it is between a saved and a restored state.
 */
final class PageStamper {
  private final PDDocument document;
  private final PDPage page;
  private final int number;
  private final List<Finding> findings = new ArrayList<>();

  /**
   * A stamper for one page.
   *
   * @param number of the page, counted from 1, for messages
   */
  PageStamper(PDDocument document, PDPage page, int number) {
    this.document = document;
    this.page = page;
    this.number = number;
  }

  List<Finding> findings() {
    return findings;
  }

  /**
   * Stamps.
   *
   * @param isPdfX whether the file says that it keeps to PDF/X, which allows a page either a
   *     TrimBox or an ArtBox
   */
  void stamp(PageFrame frame, Placement place, PDFormXObject form, boolean isPdfX)
      throws IOException {
    if (place.extended()) {
      grow(frame, place, isPdfX);
    }
    Optional<PageGroup> group = PageGroup.converting(page);
    if (group.isPresent()) {
      group.get().detach(document, page, place.ownContent(frame));
      findings.add(
          Finding.note(
              "page-group-moved",
              "page "
                  + number
                  + ": its transparency group blends in another space than CMYK and would convert"
                  + " the strip; its content now lies in a form with that group, looks the same,"
                  + " and the strip beside it"));
    }
    form.setMatrix(place.stripToUser());
    COSName name = addResource(form);
    paint(place.extended() ? place.ownContent(frame) : null, name);
  }

  private void grow(PageFrame frame, Placement place, boolean isPdfX) {
    List<String> kept = new ArrayList<>();
    boolean hasArt = page.getCOSObject().containsKey(COSName.ART_BOX);
    boolean hasTrim = page.getCOSObject().containsKey(COSName.TRIM_BOX);
    keep(COSName.BLEED_BOX, page.getBleedBox(), kept);
    if (!(isPdfX && hasArt)) {
      keep(COSName.TRIM_BOX, page.getTrimBox(), kept);
    }
    if (!(isPdfX && (hasTrim || !hasArt))) {
      keep(COSName.ART_BOX, page.getArtBox(), kept);
    }
    if (!kept.isEmpty()) {
      findings.add(
          Finding.note(
              "boxes-made-explicit",
              "page "
                  + number
                  + ": had no "
                  + String.join(", ", kept)
                  + "; written as what they were by default, since the sheet grew"));
    }
    boolean hasCrop = page.getCOSObject().containsKey(COSName.CROP_BOX) || inheritsCrop();
    page.setMediaBox(rectangle(place.media()));
    if (hasCrop) {
      page.setCropBox(rectangle(place.crop(frame)));
    }
    if (place.widened()) {
      findings.add(
          Finding.note(
              "sheet-widened",
              "page "
                  + number
                  + ": the edge is shorter than the shortest strip; the sheet grew along the edge"
                  + " too"));
    }
  }

  private boolean inheritsCrop() {
    return !page.getCropBox().equals(page.getMediaBox())
        && !page.getCOSObject().containsKey(COSName.CROP_BOX);
  }

  private void keep(COSName box, PDRectangle value, List<String> kept) {
    if (!page.getCOSObject().containsKey(box)) {
      page.getCOSObject().setItem(box, value.getCOSArray());
      kept.add(box.getName());
    }
  }

  static PDRectangle rectangle(Rectangle box) {
    PDRectangle rectangle = new PDRectangle();
    rectangle.setLowerLeftX((float) box.llx());
    rectangle.setLowerLeftY((float) box.lly());
    rectangle.setUpperRightX((float) box.urx());
    rectangle.setUpperRightY((float) box.ury());
    return rectangle;
  }

  /** Adds the form to a copy of the page's resources, which other pages may share. */
  private COSName addResource(PDFormXObject form) {
    COSDictionary resources = new COSDictionary();
    if (page.getResources() != null) {
      resources.addAll(page.getResources().getCOSObject());
    }
    COSDictionary objects = new COSDictionary();
    if (resources.getDictionaryObject(COSName.XOBJECT) instanceof COSDictionary own) {
      objects.addAll(own);
    }
    COSName name = COSName.getPDFName("ControlStrip");
    for (int i = 2; objects.containsKey(name); i++) {
      name = COSName.getPDFName("ControlStrip" + i);
    }
    objects.setItem(name, form);
    resources.setItem(COSName.XOBJECT, objects);
    page.setResources(new PDResources(resources));
    return name;
  }

  /**
   * Paints the form after the page's content.
   *
   * @param within where the page's content may show; null for everywhere
   */
  private void paint(Rectangle within, COSName name) throws IOException {
    ContentBalance balance = ContentBalance.of(page);
    if (!balance.readable()) {
      findings.add(
          Finding.warning(
              "content-damaged",
              "page "
                  + number
                  + ": the page's content can't be read to its end; check that the strip shows"));
    }
    String before = balance.before();
    if (within != null) {
      before +=
          String.join(
              " ",
              StripForm.number(within.llx()),
              StripForm.number(within.lly()),
              StripForm.number(within.width()),
              StripForm.number(within.height()),
              "re W n\n");
    }
    COSArray contents = new COSArray();
    contents.add(stream(before));
    COSBase own = page.getCOSObject().getItem(COSName.CONTENTS);
    COSBase value = page.getCOSObject().getDictionaryObject(COSName.CONTENTS);
    if (value instanceof COSArray list) {
      for (int i = 0; i < list.size(); i++) {
        contents.add(list.get(i));
      }
    } else if (value instanceof COSStream) {
      contents.add(own);
    }
    contents.add(stream(balance.after() + "q /" + name.getName() + " Do Q\n"));
    page.getCOSObject().setItem(COSName.CONTENTS, contents);
  }

  private COSStream stream(String content) throws IOException {
    COSStream stream = document.getDocument().createCOSStream();
    try (OutputStream out = stream.createOutputStream()) {
      out.write(content.getBytes(StandardCharsets.US_ASCII));
    }
    return stream;
  }
}
