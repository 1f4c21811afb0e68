package selvage.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.Optional;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSBoolean;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;

/**
 * A page's transparency group where it blends in another space than DeviceCMYK: everything on the
 * page, the strip too, would be converted to that space and back. The page's own content then
 * becomes a form with that same group, and the page itself has none.
 *
 * <p>A page group is isolated and is laid on white paper in its own blending space (ISO 32000-1,
 * 11.4.7). So the content stands within a second group that begins with white in that space: what
 * leaves it is opaque, and comes out as it did.
 */
final class PageGroup {
  private static final COSName CONTENT = COSName.getPDFName("Content");
  private static final COSName BLEND_SPACE = COSName.getPDFName("BlendSpace");
  private static final int MOST_OBJECTS = 50_000;

  private final COSDictionary group;
  private final COSBase blendSpace;
  private final int components;

  private PageGroup(COSDictionary group, COSBase blendSpace, int components) {
    this.group = group;
    this.blendSpace = blendSpace;
    this.components = components;
  }

  /**
   * The page's group, if it would convert the strip; empty where nothing on the page is blended.
   */
  static Optional<PageGroup> converting(PDPage page) {
    if (!(page.getCOSObject().getDictionaryObject(COSName.GROUP) instanceof COSDictionary group)
        || page.getResources() == null) {
      return Optional.empty();
    }
    COSBase space = group.getDictionaryObject(COSName.CS);
    int components = components(space);
    if (components == 0
        || COSName.DEVICECMYK.equals(space)
        || !usesTransparency(page.getResources().getCOSObject())) {
      return Optional.empty();
    }
    return Optional.of(new PageGroup(group, group.getItem(COSName.CS), components));
  }

  private static int components(COSBase space) {
    COSBase family =
        space instanceof COSArray array && array.size() > 0 ? array.getObject(0) : space;
    if (!(family instanceof COSName name)) {
      return 0;
    }
    return switch (name.getName()) {
      case "DeviceGray", "CalGray" -> 1;
      case "DeviceRGB", "CalRGB" -> 3;
      case "DeviceCMYK" -> 4;
      case "ICCBased" ->
          space instanceof COSArray array && array.getObject(1) instanceof COSStream profile
              ? profile.getInt(COSName.N, 0)
              : 0;
      default -> 0;
    };
  }

  /** Whether anything drawn with these resources is blended, masked or less than opaque. */
  private static boolean usesTransparency(COSDictionary resources) {
    return uses(resources, Collections.newSetFromMap(new IdentityHashMap<>()));
  }

  private static boolean uses(COSDictionary resources, Set<COSBase> seen) {
    if (resources == null || seen.size() > MOST_OBJECTS || !seen.add(resources)) {
      return false;
    }
    if (resources.getDictionaryObject(COSName.EXT_G_STATE) instanceof COSDictionary states) {
      for (COSName name : states.keySet()) {
        if (states.getDictionaryObject(name) instanceof COSDictionary state && blends(state)) {
          return true;
        }
      }
    }
    for (COSName kind : new COSName[] {COSName.XOBJECT, COSName.PATTERN, COSName.FONT}) {
      if (resources.getDictionaryObject(kind) instanceof COSDictionary entries) {
        for (COSName name : entries.keySet()) {
          if (entries.getDictionaryObject(name) instanceof COSDictionary entry
              && (entry.containsKey(COSName.GROUP)
                  || entry.getDictionaryObject(COSName.SMASK) instanceof COSStream
                  || entry.getInt("SMaskInData", 0) > 0
                  || uses(entry.getCOSDictionary(COSName.RESOURCES), seen))) {
            return true;
          }
        }
      }
    }
    return false;
  }

  private static boolean blends(COSDictionary state) {
    COSBase blend = state.getDictionaryObject(COSName.BM);
    if (blend instanceof COSArray array && array.size() > 0) {
      blend = array.getObject(0);
    }
    return state.getFloat(COSName.CA, 1) < 1
        || state.getFloat(COSName.CA_NS, 1) < 1
        || state.getDictionaryObject(COSName.SMASK) instanceof COSDictionary
        || (blend instanceof COSName name
            && !name.getName().equals("Normal")
            && !name.getName().equals("Compatible"));
  }

  /**
   * Moves the page's content into the group.
   *
   * @param within where the content may show, in user space
   */
  void detach(PDDocument document, PDPage page, Rectangle within) throws IOException {
    PDRectangle box = PageStamper.rectangle(within);
    PDFormXObject own = form(document, box, page.getResources().getCOSObject(), group);
    try (InputStream in = page.getContents();
        OutputStream out = own.getCOSObject().createOutputStream(COSName.FLATE_DECODE)) {
      in.transferTo(out);
    }
    COSDictionary around = new COSDictionary();
    around.setItem(COSName.TYPE, COSName.GROUP);
    around.setItem(COSName.S, COSName.TRANSPARENCY);
    around.setItem(COSName.CS, blendSpace);
    around.setItem(COSName.I, COSBoolean.TRUE);
    COSDictionary spaces = new COSDictionary();
    spaces.setItem(BLEND_SPACE, blendSpace);
    COSDictionary objects = new COSDictionary();
    objects.setItem(CONTENT, own);
    COSDictionary resources = new COSDictionary();
    resources.setItem(COSName.COLORSPACE, spaces);
    resources.setItem(COSName.XOBJECT, objects);
    PDFormXObject white = form(document, box, resources, around);
    String paint =
        "/BlendSpace cs"
            + (components == 4 ? " 0" : " 1").repeat(components)
            + " sc "
            + String.join(
                " ",
                StripForm.number(within.llx()),
                StripForm.number(within.lly()),
                StripForm.number(within.width()),
                StripForm.number(within.height()))
            + " re f /Content Do\n";
    write(white.getCOSObject(), paint);

    COSDictionary pageResources = new COSDictionary();
    COSDictionary pageObjects = new COSDictionary();
    pageObjects.setItem(CONTENT, white);
    pageResources.setItem(COSName.XOBJECT, pageObjects);
    page.setResources(new PDResources(pageResources));
    page.getCOSObject().removeItem(COSName.GROUP);
    COSStream content = document.getDocument().createCOSStream();
    write(content, "/Content Do\n");
    page.getCOSObject().setItem(COSName.CONTENTS, content);
  }

  private static PDFormXObject form(
      PDDocument document, PDRectangle box, COSDictionary resources, COSDictionary group) {
    PDFormXObject form = new PDFormXObject(document);
    form.setBBox(box);
    form.setResources(new PDResources(resources));
    COSDictionary isolated = new COSDictionary(group);
    isolated.setItem(COSName.I, COSBoolean.TRUE);
    form.getCOSObject().setItem(COSName.GROUP, isolated);
    return form;
  }

  private static void write(COSStream stream, String content) throws IOException {
    try (OutputStream out = stream.createOutputStream()) {
      out.write(content.getBytes(StandardCharsets.US_ASCII));
    }
  }
}
