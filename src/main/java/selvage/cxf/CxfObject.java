package selvage.cxf;

import java.util.List;
import java.util.Map;

/**
 * An Object of a CxF3 document: a target, a measured patch, a named colour.
 *
 * @param type the file's ObjectType, for example {@code M1_Measurement} or {@code Target}
 * @param name empty where it has none
 * @param id empty where it has none
 * @param tags values by name in capitals, for example {@code LOCATION}
 * @param tints percent by colorant name; empty without device values
 * @param colors its colour values in the file's order
 * @param line in the file, counted from 1
 */
public record CxfObject(
    String type,
    String name,
    String id,
    Map<String, String> tags,
    Map<String, Double> tints,
    List<CxfColor> colors,
    int line) {
  public CxfObject {
    tags = Map.copyOf(tags);
    tints = Map.copyOf(tints);
    colors = List.copyOf(colors);
  }

  /** For messages: its name, else its id. */
  public String describe() {
    return name.isEmpty() ? id.isEmpty() ? "Object" : id : name;
  }
}
