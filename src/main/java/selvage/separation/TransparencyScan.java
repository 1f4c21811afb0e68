package selvage.separation;

import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Looks through resources for what makes compositing more than painting over. */
final class TransparencyScan {
  private static final int MOST_OBJECTS = 20_000;

  private final Set<COSBase> seen = Collections.newSetFromMap(new IdentityHashMap<>());
  private final Deque<COSDictionary> waiting = new ArrayDeque<>();
  private boolean blends;
  private boolean overprints;
  private boolean translucent;

  private TransparencyScan() {}

  /**
   * Whether anything drawn with these resources looks at what lies under it other than through
   * opacity: a blend mode other than Normal, or overprint.
   */
  static boolean depositsDependOnBackdrop(COSDictionary resources) {
    TransparencyScan scan = new TransparencyScan();
    scan.walk(resources);
    return scan.blends || scan.overprints;
  }

  /** Whether anything drawn with these resources is blended or less than opaque. */
  static boolean usesTransparency(COSDictionary resources) {
    TransparencyScan scan = new TransparencyScan();
    scan.walk(resources);
    return scan.blends || scan.translucent;
  }

  private void walk(COSDictionary first) {
    add(first);
    while (!waiting.isEmpty() && seen.size() <= MOST_OBJECTS) {
      look(waiting.pop());
    }
  }

  private void add(COSDictionary resources) {
    if (resources != null && seen.add(resources)) {
      waiting.push(resources);
    }
  }

  private void look(COSDictionary resources) {
    COSDictionary states = resources.getCOSDictionary(COSName.EXT_G_STATE);
    if (states != null) {
      for (COSName name : states.keySet()) {
        if (states.getDictionaryObject(name) instanceof COSDictionary state) {
          lookAtState(state);
        }
      }
    }
    for (COSName kind : new COSName[] {COSName.XOBJECT, COSName.PATTERN, COSName.FONT}) {
      COSDictionary entries = resources.getCOSDictionary(kind);
      if (entries != null) {
        for (COSName name : entries.keySet()) {
          if (entries.getDictionaryObject(name) instanceof COSDictionary entry) {
            translucent |=
                "Image".equals(entry.getNameAsString(COSName.SUBTYPE))
                    && (entry.containsKey(COSName.SMASK) || entry.getInt("SMaskInData", 0) > 0);
            COSDictionary group = entry.getCOSDictionary(COSName.GROUP);
            translucent |= group != null && "Transparency".equals(group.getNameAsString(COSName.S));
            add(entry.getCOSDictionary(COSName.RESOURCES));
          }
        }
      }
    }
  }

  private void lookAtState(COSDictionary state) {
    COSBase blend = state.getDictionaryObject(COSName.BM);
    if (blend instanceof COSArray array && array.size() > 0) {
      blend = array.getObject(0);
    }
    blends |=
        blend instanceof COSName name
            && !name.getName().equals("Normal")
            && !name.getName().equals("Compatible");
    overprints |= state.getBoolean(COSName.OP, false) || state.getBoolean(COSName.OP_NS, false);
    translucent |=
        state.getFloat(COSName.CA, 1) < 1
            || state.getFloat(COSName.CA_NS, 1) < 1
            || state.getDictionaryObject(COSName.SMASK) instanceof COSDictionary;
  }
}
