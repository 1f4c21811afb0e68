package selvage.separation;

import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** Reads which blending space a transparency group's colour space makes. */
final class GroupSpaces {
  private static final int MOST_DEPTH = 4;

  private GroupSpaces() {}

  /**
   * @param attributes the group attributes dictionary
   * @param resources where a named colour space is looked up; may be null
   * @param inherited what holds where the group states none
   */
  static Layer.Blending blending(
      COSDictionary attributes, COSDictionary resources, Layer.Blending inherited) {
    Layer.Blending stated = of(attributes.getDictionaryObject(COSName.CS), resources, 0);
    return stated == null ? inherited : stated;
  }

  private static Layer.Blending of(COSBase space, COSDictionary resources, int depth) {
    if (space instanceof COSName name) {
      return switch (name.getName()) {
        case "DeviceGray", "G" -> Layer.Blending.GRAY;
        case "DeviceRGB", "RGB" -> Layer.Blending.RGB;
        case "DeviceCMYK", "CMYK" -> Layer.Blending.CMYK;
        default -> {
          COSDictionary spaces =
              resources == null ? null : resources.getCOSDictionary(COSName.COLORSPACE);
          COSBase found = spaces == null ? null : spaces.getDictionaryObject(name);
          yield found == null || depth >= MOST_DEPTH ? null : of(found, resources, depth + 1);
        }
      };
    }
    if (space instanceof COSArray array
        && array.size() > 0
        && array.getObject(0) instanceof COSName family) {
      return switch (family.getName()) {
        case "CalGray" -> Layer.Blending.GRAY;
        case "CalRGB" -> Layer.Blending.RGB;
        case "ICCBased" ->
            array.size() > 1 && array.getObject(1) instanceof COSDictionary profile
                ? switch (profile.getInt(COSName.N, 0)) {
                  case 1 -> Layer.Blending.GRAY;
                  case 3 -> Layer.Blending.RGB;
                  case 4 -> Layer.Blending.CMYK;
                  default -> null;
                }
                : null;
        default -> depth >= MOST_DEPTH ? null : of(family, resources, depth + 1);
      };
    }
    return null;
  }
}
