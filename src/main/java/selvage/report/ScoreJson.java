package selvage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.color.Lab;
import selvage.ledger.ScoreRecord;
import selvage.measurement.Repeatability;
import selvage.score.Check;
import selvage.score.Mending;
import selvage.score.ProofScore;
import selvage.score.ScoredPatch;
import selvage.score.SetScore;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/**
 * Scores as JSON. One score is one object; several stand in the list {@code scores} of an object
 * with the verdict on all. Colour differences are rounded to 0.0001.
 */
public final class ScoreJson {
  private final JsonGenerator json;

  private ScoreJson(JsonGenerator json) {
    this.json = json;
  }

  /**
   * Writes scores as one object.
   *
   * @param scores at least one
   */
  public static void write(List<ProofScore> scores, JsonGenerator json) throws IOException {
    write(scores, Optional.empty(), json);
  }

  /**
   * Writes scores, and what would mend the print, as one object.
   *
   * @param scores at least one
   */
  public static void write(List<ProofScore> scores, Optional<Mending> mending, JsonGenerator json)
      throws IOException {
    write(scores, mending, Optional.empty(), json);
  }

  /**
   * As {@link #write(List, Optional, JsonGenerator)}, with the ledger's record of the score.
   *
   * @param scores at least one
   */
  public static void write(
      List<ProofScore> scores,
      Optional<Mending> mending,
      Optional<ScoreRecord> filed,
      JsonGenerator json)
      throws IOException {
    new ScoreJson(json).write(scores, mending, filed);
  }

  private void write(
      List<ProofScore> scores, Optional<Mending> mending, Optional<ScoreRecord> filed)
      throws IOException {
    json.writeStartObject();
    json.writeNumberField("selvage", 1);
    if (scores.size() == 1) {
      writeScore(scores.get(0));
    } else {
      json.writeStringField("verdict", ScoreText.verdict(scores).word());
      json.writeArrayFieldStart("scores");
      for (ProofScore score : scores) {
        json.writeStartObject();
        writeScore(score);
        json.writeEndObject();
      }
      json.writeEndArray();
    }
    if (mending.isPresent()) {
      json.writeFieldName("mending");
      MendingJson.write(mending.get(), json);
    }
    if (filed.isPresent()) {
      json.writeFieldName(ScoreRecord.FIELD);
      filed.get().writeTo(json);
    }
    json.writeEndObject();
  }

  private void writeScore(ProofScore score) throws IOException {
    json.writeStringField("strip_id", score.stripId());
    json.writeNumberField("page", score.page());
    json.writeStringField("measurement", score.source());
    json.writeBooleanField("simulated", score.simulated());
    json.writeObjectFieldStart("tolerance");
    json.writeStringField("name", score.tolerance().name());
    json.writeStringField("source", score.tolerance().source());
    json.writeEndObject();
    json.writeArrayFieldStart("metric_notes");
    for (String note : score.metricNotes()) {
      json.writeString(note);
    }
    json.writeEndArray();
    writeVerdict(score.verdict());
    json.writeObjectFieldStart("sets");
    for (SetScore set : score.sets()) {
      writeSet(set);
    }
    json.writeEndObject();
    json.writeArrayFieldStart("checks");
    for (Check check : score.checks()) {
      writeCheck(check);
    }
    json.writeEndArray();
    Map<PatchSet, PatchLimits> limits = new EnumMap<>(PatchSet.class);
    for (PatchSet set : PatchSet.values()) {
      limits.put(set, PatchLimits.of(score, set));
    }
    json.writeArrayFieldStart("patches");
    for (ScoredPatch patch : score.patches()) {
      writePatch(patch, limits.get(patch.patch().set()));
    }
    json.writeEndArray();
    json.writeObjectFieldStart("alignment");
    json.writeStringField("how", score.alignment().how());
    writeRounded("confidence", score.alignment().confidence());
    json.writeEndObject();
    if (score.repeatability().isPresent()) {
      writeRepeatability(score.repeatability().get());
    }
    if (score.diagnosis().isPresent()) {
      json.writeFieldName("diagnosis");
      DiagnosisJson.write(score.diagnosis().get(), json);
    }
    FindingsJson.write(json, score.findings());
  }

