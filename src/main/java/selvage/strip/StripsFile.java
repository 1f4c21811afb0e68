package selvage.strip;

import java.util.List;
import selvage.survey.JobFile;

/**
 * The record of a stamped proof ({@code PROOF.strips.json}).
 *
 * @param job the customer's file
 * @param proof the stamped file's name
 * @param conditionName the reference printing condition
 * @param conditionSource {@code built-in}, {@code output-intent} or {@code file}
 * @param strips one a stamped page
 * @param label what the strips' label says of the proof; empty where nothing is known of it
 */
public record StripsFile(
    JobFile job,
    String proof,
    String conditionName,
    String conditionSource,
    List<Strip> strips,
    List<StripLabel.Item> label) {
  public StripsFile {
    strips = List.copyOf(strips);
    label = List.copyOf(label);
  }

  /** A record that does not tell what the label says. */
  public StripsFile(
      JobFile job, String proof, String conditionName, String conditionSource, List<Strip> strips) {
    this(job, proof, conditionName, conditionSource, strips, List.of());
  }
}
