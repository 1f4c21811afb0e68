package selvage.score;

import java.util.Objects;
import selvage.ink.InkMixture;
import selvage.strip.Patch;

/**
 * What to send for a patch that is out of tolerance.
 *
 * @param patch the patch
 * @param corrected what to send instead of its mixture
 * @param de00Now ΔE00 read
 * @param de00After ΔE00 predicted with the corrected mixture, by a fit that did not see this patch
 * @param limit the least limit on the patch alone
 */
public record PatchMend(
    Patch patch, InkMixture corrected, double de00Now, double de00After, double limit) {
  public PatchMend {
    Objects.requireNonNull(patch, "patch");
    Objects.requireNonNull(corrected, "corrected");
    if (!(de00Now >= 0 && de00After >= 0 && limit > 0)) {
      throw new IllegalArgumentException(patch.id() + ": " + de00Now + ", " + de00After);
    }
  }
}
