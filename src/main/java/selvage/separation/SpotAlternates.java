package selvage.separation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;

/**
 * The alternate colours that a page gives for its colorants. For each name the first Separation
 * that defines it counts, else its component in the first DeviceN; the others are kept to be held
 * against it.
 */
final class SpotAlternates {
  /** A page that defines one colorant more often than this is judged by the first ones. */
  private static final int MOST_A_NAME = 64;

  /**
   * Where a colorant's alternate colour is stated.
   *
   * @param component which input of the tint transform is the colorant
   * @param components how many inputs it has
   * @param space the alternate space
   * @param transform the tint transform
   * @param resources of the stream that chose the space; may be null
   * @param weak whether it is one component of a DeviceN
   * @param where it was met, in words
   */
  record Alternate(
      int component,
      int components,
      COSBase space,
      COSBase transform,
      COSDictionary resources,
      boolean weak,
      String where) {
    private boolean isSame(Alternate other) {
      boolean sameSpace =
          space == other.space
              || (space instanceof COSName
                  && space.equals(other.space)
                  && resources == other.resources);
      return sameSpace && transform == other.transform && component == other.component;
    }
  }

  private final Map<String, List<Alternate>> alternates = new LinkedHashMap<>();

  /**
   * Takes an alternate colour.
   *
   * @param space the alternate space, or a reference to it
   * @param transform the tint transform, or a reference to it
   */
  void note(
      String name,
      int component,
      int components,
      COSBase space,
      COSBase transform,
      COSDictionary resources,
      boolean weak,
      Place place) {
    List<Alternate> known = alternates.computeIfAbsent(name, unused -> new ArrayList<>());
    boolean first = known.isEmpty() || (known.get(0).weak() && !weak);
    if (!first && known.size() >= MOST_A_NAME) {
      return;
    }
    Alternate alternate =
        new Alternate(
            component,
            components,
            direct(space),
            direct(transform),
            resources,
            weak,
            place.toString());
    if (first) {
      known.add(0, alternate);
    } else if (known.stream().noneMatch(alternate::isSame)) {
      known.add(alternate);
    }
  }

  private static COSBase direct(COSBase base) {
    return base instanceof COSObject object ? object.getObject() : base;
  }

  /** All of a colorant's, the one that counts first; empty where it has none. */
  List<Alternate> of(String name) {
    return alternates.getOrDefault(name, List.of());
  }
}
