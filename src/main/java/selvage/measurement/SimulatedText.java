package selvage.measurement;

import java.util.List;
import selvage.cgats.CgatsWriter;
import selvage.color.Lab;
import selvage.strip.Strip;
import selvage.strip.StripsFile;

/**
 * Writes the readings of a {@link VirtualDevice} as CGATS text that says of itself, in the header
 * of every table, that nothing was printed or measured. One table a strip; Lab to 0.0001.
 */
public final class SimulatedText {
  private final CgatsWriter writer = new CgatsWriter();
  private final StripsFile file;
  private final Drift drift;

  /**
   * Begins a text.
   *
   * @param file the proof whose strips are written
   * @param drift what the device did, for the header
   */
  public SimulatedText(StripsFile file, Drift drift) {
    this.file = file;
    this.drift = drift;
  }

  /** Adds the readings of a strip. */
  public SimulatedText add(Strip strip, List<Reading> readings) {
    writer
        .table()
        .comment("SIMULATED: nothing was printed or measured. Made by a virtual proofing device.")
        .keyword("ORIGINATOR", "Selvage, virtual proofing device (SIMULATED)")
        .keyword("FILE_DESCRIPTOR", "SIMULATED measurement of control strip " + strip.stripId())
        .keyword("DESCRIPTOR", file.job().file() + ", page " + strip.page())
        .keyword("INSTRUMENTATION", "none (SIMULATED)")
        .keyword("PRINT_CONDITIONS", file.conditionName())
        .keyword(Measurement.SIMULATED_KEYWORD, "yes")
        .keyword("DRIFT", drift.describe())
        .keyword(Measurement.STRIP_KEYWORD, strip.stripId())
        .columns(List.of("SAMPLE_ID", "SAMPLE_NAME", "LAB_L", "LAB_A", "LAB_B"));
    for (Reading reading : readings) {
      Lab lab = reading.lab();
      writer.row(
          List.of(
              reading.id(),
              reading.name(),
              CgatsWriter.number(lab.l(), 4),
              CgatsWriter.number(lab.a(), 4),
              CgatsWriter.number(lab.b(), 4)));
    }
    return this;
  }

  /** All that was added, to be encoded in UTF-8. */
  public String text() {
    return writer.text();
  }
}
