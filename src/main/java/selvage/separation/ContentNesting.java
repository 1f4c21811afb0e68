package selvage.separation;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import org.apache.pdfbox.cos.COSBase;

/** Which content streams are being read within one another, over all artists of a page. */
final class ContentNesting {
  private static final int MOST_LEVELS = 40;

  /** An object may be masked by itself; painted within itself again, it has no end. */
  private static final int MOST_TIMES_OPEN = 2;

  private final Deque<COSBase> open = new ArrayDeque<>();

  /**
   * Begins a content stream.
   *
   * @throws IOException if it lies within itself, or too deep
   */
  void enter(COSBase content) throws IOException {
    int times = 0;
    for (COSBase outer : open) {
      times += outer == content ? 1 : 0;
    }
    if (times >= MOST_TIMES_OPEN) {
      throw new IOException("its content paints itself");
    }
    if (open.size() >= MOST_LEVELS) {
      throw new IOException("content lies more than " + MOST_LEVELS + " levels deep");
    }
    open.push(content);
  }

  /** Ends the stream that was begun last. */
  void leave() {
    open.pop();
  }
}
