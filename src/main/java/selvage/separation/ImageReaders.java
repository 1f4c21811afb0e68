package selvage.separation;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.spi.IIORegistry;

/**
 * The ImageIO readers. The registry looks through all of the class path when it is first used,
 * which takes longer than decoding a photograph; so it is first filled with the JDK's own readers,
 * and with the others when one is needed.
 */
final class ImageReaders {
  private static boolean own;
  private static boolean all;

  private ImageReaders() {}

  /** The JDK's own JPEG reader, or null where it has none. */
  static ImageReader ownJpeg() {
    fillWithOwn();
    Iterator<ImageReader> found = ImageIO.getImageReadersByFormatName("JPEG");
    while (found.hasNext()) {
      ImageReader reader = found.next();
      if (reader.getClass().getName().startsWith("com.sun.")) {
        return reader;
      }
      reader.dispose();
    }
    return null;
  }

  /** Every reader of a format. */
  static List<ImageReader> of(String format) {
    fillWithAll();
    List<ImageReader> readers = new ArrayList<>();
    ImageIO.getImageReadersByFormatName(format).forEachRemaining(readers::add);
    return readers;
  }

  /** Makes sure that PDFBox's filters find their readers. */
  static synchronized void fillWithAll() {
    fillWithOwn();
    if (!all) {
      all = true;
      ImageIO.scanForPlugins();
    }
  }

  private static synchronized void fillWithOwn() {
    if (own) {
      return;
    }
    own = true;
    Thread thread = Thread.currentThread();
    ClassLoader loader = thread.getContextClassLoader();
    thread.setContextClassLoader(ClassLoader.getPlatformClassLoader());
    try {
      IIORegistry.getDefaultInstance();
    } finally {
      thread.setContextClassLoader(loader);
    }
  }
}
