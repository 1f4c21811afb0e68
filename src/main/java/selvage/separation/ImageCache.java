package selvage.separation;

import java.util.IdentityHashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.pdfbox.cos.COSStream;

/**
 * Keeps decoded images of a page, so that one that reaches over several bands, or is painted again
 * and again, is decoded once. The least recently painted go first when they take too much room.
 */
final class ImageCache {
  /** By the stream's identity; a stream's own equality would read it. */
  private final IdentityHashMap<COSStream, Integer> numbers = new IdentityHashMap<>();

  private final Map<Integer, ImageData> images = new LinkedHashMap<>(16, 0.75f, true);
  private final long mostBytes;
  private long bytes;

  /**
   * An empty cache.
   *
   * @param mostBytes of samples to keep
   */
  ImageCache(long mostBytes) {
    this.mostBytes = mostBytes;
  }

  /** The decoded samples of a stream, or null where they are not kept. */
  ImageData get(COSStream stream) {
    Integer number = numbers.get(stream);
    return number == null ? null : images.get(number);
  }

  void put(COSStream stream, ImageData data) {
    if (data.bytes() > mostBytes) {
      return;
    }
    Integer number = numbers.computeIfAbsent(stream, s -> numbers.size());
    ImageData before = images.put(number, data);
    bytes += data.bytes() - (before == null ? 0 : before.bytes());
    Iterator<ImageData> eldest = images.values().iterator();
    while (bytes > mostBytes && eldest.hasNext()) {
      bytes -= eldest.next().bytes();
      eldest.remove();
    }
  }
}
