package selvage.separation;

/** When the work on a page must be done. */
final class Deadline {
  private final long nanoTime;
  private final String message;

  private Deadline(long nanoTime, String message) {
    this.nanoTime = nanoTime;
    this.message = message;
  }

  /**
   * A deadline from now on.
   *
   * @param page counted from 1
   */
  static Deadline ofPage(int page, double seconds) {
    long nanoseconds = (long) Math.min(1e18, seconds * 1e9);
    return new Deadline(
        System.nanoTime() + nanoseconds,
        "page "
            + page
            + ": not read within "
            + Math.round(seconds)
            + " seconds; simplify it or flatten its transparency");
  }

  /**
   * Ends the work where its time is over.
   *
   * @throws ContentLimits.PassedException then
   */
  void check() {
    if (System.nanoTime() - nanoTime > 0) {
      throw new ContentLimits.PassedException(message);
    }
  }
}
