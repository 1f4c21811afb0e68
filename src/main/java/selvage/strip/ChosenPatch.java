package selvage.strip;

import java.util.Objects;
import selvage.ink.InkMixture;

/**
 * A patch that a set is to have.
 *
 * @param mixture of the job
 * @param reason why it is there; {@link Reason#OPERATOR} where an operator took it
 */
public record ChosenPatch(InkMixture mixture, Reason reason) {
  public ChosenPatch {
    Objects.requireNonNull(mixture, "mixture");
    Objects.requireNonNull(reason, "reason");
  }
}
