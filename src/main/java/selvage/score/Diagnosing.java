package selvage.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import selvage.color.ReferenceCondition;
import selvage.measurement.MatchedStrip;
import selvage.measurement.StripSpots;
import selvage.strip.Strip;

/**
 * Says what happened to a print: fits the causes that {@link Cause} lists to the errors of both
 * sets together, with the reference condition as the forward model.
 */
public final class Diagnosing {
  private final PrintModel model;
  private final Quantiles quantiles = new Quantiles();

  /**
   * For the strips of a proof.
   *
   * @param condition of the process inks
   * @param strips all of them; their aims tell of the spot inks
   */
  public Diagnosing(ReferenceCondition condition, List<Strip> strips) {
    Objects.requireNonNull(condition, "condition");
    this.model = new PrintModel(condition, StripSpots.of(strips, condition.paper()).inks());
  }

  PrintModel model() {
    return model;
  }

  Quantiles quantiles() {
    return quantiles;
  }

  /** What happened to a strip. The strip is one of those given. */
  public Diagnosis diagnose(MatchedStrip matched) {
    Sheet sheet = Sheet.of(List.of(matched));
    return described(sheet, fit(sheet));
  }

  /** A fit and the patches left out of it. */
  record Fitted(CauseFitResult result, List<Integer> odd) {}

  Fitted fit(Sheet sheet) {
    double[] tints = model.tints(sheet.mixtures());
    double[] errors = sheet.errors();
    double[] weights = new double[sheet.size()];
    Arrays.fill(weights, 1);
    OddPatches.Found found =
        new OddPatches(new CauseFit(model, tints, errors, weights, quantiles), weights).find();
    return new Fitted(found.result(), found.rows());
  }

  Diagnosis described(Sheet sheet, Fitted fitted) {
    CauseFitResult result = fitted.result();
    double[] errors = sheet.errors();
    double[] tints = model.tints(sheet.mixtures());
    double[] printed = model.print(result.parameters(), tints);
    double[] sound = model.print(new double[model.parameters()], tints);
    double error = 0;
    double rest = 0;
    int counted = 0;
    for (int row = 0; row < sheet.size(); row++) {
      if (!fitted.odd().contains(row)) {
        counted++;
        for (int i = 3 * row; i < 3 * row + 3; i++) {
          double left = errors[i] - (printed[i] - sound[i]);
          error += errors[i] * errors[i];
          rest += left * left;
        }
      }
    }
    List<FoundCause> found = causes(result);
    List<String> odd = fitted.odd().stream().map(sheet::id).toList();
    double errorDe76 = Math.sqrt(error / counted);
    double restDe76 = Math.sqrt(rest / counted);
    double share = error > 0 ? rest / error : 0;
    List<String> words = new ArrayList<>(CauseWords.of(found, errorDe76, restDe76, share, odd));
    if (!found.isEmpty() || errorDe76 >= CauseWords.NOTHING) {
      words.addAll(CauseWords.few(counted));
    }
    return new Diagnosis(found, counted, errorDe76, restDe76, share, odd, words);
  }

  private List<FoundCause> causes(CauseFitResult result) {
    double t = quantiles.t(Math.max(1, result.freedom()));
    double sum = Arrays.stream(result.shares()).sum();
    double room = Math.max(0, 1 - result.unexplained());
    double scale = sum > room && sum > 0 ? room / sum : 1;
    List<FoundCause> found = new ArrayList<>();
    for (int i = 0; i < result.chosen().size(); i++) {
      int position = result.chosen().get(i);
      Cause cause = model.causes().get(position);
      double unit =
          switch (cause.kind()) {
            case TONE, DENSITY -> 100;
            case HUE -> Math.toDegrees(1);
            case PAPER, CAST, RECIPE -> 1;
          };
      List<Double> values = new ArrayList<>();
      List<Double> margins = new ArrayList<>();
      for (int k = 0; k < cause.kind().parameters(); k++) {
        values.add(unit * result.parameters()[model.offset(position) + k]);
        margins.add(unit * t * result.deviations()[model.offset(position) + k]);
      }
      List<Cause> rivals = result.rivals().get(i).stream().map(model.causes()::get).toList();
      double share = Math.min(1, scale * result.shares()[i]);
      found.add(new FoundCause(cause, values, margins, share, rivals));
    }
    found.sort(Comparator.comparingDouble(FoundCause::share).reversed());
    return found;
  }
}
