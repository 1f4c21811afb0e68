package selvage.ledger;

import java.time.Instant;

/**
 * A calibration of a proofing system, as somebody recorded it.
 *
 * @param proofingSystem as the label of its proofs names it
 * @param time when it was calibrated
 * @param note in words; may be empty
 */
public record Calibration(String proofingSystem, Instant time, String note) {
  public Calibration {
    proofingSystem = RecordJson.required("the proofing system", proofingSystem).strip();
    time = StoredText.moment(time);
    note = StoredText.clean(note);
  }

  String id() {
    return StoredText.id(proofingSystem, StoredText.time(time));
  }
}
