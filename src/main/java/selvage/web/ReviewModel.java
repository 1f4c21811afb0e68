package selvage.web;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import selvage.color.DisplayColor;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.report.InkText;
import selvage.review.Change;
import selvage.review.MixtureKey;
import selvage.review.OpenPage;
import selvage.review.PageChoice;
import selvage.review.Review;
import selvage.strip.Coverage;
import selvage.strip.JobPatch;
import selvage.strip.JobSet;

/**
 * What the review shows of a set and its history, in words and numbers of the reader's language.
 */
public final class ReviewModel {
  private static final DisplayColor DISPLAY = new DisplayColor();

  private ReviewModel() {}

  /**
   * A patch of the set.
   *
   * @param number its place, counted from 1
   * @param key its mixture, see {@link MixtureKey}
   * @param color sRGB, {@code #rrggbb}
   * @param build its inks in words
   * @param why it was taken
   * @param represents the share of the inked area for which it stands
   * @param area the share of the sheet that has exactly it
   * @param lab its aim
   * @param kept whether it stays whatever number is asked for
   */
  public record PatchRow(
      int number,
      String key,
      String color,
      String build,
      String why,
      String represents,
      String area,
      String lab,
      boolean kept) {}

  /**
   * The set of a page's strip.
   *
   * @param version of the review that it belongs to
   * @param count of patches asked for last; 0 for as many as pay
   * @param within3 the inked area within ΔE00 3 of a patch, percent
   * @param standard the same of the standard set
   * @param ofJob whether the strip stands for all pages of the job
   * @param isOpen whether it can be changed
   */
  public record SetView(
      String id,
      int page,
      int version,
      List<PatchRow> patches,
      int count,
      String within3,
      String within2,
      String mean,
      String standard,
      boolean ordered,
      boolean ofJob,
      boolean isOpen,
      boolean canUndo,
      boolean canRedo,
      List<String> doubts) {}

  /** A change. */
  public record Step(String time, String iso, String who, String text) {}

  /** An ink of the page. */
  public record Plate(String name, boolean isSpot) {}

  static SetView set(
      Review review, OpenPage page, PageChoice choice, JobSet set, PageFigures figures) {
    List<PatchRow> rows = new ArrayList<>();
    for (int i = 0; i < set.patches().size(); i++) {
      JobPatch patch = set.patches().get(i);
      rows.add(
          new PatchRow(
              i + 1,
              MixtureKey.of(patch.mixture()),
              hex(patch.aim().lab()),
              InkText.of(patch.mixture()),
              StateWords.of(patch.reason()),
              figures.number(patch.representsPercent(), 1),
              figures.number(patch.areaPercent(), patch.areaPercent() < 0.1 ? 3 : 1),
              lab(patch.aim().lab(), figures),
              choice.kept().contains(patch.mixture())));
    }
    Coverage coverage = set.coverage();
    return new SetView(
        review.id(),
        page.survey().page(),
        review.version(),
        rows,
        choice.count(),
        figures.number(coverage.within3Percent(), 1),
        figures.number(coverage.within2Percent(), 1),
        figures.number(coverage.meanDe00(), 2),
        figures.number(coverage.standardWithin3Percent(), 1),
        choice.ordered(),
        page.isOfJob(),
        review.approval().isEmpty(),
        review.canUndo(),
        review.canRedo(),
        set.findings().stream().map(finding -> finding.text()).toList());
  }

  static List<Step> steps(Review review, PageFigures figures) {
    List<Step> steps = new ArrayList<>();
    for (Change change : review.changes()) {
      String where = change.page() > 0 ? "page " + change.page() + ": " : "";
      steps.add(
          0,
          new Step(
              figures.time(change.time()),
              change.time().toString(),
              change.who(),
              where + change.text()));
    }
    return steps;
  }

  static List<Plate> plates(OpenPage page) {
    List<Plate> plates = new ArrayList<>();
    for (Colorant colorant : page.colorants()) {
      plates.add(new Plate(colorant.name(), colorant.isSpot()));
    }
    return plates;
  }

  static String lab(Lab lab, PageFigures figures) {
    return figures.number(lab.l(), 1)
        + " / "
        + figures.number(lab.a(), 1)
        + " / "
        + figures.number(lab.b(), 1);
  }

  /** A colour for the screen. */
  static String hex(Lab lab) {
    byte[] rgb = new byte[3];
    float[] values = {(float) lab.l(), (float) lab.a(), (float) lab.b()};
    DISPLAY.encode(values, 1, rgb, 0);
    return "#" + HexFormat.of().formatHex(rgb).toLowerCase(Locale.ROOT);
  }
}
