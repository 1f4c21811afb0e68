package selvage.cxf;

import java.util.List;
import java.util.Map;
import selvage.finding.Finding;

/**
 * A CxF3 document.
 *
 * @param fileName as the user named it, for messages
 * @param information the texts of FileInformation by element name in capitals
 * @param specifications by id
 * @param objects in the file's order
 * @param inks the characterisations of spot inks
 * @param findings what had to be guessed in reading
 */
public record CxfFile(
    String fileName,
    Map<String, String> information,
    Map<String, CxfSpecification> specifications,
    List<CxfObject> objects,
    List<CxfInk> inks,
    List<Finding> findings) {
  public CxfFile {
    information = Map.copyOf(information);
    specifications = Map.copyOf(specifications);
    objects = List.copyOf(objects);
    inks = List.copyOf(inks);
    findings = List.copyOf(findings);
  }
}
