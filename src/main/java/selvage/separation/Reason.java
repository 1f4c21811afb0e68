package selvage.separation;

/** Says in a finding why something could not be read. */
final class Reason {
  private Reason() {}

  /** An exception's message, where it was written to be read; else that the file is unsound. */
  static String of(Throwable e) {
    if (e instanceof StackOverflowError) {
      return "its objects lie too deep in one another";
    }
    if (e instanceof RuntimeException || e.getMessage() == null) {
      return "it is not as the standard says (" + e.getClass().getSimpleName() + ")";
    }
    return e.getMessage();
  }
}
