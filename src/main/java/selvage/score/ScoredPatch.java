package selvage.score;

import java.util.Objects;
import selvage.color.Lab;
import selvage.strip.Patch;

/**
 * A patch and how far its reading lies from its aim. Differences are reading minus aim.
 *
 * @param patch the patch
 * @param lab the reading
 * @param de00 CIEDE2000
 * @param de76 ΔE*ab
 * @param dch ΔCh
 * @param dh ΔH*ab, signed
 * @param dl ΔL*, signed
 * @param judged whether it counts for pass or fail
 */
public record ScoredPatch(
    Patch patch,
    Lab lab,
    double de00,
    double de76,
    double dch,
    double dh,
    double dl,
    boolean judged) {
  public ScoredPatch {
    Objects.requireNonNull(patch, "patch");
    Objects.requireNonNull(lab, "lab");
  }
}
