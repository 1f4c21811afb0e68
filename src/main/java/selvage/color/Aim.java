package selvage.color;

import java.util.Objects;

/**
 * The colour that a mixture ought to have.
 *
 * @param lab absolute colorimetric
 * @param source where it comes from
 */
public record Aim(Lab lab, AimSource source) {
  public Aim {
    Objects.requireNonNull(lab, "lab");
    Objects.requireNonNull(source, "source");
  }
}
