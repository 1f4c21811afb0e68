package selvage.score;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import selvage.color.ColorDifference;
import selvage.color.Correction;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MatchedStrip.PatchReading;
import selvage.measurement.Reading;
import selvage.strip.Patch;
import selvage.strip.PatchSet;

/**
 * Finds what would mend a print: curves that undo the causes found, and for spot and job patches
 * out of tolerance a mixture of their own; and predicts what a reprint would score.
 */
public final class Mender {
  /** A house rule, after common practice for coated paper; no source. */
  public static final double INK_LIMIT_PERCENT = 310;

  /** In how many parts the patches are dealt for the prediction. */
  private static final int FOLDS = 5;

  /** Limits on single patches where the tolerance set has none, in ΔE00 (house rule). */
  private static final double OTHERWISE = 5;

  private final Diagnosing diagnosing;
  private final Scoring scoring;
  private final double inkLimitPercent;
  private final PrintModel model;

  /**
   * A mender.
   *
   * @param diagnosing for the proof's strips
   * @param scoring that the print was scored with
   * @param inkLimitPercent the most total ink of corrected mixtures, 100 to 400
   */
  public Mender(Diagnosing diagnosing, Scoring scoring, double inkLimitPercent) {
    this.diagnosing = Objects.requireNonNull(diagnosing, "diagnosing");
    this.scoring = Objects.requireNonNull(scoring, "scoring");
    this.inkLimitPercent = inkLimitPercent;
    this.model = diagnosing.model();
  }

  /**
   * What would mend a print.
   *
   * @param strips measured, at least one; all are taken together
   * @throws InputException where a strip can't be scored
   */
  public Mending mend(List<MatchedStrip> strips) throws InputException {
    Sheet sheet = Sheet.of(strips);
    Diagnosing.Fitted fitted = diagnosing.fit(sheet);
    double[] cause = fitted.result().parameters();
    double[] limits = limits(strips, sheet);
    Correction correction = correction(strips, sheet, fitted, limits);
    double[] after = predicted(sheet, fitted, correction);
    List<ProofScore> scores = new ArrayList<>();
    for (MatchedStrip strip : strips) {
      scores.add(scoring.score(reprinted(strip, sheet, after)));
    }
    List<PatchMend> patches = new ArrayList<>();
    for (int row = 0; row < sheet.size(); row++) {
      Patch patch = jobPatch(strips, sheet, row);
      double now = ColorDifference.de00(sheet.aim(row), sheet.lab(row));
      if (patch != null && now > limits[row]) {
        patches.add(
            new PatchMend(
                patch,
                correction.of(patch.mixture()),
                now,
                ColorDifference.de00(sheet.aim(row), lab(after, row)),
                limits[row]));
      }
    }
    boolean found = !fitted.result().chosen().isEmpty();
    List<String> words = new ArrayList<>(MendingWords.of(found, scores, patches));
    if (found) {
      words.addAll(reach(sheet, cause, correction, scores));
    }
    return new Mending(correction, scores, patches, words);
  }

  /**
   * Of the patch that keeps each single limit from being met: whether any mixture would meet it.
   */
  private List<String> reach(
      Sheet sheet, double[] cause, Correction correction, List<ProofScore> scores) {
    RecipeFit recipes = recipes(sheet, cause);
    Map<InkMixture, String> reach = new LinkedHashMap<>();
    for (ProofScore score : scores) {
      for (Check check : score.checks()) {
        Limit limit = check.limit();
        if (check.verdict() == Verdict.FAIL
            && limit.metric() == Metric.DE00
            && limit.statistic() == Statistic.MAX
            && limit.patches() != PatchChoice.SUBSTRATE) {
          InkMixture worst =
              score.patches().stream()
                  .filter(limit::takes)
                  .max(Comparator.comparingDouble(ScoredPatch::de00))
                  .orElseThrow()
                  .patch()
                  .mixture();
          double[] goal = model.print(new double[model.parameters()], model.tints(List.of(worst)));
          InkMixture best = recipes.of(worst, correction.byCurves(worst), goal, 0);
          reach.put(worst, MendingWords.reach(worst, left(cause, goal, best), limit.limit()));
        }
      }
    }
    return List.copyOf(reach.values());
  }

