package selvage.cli;

/** The exit statuses of every command. */
final class ExitStatus {
  /** Done; for {@code score}: pass. */
  static final int DONE = 0;

  /** A fault in the program. */
  static final int FAULT = 1;

  /** The command line was wrong. */
  static final int USAGE = 2;

  /** Input that can't be used. */
  static final int INPUT = 3;

  /** Scored, out of tolerance. */
  static final int FAIL = 4;

  /** Scored, too close to the limit to decide. */
  static final int UNDECIDED = 5;

  private ExitStatus() {}
}
