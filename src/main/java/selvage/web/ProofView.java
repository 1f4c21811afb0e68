package selvage.web;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.finding.Finding;
import selvage.ledger.JobRecord;
import selvage.ledger.ScoreSummary;
import selvage.strip.StripsFile;

/**
 * A proof on its page.
 *
 * @param job what became of it
 * @param strips as they were stamped; empty where it was refused
 * @param findings doubts that stamping left
 * @param files to download
 * @param scores the latest first
 * @param canScore whether a measurement can be handed in here
 * @param complaint why a measurement that was handed in can't be used; empty for none
 */
public record ProofView(
    JobRecord job,
    Optional<StripsFile> strips,
    List<Finding> findings,
    List<ProofFile> files,
    List<ScoreSummary> scores,
    boolean canScore,
    String complaint) {
  /**
   * A file of the proof.
   *
   * @param label what it is
   * @param name in the address
   * @param isThere whether it still is where the ledger says
   */
  public record ProofFile(String label, String name, boolean isThere) {}

  public ProofView {
    Objects.requireNonNull(job, "job");
    Objects.requireNonNull(strips, "strips");
    Objects.requireNonNull(complaint, "complaint");
    findings = List.copyOf(findings);
    files = List.copyOf(files);
    scores = List.copyOf(scores);
  }
}
