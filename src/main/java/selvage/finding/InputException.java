package selvage.finding;

/**
 * Input that can't be used. The message is one line for the person who gave it: where, what was
 * expected, what was found, what to do. The command line prints it and ends with status 3.
 */
public final class InputException extends Exception {
  private static final long serialVersionUID = 1L;

  private InputException(String message, Throwable cause) {
    super(message, cause);
  }

  /**
   * A fault of a whole file.
   *
   * @param file the file as the user named it
   * @param problem what was expected, what was found, and what to do
   */
  public static InputException of(String file, String problem) {
    return new InputException(file + ": " + problem, null);
  }

  /** As {@link #of(String, String)}, keeping the cause for a developer's log. */
  public static InputException of(String file, String problem, Throwable cause) {
    return new InputException(file + ": " + problem, cause);
  }

  /**
   * A fault at a line of a text file.
   *
   * @param line counted from 1
   * @param field the column or keyword at fault
   */
  public static InputException at(String file, long line, String field, String problem) {
    return new InputException(file + ":" + line + ": " + field + ": " + problem, null);
  }
}
