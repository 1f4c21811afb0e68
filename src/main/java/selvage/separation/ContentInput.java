package selvage.separation;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.filter.FlateFilterDecoderStream;
import org.apache.pdfbox.io.NonSeekableRandomAccessReadInputStream;
import org.apache.pdfbox.io.RandomAccessRead;

/**
 * The content of a page or form, unpacked as it is read, so that its size costs no memory. Looks at
 * the clock, and gives up where nothing that could be an operator comes for a very long time.
 */
final class ContentInput extends InputStream {
  /** A stream whose filters can't unpack bit by bit is held whole, up to this. */
  private static final long MOST_HELD_BYTES = 128L << 20;

  /** The longest operands (an inline image, say) that any operator may have. */
  private static final long MOST_OPERAND_BYTES = 8L << 20;

  private final PageScope scope;
  private final Iterator<COSStream> rest;
  private InputStream current = InputStream.nullInputStream();
  private int operators;
  private long bytesSinceOperator;
  private boolean isAtEnd;

  private ContentInput(List<COSStream> streams, PageScope scope) {
    this.rest = streams.iterator();
    this.scope = scope;
  }

  /**
   * Content for the parser.
   *
   * @param contents a stream or an array of streams, read as if they were one; null for none
   */
  static RandomAccessRead of(COSBase contents, PageScope scope) throws IOException {
    List<COSStream> streams = new ArrayList<>();
    if (contents instanceof COSStream stream) {
      streams.add(stream);
    } else if (contents instanceof COSArray array) {
      for (int i = 0; i < array.size(); i++) {
        if (array.getObject(i) instanceof COSStream stream) {
          streams.add(stream);
        } else {
          scope
              .findings()
              .warning(
                  "content-skipped",
                  scope.where() + ": part " + (i + 1) + " of its content is not there");
        }
      }
    }
    return new NonSeekableRandomAccessReadInputStream(new ContentInput(streams, scope));
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] bytes, int offset, int length) throws IOException {
    if (length == 0) {
      return 0;
    }
    scope.checkTime();
    if (operators != scope.operators()) {
      operators = scope.operators();
      bytesSinceOperator = 0;
    }
    int n = current.read(bytes, offset, length);
    while (n <= 0) {
      if (!rest.hasNext()) {
        isAtEnd = true;
        return -1;
      }
      current.close();
      current = open(rest.next());
      // Tokens do not reach from one stream into the next.
      bytes[offset] = '\n';
      n = 1;
    }
    bytesSinceOperator += n;
    if (bytesSinceOperator > MOST_OPERAND_BYTES) {
      throw new IOException(
          "no operator within " + (MOST_OPERAND_BYTES >> 20) + " megabytes of content");
    }
    return n;
  }

  private InputStream open(COSStream stream) {
    try {
      return COSName.FLATE_DECODE.equals(stream.getFilters())
              && stream.getDictionaryObject(COSName.DECODE_PARMS, COSName.DP) == null
          ? new FlateFilterDecoderStream(stream.createRawInputStream())
          : new ByteArrayInputStream(StreamBytes.first(stream, MOST_HELD_BYTES));
    } catch (IOException | RuntimeException e) {
      scope
          .findings()
          .warning(
              "content-skipped",
              scope.where() + ": a part of its content can't be read: " + Reason.of(e));
      return InputStream.nullInputStream();
    }
  }

  /** PDFBox's parser closes its source when it gives up, and says nothing else. */
  @Override
  public void close() throws IOException {
    if (!isAtEnd) {
      isAtEnd = true;
      scope
          .findings()
          .error(
              "content-cut-short",
              scope.where() + ": its content can't be read on to its end; the rest was left out");
    }
    current.close();
  }
}
