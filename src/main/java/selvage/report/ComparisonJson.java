package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.Optional;
import selvage.comparison.Comparison;
import selvage.comparison.FailingColor;
import selvage.comparison.LabMean;
import selvage.comparison.PairedVerdicts;
import selvage.comparison.Proportion;
import selvage.comparison.Quartiles;
import selvage.comparison.ScoredPair;
import selvage.comparison.Trend;
import selvage.ink.Colorant;
import selvage.ledger.ScoreFilter;
import selvage.score.Verdict;

/** A comparison as one JSON object; docs/schema has its form. Numbers are rounded to 0.000001. */
public final class ComparisonJson {
  private final JsonGenerator json;

  private ComparisonJson(JsonGenerator json) {
    this.json = json;
  }

  /** Writes the object. */
  public static void write(Comparison comparison, JsonGenerator json) throws IOException {
    new ComparisonJson(json).write(comparison);
  }

  private void write(Comparison comparison) throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", 1);
    json.writeStringField("ledger", comparison.ledger());
    writeFilter(comparison.filter());
    json.writeNumberField("pairs", comparison.pairs().size());
    json.writeNumberField("simulated", comparison.simulated());
    json.writeNumberField("without_both_verdicts", comparison.left().withoutBoth());
    json.writeNumberField("earlier_scores_left_out", comparison.left().earlier());
    writeVerdicts(comparison);
    if (comparison.differences().isPresent()) {
      writeDifferences(comparison.differences().get());
    }
    json.writeArrayFieldStart("colors");
    for (FailingColor color : comparison.colors()) {
      if (color.over().count() > 0) {
        writeColor(color);
      }
    }
    json.writeEndArray();
    json.writeObjectFieldStart("chart");
    number("lambda", comparison.ewma().lambda());
    number("width", comparison.ewma().width());
    json.writeNumberField("baseline_proofs", comparison.baselineProofs());
    json.writeEndObject();
    json.writeArrayFieldStart("trends");
    for (Trend trend : comparison.trends()) {
      writeTrend(trend);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("strips");
    for (ScoredPair pair : comparison.pairs()) {
      writePair(pair);
    }
    json.writeEndArray();
    json.writeStringField("method", ComparisonText.method(comparison));
    json.writeStringField("caution", ScoreText.CAUTION);
    json.writeEndObject();
  }

  private void writeFilter(ScoreFilter filter) throws IOException {
    json.writeObjectFieldStart("filter");
    text("from", filter.from().map(Object::toString));
    text("to", filter.to().map(Object::toString));
    text("proofing_system", filter.proofingSystem());
    text("substrate", filter.substrate());
    text("condition", filter.condition());
    text("folder", filter.folder());
    json.writeEndObject();
  }

