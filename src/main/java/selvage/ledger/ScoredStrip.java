package selvage.ledger;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * A scored strip out of the ledger. What the proof's label says of it comes from the job that the
 * score names, else from the latest job with a strip of that id.
 *
 * @param scoreId the score
 * @param stripId the strip
 * @param jobId the job, where the ledger has it
 * @param page of the job, counted from 1
 * @param received when the measurement was taken
 * @param proof the stamped proof, else the measurement's file
 * @param proofingSystem as the label names it
 * @param substrate as the label names it
 * @param condition the reference printing condition's name
 * @param simulated whether nobody measured a print
 * @param tolerance the tolerance set's name
 * @param sets what each set came to
 * @param patches each with its reading, in no order that means anything
 */
public record ScoredStrip(
    String scoreId,
    String stripId,
    Optional<String> jobId,
    int page,
    Instant received,
    String proof,
    Optional<String> proofingSystem,
    Optional<String> substrate,
    Optional<String> condition,
    boolean simulated,
    String tolerance,
    List<SetResult> sets,
    List<Reading> patches) {
  /**
   * What a set came to.
   *
   * @param areaMeanDe00 weighed by area in the job set; the plain mean where there is none
   */
  public record SetResult(
      PatchSet set, Verdict verdict, double meanDe00, double areaMeanDe00, double maxDe00) {
    public SetResult {
      Objects.requireNonNull(set, "set");
      Objects.requireNonNull(verdict, "verdict");
    }
  }

  /**
   * A patch's reading.
   *
   * @param mixture the inks; empty where the ledger lacks the job
   * @param role why the patch is there; empty where the ledger lacks the job
   * @param overLimit whether it is over the tightest limit on it by itself; empty where it has none
   */
  public record Reading(
      PatchSet set,
      String id,
      Optional<InkMixture> mixture,
      Optional<String> role,
      Lab aim,
      Lab lab,
      double de00,
      Optional<Boolean> overLimit) {
    public Reading {
      Objects.requireNonNull(set, "set");
      Objects.requireNonNull(aim, "aim");
      Objects.requireNonNull(lab, "lab");
    }
  }

  public ScoredStrip {
    sets = List.copyOf(sets);
    patches = List.copyOf(patches);
  }

  /** What one set came to, where it was measured. */
  public Optional<SetResult> set(PatchSet wanted) {
    for (SetResult one : sets) {
      if (one.set() == wanted) {
        return Optional.of(one);
      }
    }
    return Optional.empty();
  }
}
