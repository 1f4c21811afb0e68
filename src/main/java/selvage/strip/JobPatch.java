package selvage.strip;

import java.util.Objects;
import java.util.Optional;
import selvage.color.Aim;
import selvage.ink.InkMixture;

/**
 * A patch of the job's own colours, before it has a place on the strip.
 *
 * @param mixture occurs in the job in exactly these tints
 * @param aim what it ought to measure
 * @param role what kind of colour it is; see {@link JobSet}
 * @param reason why it was taken
 * @param where in the job its colour is found; empty where that is not known
 * @param areaPercent share of the counted area that has exactly this mixture
 * @param representsPercent share of the inked area for which it stands
 */
public record JobPatch(
    InkMixture mixture,
    Aim aim,
    String role,
    Reason reason,
    Optional<PatchPlace> where,
    double areaPercent,
    double representsPercent) {
  public JobPatch {
    Objects.requireNonNull(mixture, "mixture");
    Objects.requireNonNull(aim, "aim");
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(where, "where");
    if (mixture.isPaper() || role.isBlank()) {
      throw new IllegalArgumentException("job patch \"" + role + "\" of " + mixture);
    }
  }

  JobPatch at(Optional<PatchPlace> place) {
    return new JobPatch(mixture, aim, role, reason, place, areaPercent, representsPercent);
  }
}
