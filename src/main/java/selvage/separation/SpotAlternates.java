package selvage.separation;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;

/**
 * The alternate colours that a job gives for its colorants: for each name the first Separation that
 * defines it, else its component in the first DeviceN.
 */
final class SpotAlternates {
  /**
   * Where a colorant's alternate colour is stated.
   *
   * @param component which input of the tint transform is the colorant
   * @param components how many inputs it has
   * @param space the alternate space
   * @param transform the tint transform
   * @param resources of the stream that chose the space; may be null
   * @param weak whether it is one component of a DeviceN
   */
  record Alternate(
      int component,
      int components,
      COSBase space,
      COSBase transform,
      COSDictionary resources,
      boolean weak) {}

  private final Map<String, Alternate> alternates = new LinkedHashMap<>();

  void note(
      String name,
      int component,
      int components,
      COSBase space,
      COSBase transform,
      COSDictionary resources) {
    Alternate known = alternates.get(name);
    if (known == null || known.weak()) {
      alternates.put(
          name, new Alternate(component, components, space, transform, resources, false));
    }
  }

  void noteWeak(
      String name,
      int component,
      int components,
      COSBase space,
      COSBase transform,
      COSDictionary resources) {
    alternates.putIfAbsent(
        name, new Alternate(component, components, space, transform, resources, true));
  }

  Set<String> names() {
    return alternates.keySet();
  }

  Alternate of(String name) {
    return alternates.get(name);
  }
}
