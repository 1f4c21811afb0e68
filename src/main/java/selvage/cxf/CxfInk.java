package selvage.cxf;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/**
 * The characterisation of a spot ink (CxF/X-4, ISO 17972-4 [iso17972-4]).
 *
 * @param name the ink's; empty where it has none
 * @param measurements of its tints
 */
public record CxfInk(String name, List<Measurement> measurements) {
  public CxfInk {
    measurements = List.copyOf(measurements);
  }

  /**
   * A measurement of one tint.
   *
   * @param words all that stands in it and may be an object's id
   * @param tintPercent where it is stated
   * @param overBlack whether the ink lies on black there, not on the substrate
   * @param line in the file, counted from 1
   */
  public record Measurement(
      List<String> words, OptionalDouble tintPercent, boolean overBlack, int line) {
    public Measurement {
      words = List.copyOf(words);
      Objects.requireNonNull(tintPercent, "tintPercent");
    }
  }
}
