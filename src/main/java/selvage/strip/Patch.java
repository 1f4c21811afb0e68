package selvage.strip;

import java.util.Objects;
import java.util.Optional;
import selvage.color.Aim;
import selvage.ink.InkMixture;

/**
 * One measurable patch.
 *
 * @param id unique within the strip and set, for example {@code J01} or {@code S07}
 * @param set job or standard; a patch that serves both stands twice, with the same box
 * @param role why it is there, for example {@code spot-solid}, {@code solid}, {@code substrate}
 * @param mixture what is printed
 * @param aim what it ought to measure
 * @param areaPercent share of the counted sheet area that has exactly this mixture; 0 for a mixture
 *     that the job does not use
 * @param representsPercent share of the inked area for which a job patch stands; 0 in the standard
 *     set
 * @param row counted from 1, from the bottom
 * @param column counted from 1, along the row
 * @param box where it lies in the strip
 * @param reason why it stands in the job set; empty in the standard set
 * @param where in the job its colour is found; empty in the standard set, or where not known
 */
public record Patch(
    String id,
    PatchSet set,
    String role,
    InkMixture mixture,
    Aim aim,
    double areaPercent,
    double representsPercent,
    int row,
    int column,
    BoxMm box,
    Optional<Reason> reason,
    Optional<PatchPlace> where) {
  public Patch {
    Objects.requireNonNull(set, "set");
    Objects.requireNonNull(mixture, "mixture");
    Objects.requireNonNull(aim, "aim");
    Objects.requireNonNull(box, "box");
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(where, "where");
    if (id.isBlank() || role.isBlank()) {
      throw new IllegalArgumentException("a patch needs an id and a role");
    }
    if (!(areaPercent >= 0 && areaPercent <= 100.001)
        || !(representsPercent >= 0 && representsPercent <= 100.001)) {
      throw new IllegalArgumentException(
          id + ": shares of " + areaPercent + " % and " + representsPercent + " %");
    }
  }
}
