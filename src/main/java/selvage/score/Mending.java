package selvage.score;

import java.util.List;
import java.util.Objects;
import selvage.color.Correction;

/**
 * What would mend a print.
 *
 * @param correction what to send to the device
 * @param predicted the score of each strip that a reprint through the correction would get: each
 *     patch predicted from a fit and a correction made without it, with the error of its own that
 *     they leave
 * @param patches spot and job patches out of tolerance, and what to send for them
 * @param words the same in plain words, a sentence each
 */
public record Mending(
    Correction correction,
    List<ProofScore> predicted,
    List<PatchMend> patches,
    List<String> words) {
  public Mending {
    Objects.requireNonNull(correction, "correction");
    predicted = List.copyOf(predicted);
    patches = List.copyOf(patches);
    words = List.copyOf(words);
  }
}
