package selvage.ledger;

/**
 * The database failed at work that it was open for: it is locked, out of reach, full or damaged.
 * Nothing of the work at hand was kept; the same call may be made again later.
 */
public final class LedgerException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /**
   * Tells of a failure.
   *
   * @param ledger the ledger as {@link Ledger#name()} names it
   */
  LedgerException(String ledger, Exception cause) {
    super("the ledger " + ledger + " failed: " + StoredText.firstLine(cause), cause);
  }
}
