package selvage.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import selvage.ink.InkMixture;

/** A mending in plain words. */
final class MendingWords {
  private MendingWords() {}

  static List<String> of(boolean found, List<ProofScore> scores, List<PatchMend> patches) {
    List<String> words = new ArrayList<>();
    if (!found) {
      words.add("No cause was found that a correction could undo.");
      return words;
    }
    for (ProofScore score : scores) {
      words.add(prediction(score));
    }
    for (ProofScore score : scores) {
      for (Check check : score.checks()) {
        if (check.verdict() == Verdict.FAIL) {
          words.add(beyond(check));
        }
      }
    }
    for (PatchMend patch : patches) {
      words.add(
          String.format(
              Locale.ROOT,
              "%s: instead of %s send %s; ΔE00 %.2f now, %.2f predicted.",
              patch.patch().id(),
              patch.patch().mixture(),
              patch.corrected(),
              patch.de00Now(),
              patch.de00After()));
    }
    return words;
  }

  private static String prediction(ProofScore score) {
    StringBuilder sets = new StringBuilder();
    for (SetScore set : score.sets()) {
      sets.append(sets.length() == 0 ? "" : "; ")
          .append(
              String.format(
                  Locale.ROOT,
                  "%s mean %.2f, maximum %.2f",
                  set.set().word(),
                  set.meanDe00(),
                  set.maxDe00()));
    }
    return "Page "
        + score.page()
        + ", reprinted through the correction, would probably "
        + switch (score.verdict()) {
          case PASS -> "pass";
          case FAIL -> "still fail";
          case UNDECIDED -> "be too close to a limit to decide";
        }
        + " (predicted ΔE00: "
        + sets
        + ").";
  }

  /**
   * Why a patch stays off, and what would mend it.
   *
   * @param least ΔE00 that the best mixture of the inks leaves
   * @param limit that the patch stays over
   */
  static String reach(InkMixture mixture, double least, double limit) {
    return least > limit
        ? String.format(
            Locale.ROOT,
            "%s is out of reach: no curve and no mixture of these inks comes nearer than ΔE00 %.2f;"
                + " it takes denser inks, another paper, or a profile with more room.",
            mixture,
            least)
        : String.format(
            Locale.ROOT,
            "%s is within reach of a mixture of its own (ΔE00 %.2f), not of the curves that hold"
                + " for all: it takes a new profile of the device.",
            mixture,
            least);
  }

  private static String beyond(Check check) {
    return check.limit().patches() == PatchChoice.SUBSTRATE
        ? "The paper itself is off; no ink mends that: take the right paper."
        : String.format(
            Locale.ROOT,
            "%s would stay at %.2f, over its limit of %.2f; mend the device or its inks first.",
            check.limit().name(),
            check.value(),
            check.limit().limit());
  }
}
