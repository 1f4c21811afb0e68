package selvage.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.Finding;
import selvage.measurement.Alignment;
import selvage.measurement.Repeatability;

/**
 * A measured strip held against a tolerance set.
 *
 * @param stripId the strip
 * @param page of the job, counted from 1
 * @param source the measurement file
 * @param simulated whether the measurement says that nobody made it
 * @param tolerance what it was held against
 * @param metricNotes how the figures were made
 * @param verdict on the whole: fail if any set fails
 * @param sets the sets that were measured, the job's first
 * @param checks in the tolerance set's order
 * @param patches in the strip's order
 * @param alignment how readings were matched to patches
 * @param repeatability how repeated readings spread; empty where no patch was read twice
 * @param diagnosis what happened to the print, where it was asked
 * @param findings doubts, from the measurement on
 */
public record ProofScore(
    String stripId,
    int page,
    String source,
    boolean simulated,
    ToleranceSet tolerance,
    List<String> metricNotes,
    Verdict verdict,
    List<SetScore> sets,
    List<Check> checks,
    List<ScoredPatch> patches,
    Alignment alignment,
    Optional<Repeatability> repeatability,
    Optional<Diagnosis> diagnosis,
    List<Finding> findings) {
  public ProofScore {
    Objects.requireNonNull(tolerance, "tolerance");
    Objects.requireNonNull(verdict, "verdict");
    Objects.requireNonNull(alignment, "alignment");
    Objects.requireNonNull(repeatability, "repeatability");
    Objects.requireNonNull(diagnosis, "diagnosis");
    metricNotes = List.copyOf(metricNotes);
    sets = List.copyOf(sets);
    checks = List.copyOf(checks);
    patches = List.copyOf(patches);
    findings = List.copyOf(findings);
  }

  /** The same score with a diagnosis; patches that it found odd are findings. */
  public ProofScore with(Diagnosis found) {
    List<Finding> more = new ArrayList<>(findings);
    for (String patch : found.oddPatches()) {
      more.add(
          Finding.warning(
              "patch-reads-odd",
              patch
                  + " reads far off what the rest say: measure it again; the diagnosis leaves it"
                  + " out, the verdict counts it"));
    }
    return with(source, Optional.of(found), more);
  }

  /** The same score with one more finding. */
  public ProofScore with(Finding finding) {
    List<Finding> more = new ArrayList<>(findings);
    more.add(finding);
    return with(source, diagnosis, more);
  }

  /**
   * The same score, telling of a file by another name: that of a file which lies somewhere only
   * while it is worked on says nothing to anybody.
   */
  public ProofScore calling(String file, String name) {
    List<Finding> renamed = new ArrayList<>();
    for (Finding finding : findings) {
      renamed.add(
          new Finding(finding.code(), finding.severity(), finding.text().replace(file, name)));
    }
    return with(source.replace(file, name), diagnosis, renamed);
  }

  private ProofScore with(String told, Optional<Diagnosis> found, List<Finding> doubts) {
    return new ProofScore(
        stripId,
        page,
        told,
        simulated,
        tolerance,
        metricNotes,
        verdict,
        sets,
        checks,
        patches,
        alignment,
        repeatability,
        found,
        doubts);
  }
}
