package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.io.RandomAccessRead;
import org.apache.pdfbox.pdmodel.graphics.form.PDTransparencyGroup;

/** A form or group whose content is read through {@link ContentInput}. */
final class WatchedForm extends PDTransparencyGroup {
  private final PageScope scope;

  WatchedForm(COSStream stream, PageScope scope) {
    super(stream, scope.cache());
    this.scope = scope;
  }

  @Override
  public RandomAccessRead getContentsForStreamParsing() throws IOException {
    return ContentInput.of(getCOSObject(), scope);
  }
}
