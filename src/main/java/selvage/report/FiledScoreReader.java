package selvage.report;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.finding.InputException;
import selvage.measurement.Alignment;
import selvage.measurement.Repeatability;
import selvage.report.FiledScore.CheckResult;
import selvage.report.FiledScore.Diagnosed;
import selvage.report.FiledScore.PatchResult;
import selvage.report.FiledScore.StripResult;
import selvage.score.Metric;
import selvage.score.SetScore;
import selvage.score.Statistic;
import selvage.score.Verdict;
import selvage.strip.JsonFields;
import selvage.strip.PatchSet;

/** Reads the parts of a filed score. */
final class FiledScoreReader {
  private FiledScoreReader() {}

  static StripResult strip(JsonFields strip) throws InputException {
    JsonFields tolerance = strip.object("tolerance");
    JsonFields alignment = strip.object("alignment");
    List<CheckResult> checks = new ArrayList<>();
    for (JsonFields check : strip.objects("checks")) {
      checks.add(check(check));
    }
    List<PatchResult> patches = new ArrayList<>();
    for (JsonFields patch : strip.objects("patches")) {
      patches.add(patch(patch, checks));
    }
    return new StripResult(
        strip.text("strip_id"),
        strip.whole("page", 1),
        strip.text("measurement"),
        strip.flag("simulated"),
        tolerance.text("name"),
        tolerance.text("source"),
        texts(strip, "metric_notes"),
        strip.word("verdict", Verdict.values()),
        sets(strip.object("sets")),
        checks,
        patches,
        new Alignment(alignment.text("how"), alignment.number("confidence", 0, 1)),
        strip.node().has("repeatability")
            ? Optional.of(repeatability(strip.object("repeatability")))
            : Optional.empty(),
        strip.node().has("diagnosis")
            ? Optional.of(diagnosis(strip.object("diagnosis")))
            : Optional.empty(),
        FindingsJson.read(strip));
  }

  static List<String> texts(JsonFields fields, String name) {
    List<String> texts = new ArrayList<>();
    fields.node().path(name).forEach(text -> texts.add(text.asText()));
    return texts;
  }

  private static Diagnosed diagnosis(JsonFields fields) throws InputException {
    return new Diagnosed(fields.whole("patches", 0), texts(fields, "words"));
  }

  private static List<SetScore> sets(JsonFields fields) throws InputException {
    List<SetScore> sets = new ArrayList<>();
    for (Iterator<String> names = fields.node().fieldNames(); names.hasNext(); ) {
      String name = names.next();
      JsonFields set = fields.object(name);
      for (PatchSet known : PatchSet.values()) {
        if (known.word().equals(name)) {
          sets.add(
              new SetScore(
                  known,
                  set.whole("patches", 1),
                  set.whole("judged", 0),
                  set.number("mean_de00"),
                  set.number("p95_de00"),
                  set.number("max_de00"),
                  optional(set, "area_mean_de00"),
                  optional(set, "area_p95_de00"),
                  set.word("verdict", Verdict.values())));
        }
      }
    }
    return sets;
  }

  private static CheckResult check(JsonFields check) throws InputException {
    return new CheckResult(
        check.text("name"),
        check.word("set", PatchSet.values()),
        check.word("metric", Metric.values()),
        check.word("statistic", Statistic.values()),
        check.whole("patches", 0),
        check.number("value"),
        check.number("limit"),
        optional(check, "guard_band").orElse(0),
        check.word("verdict", Verdict.values()),
        check.text("source"),
        check.text("mark"));
  }

  private static PatchResult patch(JsonFields patch, List<CheckResult> checks)
      throws InputException {
    PatchSet set = patch.word("set", PatchSet.values());
    OptionalDouble limit = optional(patch, "limit");
    Optional<Metric> metric =
        limit.isPresent()
            ? Optional.of(patch.word("limit_metric", Metric.values()))
            : Optional.empty();
    double de00 = patch.number("de00");
    double de76 = patch.number("de76");
    return new PatchResult(
        patch.text("id"),
        set,
        lab(patch, "aim_lab"),
        patch.word("aim_source", AimSource.values()),
        lab(patch, "lab"),
        de00,
        de76,
        patch.number("dch"),
        patch.number("dh"),
        patch.number("dl"),
        optional(patch, "sctv_pct"),
        optional(patch, "sctv_aim_pct"),
        patch.flag("judged"),
        metric,
        limit,
        metric.isPresent()
            ? verdict(
                metric.get() == Metric.DE76 ? de76 : de00,
                limit.getAsDouble(),
                band(checks, set, metric.get(), limit.getAsDouble()))
            : Verdict.PASS);
  }

  private static Verdict verdict(double value, double limit, double band) {
    if (value <= limit - band) {
      return Verdict.PASS;
    }
    return value > limit + band ? Verdict.FAIL : Verdict.UNDECIDED;
  }

  /** Of the check of a maximum that the limit comes from. */
  private static double band(List<CheckResult> checks, PatchSet set, Metric metric, double limit) {
    return checks.stream()
        .filter(check -> check.set() == set && check.metric() == metric)
        .filter(check -> check.statistic() == Statistic.MAX && check.limit() == limit)
        .mapToDouble(CheckResult::guardBand)
        .max()
        .orElse(0);
  }

  private static Repeatability repeatability(JsonFields fields) throws InputException {
    List<Repeatability.PatchSpread> spreads = new ArrayList<>();
    for (JsonFields spread : fields.objects("spreads")) {
      spreads.add(
          new Repeatability.PatchSpread(
              spread.text("id"),
              spread.whole("readings", 2),
              spread.number("mean_de00"),
              spread.number("max_de00")));
    }
    List<Repeatability.OddReading> odd = new ArrayList<>();
    for (JsonFields reading : fields.objects("odd_readings")) {
      odd.add(
          new Repeatability.OddReading(
              reading.text("id"),
              reading.text("file"),
              reading.whole("line", 0),
              reading.number("de00")));
    }
    return new Repeatability(
        fields.whole("patches", 1),
        fields.whole("readings", 2),
        fields.number("mean_de00"),
        fields.number("max_de00"),
        fields.number("deviation_de00"),
        fields.number("deviation_de76"),
        texts(fields, "files"),
        spreads,
        odd);
  }

  private static Lab lab(JsonFields fields, String name) throws InputException {
    double[] lab = fields.numbers(name, 3);
    return new Lab(lab[0], lab[1], lab[2]);
  }

  private static OptionalDouble optional(JsonFields fields, String name) throws InputException {
    JsonNode value = fields.node().get(name);
    return value == null || value.isNull()
        ? OptionalDouble.empty()
        : OptionalDouble.of(fields.number(name));
  }
}