  private RecipeFit recipes(Sheet sheet, double[] cause) {
    boolean[] seen = CurveFit.used(model.tints(sheet.mixtures()), model.inks().size());
    return new RecipeFit(model, cause, seen, inkLimitPercent);
  }

  private static Lab lab(double[] labs, int row) {
    return new Lab(Math.max(0, labs[3 * row]), labs[3 * row + 1], labs[3 * row + 2]);
  }

  /** The least limit in ΔE00 on each printed patch alone. */
  private double[] limits(List<MatchedStrip> strips, Sheet sheet) {
    IdentityHashMap<Reading, Double> byReading = new IdentityHashMap<>();
    for (MatchedStrip strip : strips) {
      for (PatchReading reading : strip.readings()) {
        double least = OTHERWISE;
        for (Limit limit : scoring.tolerance().limits()) {
          if (limit.metric() == Metric.DE00
              && limit.statistic() == Statistic.MAX
              && limit.takes(reading.patch())) {
            least = Math.min(least, limit.limit());
          }
        }
        byReading.merge(reading.reading(), least, Math::min);
      }
    }
    double[] limits = new double[sheet.size()];
    for (int row = 0; row < limits.length; row++) {
      limits[row] = byReading.get(sheet.readings().get(row).reading());
    }
    return limits;
  }

  /** The patch of a job's set in this place, or null. */
  @SuppressWarnings("ReferenceEquality") // equal readings of two strips are two readings
  private static Patch jobPatch(List<MatchedStrip> strips, Sheet sheet, int row) {
    Reading reading = sheet.readings().get(row).reading();
    for (MatchedStrip strip : strips) {
      for (PatchReading one : strip.readings()) {
        if (one.patch().set() == PatchSet.JOB && one.reading() == reading) {
          return one.patch();
        }
      }
    }
    return null;
  }

  /** Curves, and mixtures for the job's patches that would stay out of tolerance or near to it. */
  private Correction correction(
      List<MatchedStrip> strips, Sheet sheet, Diagnosing.Fitted fitted, double[] limits)
      throws InputException {
    double[] cause = fitted.result().parameters();
    double[] tints = model.tints(sheet.mixtures());
    Correction curves = null;
    double least = Double.POSITIVE_INFINITY;
    for (List<Correction.Curve> set :
        new CurveFit(model, cause, tints, limits, inkLimitPercent).curves()) {
      Correction one = new Correction(set, Map.of(), inkLimitPercent);
      double strain = strain(strips, sheet, cause, one);
      if (strain < least - 0.02) {
        least = strain;
        curves = one;
      }
    }
    return new Correction(curves.curves(), recipes(sheet, fitted, curves, limits), inkLimitPercent);
  }

  /**
   * Mixtures of their own. Their goal is the patch's aim less what its reading shows beside the
   * causes, so that they mend what no cause accounts for as well; a misread patch shows nothing.
   */
  private Map<InkMixture, InkMixture> recipes(
      Sheet sheet, Diagnosing.Fitted fitted, Correction curves, double[] limits) {
    double[] cause = fitted.result().parameters();
    List<InkMixture> mixtures = sheet.mixtures();
    double[] tints = model.tints(mixtures);
    double[] sound = model.print(new double[model.parameters()], tints);
    double[] printed = model.print(cause, tints);
    double[] errors = sheet.errors();
    RecipeFit recipes = recipes(sheet, cause);
    Map<InkMixture, InkMixture> replaced = new LinkedHashMap<>();
    for (int row = 0; row < sheet.size(); row++) {
      Patch patch = sheet.readings().get(row).patch();
      if (patch.set() != PatchSet.JOB || patch.mixture().isPaper()) {
        continue;
      }
      double[] goal = new double[3];
      boolean isOdd = fitted.odd().contains(row);
      for (int axis = 0; axis < 3; axis++) {
        int i = 3 * row + axis;
        goal[axis] = isOdd ? sound[i] : printed[i] - errors[i];
      }
      InkMixture byCurves = curves.of(patch.mixture());
      double then = left(cause, goal, byCurves);
      if (then > limits[row] / 2) {
        InkMixture own = recipes.of(patch.mixture(), byCurves, goal, limits[row] / 2);
        if (left(cause, goal, own) < then - 0.05) {
          replaced.put(patch.mixture(), own);
        }
      }
    }
    return replaced;
  }

