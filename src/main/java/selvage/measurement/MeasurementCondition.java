package selvage.measurement;

import java.util.Objects;
import java.util.Optional;

/**
 * How a print was measured (ISO 13655 [iso13655]), as far as the file says.
 *
 * @param illumination {@code M0}, {@code M1}, {@code M2} or {@code M3}
 * @param backing for example {@code white}, {@code black}
 * @param geometry for example {@code 45/0}
 * @param filter the file's own word for the filter
 */
public record MeasurementCondition(
    Optional<String> illumination,
    Optional<String> backing,
    Optional<String> geometry,
    Optional<String> filter) {
  /** Nothing is stated. */
  public static final MeasurementCondition UNKNOWN =
      new MeasurementCondition(
          Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  public MeasurementCondition {
    Objects.requireNonNull(illumination, "illumination");
    Objects.requireNonNull(backing, "backing");
    Objects.requireNonNull(geometry, "geometry");
    Objects.requireNonNull(filter, "filter");
  }

  /** Whether a polarizing filter was in place (M3). */
  public boolean polarized() {
    return illumination.filter("M3"::equals).isPresent();
  }

  /** For people: {@code M1, white backing, 45/0}; {@code not stated} where nothing is known. */
  public String describe() {
    StringBuilder text = new StringBuilder(illumination.orElse("illumination not stated"));
    text.append(", ").append(backing.map(word -> word + " backing").orElse("backing not stated"));
    geometry.ifPresent(word -> text.append(", geometry ").append(word));
    filter.ifPresent(word -> text.append(", filter ").append(word));
    return text.toString();
  }
}
