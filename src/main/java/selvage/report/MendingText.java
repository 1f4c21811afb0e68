package selvage.report;

import selvage.score.Mending;

/** What would mend a print, as text for a terminal. */
final class MendingText {
  private MendingText() {}

  /** A heading and a sentence a line. */
  static String of(Mending mending) {
    StringBuilder text = new StringBuilder("What would mend it:\n");
    for (String sentence : mending.words()) {
      text.append("  ").append(sentence).append('\n');
    }
    return text.append('\n').toString();
  }
}
