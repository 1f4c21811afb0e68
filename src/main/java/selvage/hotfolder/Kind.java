package selvage.hotfolder;

/** What is dropped into a folder. */
enum Kind {
  /** To be stamped. */
  JOB("job"),
  /** To be scored. */
  MEASUREMENT("measurement");

  private final String word;

  Kind(String word) {
    this.word = word;
  }

  String word() {
    return word;
  }
}
