package selvage.measurement;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import selvage.finding.Finding;

/**
 * The readings of one table of a measurement file.
 *
 * @param source the file, and the table where it holds several, for messages
 * @param header the header's keywords in capitals and their values, joined where one stands several
 *     times
 * @param condition how it was measured, as far as the file says
 * @param labOrigin where the Lab values come from
 * @param labMethod how they were come by, for people
 * @param simulated whether the file says that it is no measurement of a print
 * @param readings at least one, in the file's order
 * @param findings doubts met in reading
 */
public record Measurement(
    String source,
    Map<String, String> header,
    MeasurementCondition condition,
    LabOrigin labOrigin,
    String labMethod,
    boolean simulated,
    List<Reading> readings,
    List<Finding> findings) {
  /** The header keyword that names the strip. */
  public static final String STRIP_KEYWORD = "STRIP_ID";

  /** The header keyword of a measurement that nobody measured. */
  public static final String SIMULATED_KEYWORD = "SIMULATED";

  /** Where Lab values come from. */
  public enum LabOrigin {
    /** From the file's own LAB columns. */
    LAB("Lab: as the measurement file has it, D50, 2°, absolute"),
    /** From its XYZ columns, by the white of ISO 13655. */
    XYZ("Lab: from the file's XYZ with the white 96.422 100 82.521 (ISO 13655)"),
    /** From its spectra. */
    SPECTRA("Lab: from the file's spectra");

    private final String method;

    LabOrigin(String method) {
      this.method = method;
    }

    /** For people: where the values come from. */
    public String method() {
      return method;
    }
  }

  /** A measurement whose Lab values need no further word on how they were come by. */
  public Measurement(
      String source,
      Map<String, String> header,
      MeasurementCondition condition,
      LabOrigin labOrigin,
      boolean simulated,
      List<Reading> readings,
      List<Finding> findings) {
    this(source, header, condition, labOrigin, labOrigin.method(), simulated, readings, findings);
  }

  public Measurement {
    Objects.requireNonNull(source, "source");
    Objects.requireNonNull(condition, "condition");
    Objects.requireNonNull(labOrigin, "labOrigin");
    Objects.requireNonNull(labMethod, "labMethod");
    header = Map.copyOf(header);
    readings = List.copyOf(readings);
    findings = List.copyOf(findings);
    if (readings.isEmpty()) {
      throw new IllegalArgumentException(source + ": no readings");
    }
  }
}
