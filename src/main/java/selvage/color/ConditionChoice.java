package selvage.color;

import java.util.List;
import java.util.Objects;
import selvage.finding.Finding;

/**
 * A reference printing condition and the doubts about the choice.
 *
 * @param condition the condition to use
 * @param findings what was substituted or guessed
 */
public record ConditionChoice(ReferenceCondition condition, List<Finding> findings) {
  public ConditionChoice {
    Objects.requireNonNull(condition, "condition");
    findings = List.copyOf(findings);
  }
}
