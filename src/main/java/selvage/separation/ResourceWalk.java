package selvage.separation;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Set;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Walks a page's resources and reads every colour space in them. */
final class ResourceWalk {
  private static final int MOST_DEPTH = 20;
  private static final int MOST_OBJECTS = 50_000;

  private final SpaceReader spaces;
  private final Set<COSBase> seen = Collections.newSetFromMap(new IdentityHashMap<>());

  ResourceWalk(SpaceReader spaces) {
    this.spaces = spaces;
  }

  void walk(COSDictionary resources) {
    walk(resources, 0);
  }

  private void walk(COSDictionary resources, int depth) {
    if (resources == null
        || depth > MOST_DEPTH
        || seen.size() > MOST_OBJECTS
        || !seen.add(resources)) {
      return;
    }
    COSDictionary named = resources.getCOSDictionary(COSName.COLORSPACE);
    if (named != null) {
      for (COSName name : named.keySet()) {
        read(named.getDictionaryObject(name), resources);
      }
    }
    each(
        resources.getCOSDictionary(COSName.SHADING),
        shading -> read(shading.getDictionaryObject(COSName.COLORSPACE), resources));
    each(
        resources.getCOSDictionary(COSName.XOBJECT),
        object -> {
          if ("Image".equals(object.getNameAsString(COSName.SUBTYPE))) {
            read(object.getDictionaryObject(COSName.COLORSPACE), resources);
          }
          walk(object.getCOSDictionary(COSName.RESOURCES), depth + 1);
        });
    each(
        resources.getCOSDictionary(COSName.PATTERN),
        pattern -> {
          COSDictionary shading = pattern.getCOSDictionary(COSName.SHADING);
          if (shading != null) {
            read(shading.getDictionaryObject(COSName.COLORSPACE), resources);
          }
          walk(pattern.getCOSDictionary(COSName.RESOURCES), depth + 1);
        });
    each(
        resources.getCOSDictionary(COSName.FONT),
        font -> walk(font.getCOSDictionary(COSName.RESOURCES), depth + 1));
    each(
        resources.getCOSDictionary(COSName.EXT_G_STATE),
        state -> {
          COSDictionary mask = state.getCOSDictionary(COSName.SMASK);
          COSDictionary group = mask == null ? null : mask.getCOSDictionary(COSName.G);
          if (group != null) {
            walk(group.getCOSDictionary(COSName.RESOURCES), depth + 1);
          }
        });
  }

  private interface Visitor {
    void visit(COSDictionary dictionary);
  }

  private static void each(COSDictionary dictionary, Visitor visitor) {
    if (dictionary != null) {
      for (COSName name : dictionary.keySet()) {
        if (dictionary.getDictionaryObject(name) instanceof COSDictionary entry) {
          visitor.visit(entry);
        }
      }
    }
  }

  private void read(COSBase space, COSDictionary resources) {
    if (space != null) {
      spaces.read(space, resources);
    }
  }
}