  /** The greatest part of its limit that a check would come to, by the model alone. */
  private double strain(
      List<MatchedStrip> strips, Sheet sheet, double[] cause, Correction correction)
      throws InputException {
    double[] sound = model.print(new double[model.parameters()], model.tints(sheet.mixtures()));
    double[] then =
        model.print(cause, model.tints(sheet.mixtures().stream().map(correction::of).toList()));
    for (int row = 0; row < sheet.size(); row++) {
      Lab aim = sheet.aim(row);
      then[3 * row] += aim.l() - sound[3 * row];
      then[3 * row + 1] += aim.a() - sound[3 * row + 1];
      then[3 * row + 2] += aim.b() - sound[3 * row + 2];
    }
    double strain = 0;
    for (MatchedStrip strip : strips) {
      for (Check check : scoring.score(reprinted(strip, sheet, then)).checks()) {
        if (check.limit().patches() != PatchChoice.SPOT_SOLIDS) {
          strain = Math.max(strain, check.value() / check.limit().limit());
        }
      }
    }
    return strain;
  }

  /** ΔE00 that the model leaves from a colour where a mixture is sent. */
  private double left(double[] cause, double[] goal, InkMixture sent) {
    return ColorDifference.de00(
        lab(goal, 0), lab(model.print(cause, model.tints(List.of(sent))), 0));
  }

  /**
   * What a reprint through the correction would measure: L*, a*, b* a printed patch. The patches
   * are dealt in parts; how the correction changes each part is told by a fit of the others, and
   * the error that each patch has now is taken along.
   */
  private double[] predicted(Sheet sheet, Diagnosing.Fitted fitted, Correction correction) {
    double[] asked = model.tints(sheet.mixtures());
    double[] sent = model.tints(sheet.mixtures().stream().map(correction::of).toList());
    double[] errors = sheet.errors();
    double[] after = new double[3 * sheet.size()];
    int folds = Math.min(FOLDS, sheet.size());
    for (int fold = 0; fold < folds; fold++) {
      double[] weights = new double[sheet.size()];
      for (int row = 0; row < weights.length; row++) {
        weights[row] = row % folds == fold || fitted.odd().contains(row) ? 0 : 1;
      }
      double[] cause =
          new CauseFit(model, asked, errors, weights, diagnosing.quantiles())
              .fitted(fitted.result().chosen());
      double[] now = model.print(cause, asked);
      double[] then = model.print(cause, sent);
      for (int row = fold; row < weights.length; row += folds) {
        Lab aim = sheet.aim(row);
        double[] lab = {aim.l(), aim.a(), aim.b()};
        for (int axis = 0; axis < 3; axis++) {
          int i = 3 * row + axis;
          after[i] = lab[axis] + errors[i] + then[i] - now[i];
        }
      }
    }
    return after;
  }

  private static MatchedStrip reprinted(MatchedStrip matched, Sheet sheet, double[] after) {
    IdentityHashMap<Reading, Lab> byReading = new IdentityHashMap<>();
    for (int row = 0; row < sheet.size(); row++) {
      byReading.put(sheet.readings().get(row).reading(), lab(after, row));
    }
    List<PatchReading> readings = new ArrayList<>();
    for (PatchReading one : matched.readings()) {
      Reading reading = one.reading();
      readings.add(
          new PatchReading(
              one.patch(),
              new Reading(
                  reading.id(),
                  reading.name(),
                  reading.tints(),
                  byReading.get(reading),
                  reading.line())));
    }
    return new MatchedStrip(
        matched.strip(), matched.measurement(), matched.alignment(), readings, List.of());
  }
}
