package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.io.RandomAccessRead;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.ResourceCache;
import org.apache.pdfbox.pdmodel.common.PDRectangle;

/** A page of which the whole MediaBox is imaged; PDFBox's own clips to the CropBox. */
final class MediaPage extends PDPage {
  private final PDRectangle whole;
  private final PDResources resources;
  private PageScope scope;

  MediaPage(PDPage page, PageGeometry geometry, ResourceCache cache) {
    super(page.getCOSObject());
    PageGeometry.Box media = geometry.media();
    whole =
        new PDRectangle(
            (float) media.x(), (float) media.y(), (float) media.width(), (float) media.height());
    PDResources own = page.getResources();
    resources =
        own == null
            ? new PDResources(new COSDictionary(), cache)
            : new PDResources(own.getCOSObject(), cache);
  }

  /** Has the content read through {@link ContentInput}. */
  void watch(PageScope scope) {
    this.scope = scope;
  }

  /** Says so where the content that the page names is not in the file. */
  void checkContent() {
    COSDictionary own = getCOSObject();
    if (own.containsKey(COSName.CONTENTS) && own.getDictionaryObject(COSName.CONTENTS) == null) {
      scope
          .findings()
          .warning(
              "content-skipped",
              scope.where()
                  + ": "
                  + Place.numbered("its content", own.getItem(COSName.CONTENTS))
                  + " is not there");
    }
  }

  @Override
  public RandomAccessRead getContentsForStreamParsing() throws IOException {
    return ContentInput.of(getCOSObject().getDictionaryObject(COSName.CONTENTS), scope);
  }

  @Override
  public PDRectangle getBBox() {
    return whole;
  }

  @Override
  public PDRectangle getCropBox() {
    return whole;
  }

  @Override
  public PDResources getResources() {
    return resources;
  }
}
