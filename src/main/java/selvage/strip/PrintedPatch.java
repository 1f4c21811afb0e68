package selvage.strip;

import java.util.Objects;
import java.util.Optional;
import selvage.color.Aim;
import selvage.ink.InkMixture;

/**
 * A patch that is printed once and belongs to the job set, the standard set or both.
 *
 * @param mixture what is printed
 * @param aim what it ought to measure
 * @param jobRole its role in the job set, if it stands there
 * @param standardRole its role in the standard set, if it stands there
 * @param reason why it stands in the job set, if it does
 * @param where in the job its colour is found, if it stands in the job set and that is known
 * @param areaPercent share of the counted area that has exactly this mixture
 * @param representsPercent share of the inked area for which it stands; 0 outside the job set
 */
public record PrintedPatch(
    InkMixture mixture,
    Aim aim,
    Optional<String> jobRole,
    Optional<String> standardRole,
    Optional<Reason> reason,
    Optional<PatchPlace> where,
    double areaPercent,
    double representsPercent) {
  public PrintedPatch {
    Objects.requireNonNull(mixture, "mixture");
    Objects.requireNonNull(aim, "aim");
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(where, "where");
    if (jobRole.isEmpty() && standardRole.isEmpty()) {
      throw new IllegalArgumentException(mixture + " belongs to no set");
    }
  }
}
