package selvage.separation;

import java.io.IOException;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;

/** Makes sure that no stream of a font, which PDFBox reads whole, unpacks to more than it may. */
final class FontCheck {
  private static final long MOST_BYTES = 128L << 20;
  private static final COSName[] FILES = {
    COSName.FONT_FILE, COSName.FONT_FILE2, COSName.FONT_FILE3, COSName.CID_TO_GID_MAP
  };
  private static final COSName[] MAPS = {COSName.TO_UNICODE, COSName.ENCODING};

  private final Set<COSDictionary> sound = Collections.newSetFromMap(new IdentityHashMap<>());

  /**
   * Checks a font once.
   *
   * @param font may be null
   * @throws IOException if one of its streams is too large
   */
  void check(COSDictionary font) throws IOException {
    if (font == null || sound.contains(font)) {
      return;
    }
    checkStreams(font, MAPS);
    checkStreams(font.getCOSDictionary(COSName.FONT_DESC), FILES);
    COSArray descendants = font.getCOSArray(COSName.DESCENDANT_FONTS);
    if (descendants != null
        && descendants.size() > 0
        && descendants.getObject(0) instanceof COSDictionary descendant) {
      checkStreams(descendant, FILES);
      checkStreams(descendant.getCOSDictionary(COSName.FONT_DESC), FILES);
    }
    sound.add(font);
  }

  private static void checkStreams(COSDictionary dictionary, COSName[] keys) throws IOException {
    for (COSName key : keys) {
      if (dictionary != null && dictionary.getDictionaryObject(key) instanceof COSStream stream) {
        StreamBytes.check(stream, MOST_BYTES);
      }
    }
  }
}
