package selvage.cxf;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/**
 * One colour value.
 *
 * @param kind what the numbers are
 * @param specification the id of its ColorSpecification; empty where it names none
 * @param values three, or a spectrum's
 * @param startNm a spectrum's first wavelength, where it states it itself
 * @param line in the file, counted from 1
 */
public record CxfColor(
    Kind kind, String specification, List<Double> values, OptionalDouble startNm, int line) {
  /** What a colour value's numbers are. */
  public enum Kind {
    /** CIELAB. */
    LAB,
    /** Tristimulus values. */
    XYZ,
    /** Reflectance by wavelength. */
    SPECTRUM
  }

  public CxfColor {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(startNm, "startNm");
    values = List.copyOf(values);
  }
}
