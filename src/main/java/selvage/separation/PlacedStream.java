package selvage.separation;

import java.io.IOException;
import java.io.InputStream;
import org.apache.pdfbox.contentstream.PDContentStream;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.io.RandomAccessRead;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.util.Matrix;

/** A content stream read with another matrix and box than its own. */
record PlacedStream(
    PDContentStream stream, COSStream content, Matrix matrix, PDRectangle box, PageScope scope)
    implements PDContentStream {
  @Override
  public InputStream getContents() throws IOException {
    return stream.getContents();
  }

  @Override
  public RandomAccessRead getContentsForRandomAccess() throws IOException {
    return stream.getContentsForRandomAccess();
  }

  @Override
  public RandomAccessRead getContentsForStreamParsing() throws IOException {
    return ContentInput.of(content, scope);
  }

  @Override
  public PDResources getResources() {
    return stream.getResources();
  }

  @Override
  public PDRectangle getBBox() {
    return box;
  }

  @Override
  public Matrix getMatrix() {
    return matrix;
  }
}
