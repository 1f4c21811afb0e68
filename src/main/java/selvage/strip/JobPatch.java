package selvage.strip;

import java.util.Objects;
import selvage.color.Aim;
import selvage.ink.InkMixture;

/**
 * A patch of the job's own colours, before it has a place.
 *
 * @param mixture occurs in the job in exactly these tints
 * @param aim what it ought to measure
 * @param role why it was taken; see {@link JobSet}
 * @param areaPercent share of the counted area that has exactly this mixture
 * @param representsPercent share of the inked area for which it stands
 */
public record JobPatch(
    InkMixture mixture, Aim aim, String role, double areaPercent, double representsPercent) {
  public JobPatch {
    Objects.requireNonNull(mixture, "mixture");
    Objects.requireNonNull(aim, "aim");
    if (mixture.isPaper() || role.isBlank()) {
      throw new IllegalArgumentException("job patch \"" + role + "\" of " + mixture);
    }
  }
}
