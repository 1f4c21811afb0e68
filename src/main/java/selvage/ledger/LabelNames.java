package selvage.ledger;

import java.util.List;

/**
 * The names that jobs in the ledger bear, each once and in order.
 *
 * @param folders of the hot folders
 * @param proofingSystems as labels name them
 * @param substrates as labels name them
 * @param conditions of reference printing
 */
public record LabelNames(
    List<String> folders,
    List<String> proofingSystems,
    List<String> substrates,
    List<String> conditions) {
  public LabelNames {
    folders = List.copyOf(folders);
    proofingSystems = List.copyOf(proofingSystems);
    substrates = List.copyOf(substrates);
    conditions = List.copyOf(conditions);
  }
}
