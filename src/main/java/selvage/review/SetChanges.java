package selvage.review;

import java.io.IOException;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.function.UnaryOperator;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.report.InkText;
import selvage.strip.ChosenPatch;
import selvage.strip.JobSet;
import selvage.strip.Reason;

/** What an operator may make of a set: each change is checked, made and kept. */
public final class SetChanges {
  private final Clock clock;

  SetChanges(Clock clock) {
    this.clock = clock;
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  /** The set of a page's strip as it stands. */
  public static PageChoice choice(Review review, OpenPage page) {
    PageChoice made = review.choices().get(page.stripPage());
    return made == null ? page.automaticChoice() : made;
  }

  /** What a change is made on, and by whom. */
  public record Editing(Review review, OpenPage page, int seen, String who) {}

  /**
   * Leaves a patch out.
   *
   * @throws InputException where the set has no such patch, or no other
   */
  public void drop(Editing at, InkMixture mixture)
      throws InputException, IOException, Review.StaleException {
    PageChoice now = choice(at.review, at.page);
    requireIn(now, mixture);
    if (now.patches().size() == 1) {
      throw InputException.of("the set", "expected another patch besides this one, found none");
    }
    change(at, Change.Kind.DROPPED, "left out " + words(mixture), one -> one.without(mixture));
  }

  /**
   * Takes a mixture of the job into the set.
   *
   * @throws InputException where the job does not have it, the set has it already, or is full
   */
  public void add(Editing at, InkMixture mixture)
      throws InputException, IOException, Review.StaleException {
    PageChoice now = choice(at.review, at.page);
    if (mixture.isPaper() || at.page.choice().row(mixture).isEmpty()) {
      throw InputException.of(
          words(mixture), "expected a mixture that the job prints here, found none such");
    }
    if (now.indexOf(mixture) >= 0) {
      throw InputException.of(words(mixture), "is in the set already");
    }
    if (now.patches().size() >= JobSet.MOST_PATCHES) {
      throw InputException.of(
          "the set", "has " + JobSet.MOST_PATCHES + " patches, and takes no more; drop one first");
    }
    ChosenPatch patch = new ChosenPatch(mixture, reason(at.page, mixture));
    change(at, Change.Kind.ADDED, "took in " + words(mixture), one -> one.with(patch));
  }

  /** A patch that was chosen and is taken back keeps the reason that it was chosen for. */
  private static Reason reason(OpenPage page, InkMixture mixture) {
    return page.automaticChoice().patches().stream()
        .filter(patch -> patch.mixture().equals(mixture))
        .map(ChosenPatch::reason)
        .findFirst()
        .orElse(Reason.OPERATOR);
  }

  /** Keeps a patch whatever number is asked for, or no longer. */
  public void keep(Editing at, InkMixture mixture, boolean keep)
      throws InputException, IOException, Review.StaleException {
    requireIn(choice(at.review, at.page), mixture);
    change(
        at,
        Change.Kind.KEPT,
        (keep ? "keeps " : "no longer keeps ") + words(mixture),
        one -> one.keeping(mixture, keep));
  }

  /**
   * Moves a patch.
   *
   * @param to its new place, counted from 0
   */
  public void move(Editing at, InkMixture mixture, int to)
      throws InputException, IOException, Review.StaleException {
    requireIn(choice(at.review, at.page), mixture);
    change(
        at,
        Change.Kind.MOVED,
        "moved " + words(mixture) + " to place " + (to + 1),
        one -> one.moved(mixture, to));
  }

  /**
   * Chooses anew with another number; what is kept stays, what was left out stays out.
   *
   * @param count 1 to {@link JobSet#MOST_PATCHES}, or 0 for as many as pay
   */
  public void count(Editing at, int count)
      throws InputException, IOException, Review.StaleException {
    if (count < 0 || count > JobSet.MOST_PATCHES) {
      throw InputException.of(
          "the number of patches", "expected 1 to " + JobSet.MOST_PATCHES + ", found " + count);
    }
    PageChoice now = choice(at.review, at.page);
    JobSet set = at.page.choice().choose(count, now.wishes());
    if (set.patches().isEmpty()) {
      throw InputException.of("the set", "would have no patch left; take one in first");
    }
    change(
        at,
        Change.Kind.COUNTED,
        count == 0 ? "asked for as many as pay" : "asked for " + count + " patches",
        one -> OpenPage.of(set, one.kept(), one.dropped(), count));
  }

  /** Goes back to the automatic set. */
  public void reset(Editing at) throws IOException, Review.StaleException {
    at.review.change(
        at.seen,
        at.who,
        now(),
        Change.Kind.RESET,
        at.page.stripPage(),
        "went back to the automatic set",
        null);
  }

  public void undo(Editing at) throws IOException, Review.StaleException {
    at.review.undo(at.seen, at.who, now());
  }

  public void redo(Editing at) throws IOException, Review.StaleException {
    at.review.redo(at.seen, at.who, now());
  }

  private void change(Editing at, Change.Kind kind, String text, UnaryOperator<PageChoice> made)
      throws IOException, Review.StaleException {
    PageChoice next = made.apply(choice(at.review, at.page));
    at.review.change(at.seen, at.who, now(), kind, at.page.stripPage(), text, next);
  }

  private static void requireIn(PageChoice choice, InkMixture mixture) throws InputException {
    if (choice.indexOf(mixture) < 0) {
      throw InputException.of(words(mixture), "expected a patch of the set, found none such");
    }
  }

  private static String words(InkMixture mixture) {
    return InkText.of(mixture);
  }
}
