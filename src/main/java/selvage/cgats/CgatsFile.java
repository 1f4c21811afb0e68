package selvage.cgats;

import java.util.List;
import selvage.finding.Finding;

/**
 * A file in the CGATS text format.
 *
 * @param fileName as the user named it, for messages
 * @param tables at least one, in the file's order; each has data
 * @param findings what had to be guessed or put right in reading
 */
public record CgatsFile(String fileName, List<CgatsTable> tables, List<Finding> findings) {
  public CgatsFile {
    tables = List.copyOf(tables);
    findings = List.copyOf(findings);
    if (tables.isEmpty()) {
      throw new IllegalArgumentException(fileName + ": no table");
    }
  }

  /** The first table. */
  public CgatsTable first() {
    return tables.get(0);
  }
}