  private void writeRepeatability(Repeatability found) throws IOException {
    json.writeObjectFieldStart("repeatability");
    json.writeArrayFieldStart("files");
    for (String source : found.sources()) {
      json.writeString(source);
    }
    json.writeEndArray();
    json.writeNumberField("patches", found.patches());
    json.writeNumberField("readings", found.readings());
    writeRounded("mean_de00", found.meanDe00());
    writeRounded("max_de00", found.maxDe00());
    writeRounded("deviation_de00", found.deviationDe00());
    writeRounded("deviation_de76", found.deviationDe76());
    json.writeArrayFieldStart("spreads");
    for (Repeatability.PatchSpread spread : found.spreads()) {
      json.writeStartObject();
      json.writeStringField("id", spread.patchId());
      json.writeNumberField("readings", spread.readings());
      writeRounded("mean_de00", spread.meanDe00());
      writeRounded("max_de00", spread.maxDe00());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("odd_readings");
    for (Repeatability.OddReading odd : found.odd()) {
      json.writeStartObject();
      json.writeStringField("id", odd.patchId());
      json.writeStringField("file", odd.source());
      json.writeNumberField("line", odd.line());
      writeRounded("de00", odd.de00());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void writeSet(SetScore set) throws IOException {
    json.writeObjectFieldStart(set.set().word());
    json.writeNumberField("patches", set.patches());
    json.writeNumberField("judged", set.judged());
    writeRounded("mean_de00", set.meanDe00());
    writeRounded("p95_de00", set.p95De00());
    writeRounded("max_de00", set.maxDe00());
    writeIfPresent("area_mean_de00", set.areaMeanDe00());
    writeIfPresent("area_p95_de00", set.areaP95De00());
    writeVerdict(set.verdict());
    json.writeEndObject();
  }

  private void writeCheck(Check check) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", check.limit().name());
    json.writeStringField("set", check.limit().set().word());
    json.writeStringField("metric", check.limit().metric().word());
    json.writeStringField("statistic", check.limit().statistic().word());
    json.writeNumberField("patches", check.patches());
    writeRounded("value", check.value());
    json.writeNumberField("limit", check.limit().limit());
    if (check.guardBand() > 0) {
      writeRounded("guard_band", check.guardBand());
    }
    writeVerdict(check.verdict());
    json.writeStringField("source", check.limit().source());
    json.writeStringField("mark", check.limit().mark());
    json.writeEndObject();
  }

  private void writePatch(ScoredPatch patch, PatchLimits limits) throws IOException {
    json.writeStartObject();
    json.writeStringField("id", patch.patch().id());
    json.writeStringField("set", patch.patch().set().word());
    writeLab("aim_lab", patch.patch().aim().lab());
    json.writeStringField("aim_source", patch.patch().aim().source().word());
    writeLab("lab", patch.lab());
    writeRounded("de00", patch.de00());
    writeRounded("de76", patch.de76());
    writeRounded("dch", patch.dch());
    writeRounded("dh", patch.dh());
    writeRounded("dl", patch.dl());
    writeIfPresent("sctv_pct", patch.sctvPercent());
    writeIfPresent("sctv_aim_pct", patch.sctvAimPercent());
    json.writeBooleanField("judged", patch.judged());
    OptionalDouble limit = limits.limit(patch);
    if (limit.isPresent()) {
      json.writeStringField("limit_metric", limits.metric().word());
      json.writeNumberField("limit", limit.getAsDouble());
    }
    json.writeEndObject();
  }

  private void writeLab(String name, Lab lab) throws IOException {
    json.writeArrayFieldStart(name);
    json.writeNumber(rounded(lab.l()));
    json.writeNumber(rounded(lab.a()));
    json.writeNumber(rounded(lab.b()));
    json.writeEndArray();
  }

  private void writeVerdict(Verdict verdict) throws IOException {
    json.writeStringField("verdict", verdict.word());
  }

  private void writeIfPresent(String name, OptionalDouble value) throws IOException {
    if (value.isPresent()) {
      writeRounded(name, value.getAsDouble());
    }
  }

  private void writeRounded(String name, double value) throws IOException {
    json.writeNumberField(name, rounded(value));
  }

  /** To 0.0001, and never a negative zero. */
  private static double rounded(double value) {
    return Math.round(value * 1e4) / 1e4 + 0.0;
  }
}
