package selvage.color;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;

/**
 * What a CxF3 file says, before it is asked which inks that makes.
 *
 * @param objects in the file's order
 * @param specifications by their id
 * @param inks the file's spot ink characterisations
 */
record CxfDocument(List<Entry> objects, Map<String, Specification> specifications, List<Ink> inks) {
  CxfDocument {
    objects = List.copyOf(objects);
    specifications = Map.copyOf(specifications);
    inks = List.copyOf(inks);
  }

  /** How a colour is given. */
  enum Kind {
    LAB,
    XYZ,
    SPECTRUM
  }

  /**
   * A colour as it stands.
   *
   * @param specification the id of its specification, or empty
   * @param startNm the first wavelength where it stands with the spectrum
   * @param values three, or one a wavelength
   * @param line where it stands
   */
  record Stated(
      Kind kind, String specification, OptionalDouble startNm, List<Double> values, int line) {
    Stated {
      Objects.requireNonNull(kind, "kind");
      values = List.copyOf(values);
    }
  }

  /**
   * An Object.
   *
   * @param ink the spot that its device values name, or empty
   * @param tintPercent of that spot; 100 where none is stated
   * @param overprint whether its device values name more than one ink
   * @param line where it begins
   */
  record Entry(
      String id,
      String name,
      String ink,
      double tintPercent,
      boolean overprint,
      List<Stated> colors,
      int line) {
    Entry {
      colors = List.copyOf(colors);
    }
  }

  /**
   * How colours were measured or computed.
   *
   * @param illuminant and {@code observer} as they stand; empty where they don't
   */
  record Specification(
      String illuminant, String observer, OptionalDouble startNm, OptionalDouble stepNm) {
    boolean isD50TwoDegrees() {
      return (illuminant.isEmpty() || illuminant.contains("D50")) && !observer.contains("10");
    }
  }

  /** A spot ink's characterisation (CxF/X-4): measurements of its tints. */
  record Ink(String name, List<Measurement> measurements) {
    Ink {
      measurements = List.copyOf(measurements);
    }
  }

  /**
   * A measurement of one tint.
   *
   * @param words all that stands in it and may be an object's id
   * @param overBlack whether the ink lies on black there, not on the substrate
   */
  record Measurement(List<String> words, OptionalDouble tintPercent, boolean overBlack) {
    Measurement {
      words = List.copyOf(words);
    }
  }
}