  private void writeVerdicts(Comparison comparison) throws IOException {
    json.writeObjectFieldStart("verdicts");
    json.writeObjectFieldStart("job_by_standard");
    for (Verdict job : ComparisonText.VERDICTS) {
      json.writeObjectFieldStart(job.word());
      for (Verdict standard : ComparisonText.VERDICTS) {
        json.writeNumberField(standard.word(), comparison.table().count(job, standard));
      }
      json.writeEndObject();
    }
    json.writeEndObject();
    share("escapes", comparison.table().escapes());
    share("false_alarms", comparison.table().falseAlarms());
    PairedVerdicts decided = comparison.table().decided();
    json.writeNumberField("decided", decided.pairs());
    if (decided.pairs() > 0) {
      json.writeObjectFieldStart("failed_by_job_less_standard");
      number("difference", decided.difference());
      number("low", decided.differenceInterval().low());
      number("high", decided.differenceInterval().high());
      json.writeEndObject();
      json.writeObjectFieldStart("mcnemar");
      json.writeNumberField("exact_p", decided.exactP());
      json.writeNumberField("mid_p", decided.midP());
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  private void share(String name, Proportion share) throws IOException {
    json.writeObjectFieldStart(name);
    json.writeNumberField("count", share.count());
    json.writeNumberField("of", share.of());
    number("low", share.low());
    number("high", share.high());
    json.writeEndObject();
  }

  private void writeDifferences(Comparison.Differences differences) throws IOException {
    json.writeObjectFieldStart("mean_de00");
    quartiles("job", differences.job());
    quartiles("standard", differences.standard());
    quartiles("difference", differences.difference());
    json.writeObjectFieldStart("signed_rank");
    json.writeNumberField("pairs", differences.test().pairs());
    json.writeNumberField("zeros", differences.test().zeros());
    number("positive_ranks", differences.test().positiveRanks());
    json.writeNumberField("p", differences.test().p());
    json.writeBooleanField("exact", differences.test().exact());
    json.writeEndObject();
    json.writeEndObject();
  }

  private void quartiles(String name, Quartiles values) throws IOException {
    json.writeObjectFieldStart(name);
    number("least", values.least());
    number("lower", values.lower());
    number("median", values.median());
    number("upper", values.upper());
    number("greatest", values.greatest());
    number("mean", values.mean());
    json.writeEndObject();
  }

  private void writeColor(FailingColor color) throws IOException {
    json.writeStartObject();
    json.writeStringField("set", color.set().word());
    json.writeObjectFieldStart("inks");
    for (Colorant ink : color.mixture().units().keySet()) {
      number(ink.name(), color.mixture().percent(ink));
    }
    json.writeEndObject();
    json.writeNumberField("readings", color.readings());
    share("over_limit", color.over());
    number("mean_de00", color.meanDe00());
    lab("mean_difference_lab", color.direction());
    json.writeStringField("words", color.direction().words());
    json.writeEndObject();
  }

  private void writeTrend(Trend trend) throws IOException {
    json.writeStartObject();
    source(trend.source());
    json.writeArrayFieldStart("stages");
    for (Trend.Stage stage : trend.stages()) {
      writeStage(stage);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("alarms");
    for (Trend.Alarm alarm : Comparison.alarms(trend)) {
      json.writeStartObject();
      json.writeStringField("time", alarm.time().toString());
      json.writeStringField("proof", alarm.proof());
      json.writeStringField("axis", ComparisonText.AXES[alarm.axis()]);
      number("average", alarm.average());
      number("centre", alarm.centre());
      number("limit", alarm.limit());
      json.writeNumberField("lasted", alarm.lasted());
      json.writeStringField("words", alarm.word());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writeStage(Trend.Stage stage) throws IOException {
    json.writeStartObject();
    text("calibrated", stage.begin().map(Object::toString));
    if (!stage.note().isEmpty()) {
      json.writeStringField("note", stage.note());
    }
    if (stage.baseline().isPresent()) {
      json.writeObjectFieldStart("baseline");
      json.writeNumberField("proofs", stage.baseline().get().proofs());
      lab("centre", stage.baseline().get().centre());
      lab("sigma", stage.baseline().get().sigma());
      json.writeEndObject();
    }
    json.writeArrayFieldStart("points");
    for (Trend.Point point : stage.points()) {
      json.writeStartObject();
      json.writeStringField("time", point.time().toString());
      json.writeStringField("proof", point.proof());
      lab("mean", point.mean());
      if (point.chart().isPresent()) {
        lab("average", point.chart().get().average());
        lab("limit", point.chart().get().limit());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writePair(ScoredPair pair) throws IOException {
    json.writeStartObject();
    json.writeStringField("score_id", pair.scoreId());
    text("job_id", pair.jobId());
    json.writeStringField("received", pair.received().toString());
    json.writeStringField("proof", pair.proof());
    json.writeNumberField("page", pair.page());
    json.writeStringField("strip_id", pair.stripId());
    source(pair.source());
    json.writeBooleanField("simulated", pair.simulated());
    json.writeStringField("job", pair.job().word());
    json.writeStringField("standard", pair.standard().word());
    number("job_mean_de00", pair.jobDe00());
    number("standard_mean_de00", pair.standardDe00());
    lab("standard_mean_difference_lab", pair.drift());
    json.writeEndObject();
  }

  private void source(ScoredPair.Source source) throws IOException {
    text("proofing_system", source.proofingSystem());
    text("substrate", source.substrate());
    text("condition", source.condition());
  }

  private void text(String name, Optional<String> value) throws IOException {
    if (value.isPresent()) {
      json.writeStringField(name, value.get());
    }
  }

  private void lab(String name, LabMean mean) throws IOException {
    json.writeArrayFieldStart(name);
    for (int axis = 0; axis < 3; axis++) {
      json.writeNumber(rounded(mean.axis(axis)));
    }
    json.writeEndArray();
  }

  private void number(String name, double value) throws IOException {
    json.writeNumberField(name, rounded(value));
  }

  private static double rounded(double value) {
    return Math.round(value * 1e6) / 1e6 + 0.0;
  }
}
