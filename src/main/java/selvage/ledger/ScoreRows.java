package selvage.ledger;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import selvage.color.AimSource;
import selvage.finding.InputException;
import selvage.score.Verdict;
import selvage.strip.JsonFields;
import selvage.strip.PatchSet;

/** A score with its checks, patches and findings, ready to be written to the ledger's tables. */
final class ScoreRows {
  private final ScoreRecord record;
  private final String json;
  private final JsonFields root;
  private final List<JsonFields> strips;

  private ScoreRows(ScoreRecord record, String json, JsonFields root, List<JsonFields> strips) {
    this.record = record;
    this.json = json;
    this.root = root;
    this.strips = strips;
  }

  /**
   * Reads what is to be written.
   *
   * @param scoreJson what {@code score --json} writes, with the record in it or without
   * @throws InputException where the text is no score
   */
  static ScoreRows of(ScoreRecord record, String scoreJson) throws InputException {
    String text = StoredText.clean(scoreJson);
    JsonFields root = RecordJson.object(record.file(), "score", text);
    List<JsonFields> strips =
        root.node().has("scores") ? root.objects("scores") : new ArrayList<>(List.of(root));
    for (JsonFields strip : strips) {
      JobRows.requireShort(record.file(), "strip_id", strip.text("strip_id"));
      for (JsonFields patch : strip.objects("patches")) {
        JobRows.requireShort(record.file(), "patch id", patch.text("id"));
      }
    }
    return new ScoreRows(record, text, root, strips);
  }

  /** Replaces what the ledger has of this score, within the caller's transaction. */
  void write(Handle handle) throws InputException {
    handle
        .createUpdate("DELETE FROM score WHERE score_id = :id")
        .bind("id", record.scoreId())
        .execute();
    handle
        .createUpdate(
            "INSERT INTO score (score_id, folder, file, sha256, received, scored, job_id, proof,"
                + " verdict, score_json) VALUES (:id, :folder, :file, :sha256, :received, :scored,"
                + " :job, :proof, :verdict, :json)")
        .bind("id", record.scoreId())
        .bind("folder", record.folder())
        .bind("file", record.file())
        .bind("sha256", record.sha256())
        .bind("received", StoredText.time(record.received()))
        .bind("scored", StoredText.time(record.scored()))
        .bind("job", record.jobId().orElse(null))
        .bind("proof", record.proof().orElse(null))
        .bind("verdict", root.word("verdict", Verdict.values()).word())
        .bind("json", json)
        .execute();
    writeStrips(handle);
    writeSets(handle);
    writeChecks(handle);
    writePatches(handle);
    writeFindings(handle);
  }

  private void writeStrips(Handle handle) throws InputException {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO strip_score (score_id, position, strip_id, page, measurement, simulated,"
                + " tolerance, verdict, alignment, confidence) VALUES (:id, :position, :strip,"
                + " :page, :measurement, :simulated, :tolerance, :verdict, :alignment,"
                + " :confidence)");
    int position = 0;
    for (JsonFields strip : strips) {
      JsonFields alignment = strip.object("alignment");
      batch
          .bind("id", record.scoreId())
          .bind("position", ++position)
          .bind("strip", strip.text("strip_id"))
          .bind("page", strip.whole("page", 1))
          .bind("measurement", clean(strip, "measurement"))
          .bind("simulated", strip.flag("simulated"))
          .bind("tolerance", clean(strip.object("tolerance"), "name"))
          .bind("verdict", verdict(strip))
          .bind("alignment", clean(alignment, "how"))
          .bind("confidence", alignment.number("confidence"))
          .add();
    }
    JobRows.execute(batch);
  }

  private void writeSets(Handle handle) throws InputException {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO set_score (score_id, position, patch_set, patches, judged, mean_de00,"
                + " p95_de00, max_de00, area_mean_de00, area_p95_de00, verdict) VALUES (:id,"
                + " :position, :set, :patches, :judged, :mean, :p95, :max, :areaMean, :areaP95,"
                + " :verdict)");
    int position = 0;
    for (JsonFields strip : strips) {
      position++;
      JsonFields sets = strip.object("sets");
      for (Iterator<String> names = sets.node().fieldNames(); names.hasNext(); ) {
        String name = names.next();
        JsonFields set = sets.object(name);
        JobRows.requireShort(record.file(), "sets", name);
        batch
            .bind("id", record.scoreId())
            .bind("position", position)
            .bind("set", name)
            .bind("patches", set.whole("patches", 0))
            .bind("judged", set.whole("judged", 0))
            .bind("mean", set.number("mean_de00"))
            .bind("p95", set.number("p95_de00"))
            .bind("max", set.number("max_de00"))
            .bind("areaMean", RecordJson.optionalNumber(set, "area_mean_de00").orElse(null))
            .bind("areaP95", RecordJson.optionalNumber(set, "area_p95_de00").orElse(null))
            .bind("verdict", verdict(set))
            .add();
      }
    }
    JobRows.execute(batch);
  }

  private void writeChecks(Handle handle) throws InputException {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO score_check (score_id, position, number, name, patch_set, metric,"
                + " statistic, patches, value, limit_value, guard_band, verdict) VALUES (:id,"
                + " :position, :number, :name, :set, :metric, :statistic, :patches, :value, :limit,"
                + " :guard, :verdict)");
    int position = 0;
    for (JsonFields strip : strips) {
      position++;
      int number = 0;
      for (JsonFields check : strip.objects("checks")) {
        batch
            .bind("id", record.scoreId())
            .bind("position", position)
            .bind("number", ++number)
            .bind("name", clean(check, "name"))
            .bind("set", set(check))
            .bind("metric", clean(check, "metric"))
            .bind("statistic", clean(check, "statistic"))
            .bind("patches", check.whole("patches", 0))
            .bind("value", check.number("value"))
            .bind("limit", check.number("limit"))
            .bind("guard", RecordJson.optionalNumber(check, "guard_band").orElse(0.0))
            .bind("verdict", verdict(check))
            .add();
      }
    }
    JobRows.execute(batch);
  }

  private void writePatches(Handle handle) throws InputException {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO patch_score (score_id, position, patch_set, patch_id, aim_l, aim_a,"
                + " aim_b, aim_source, lab_l, lab_a, lab_b, de00, de76, dch, dh, dl, sctv_pct,"
                + " sctv_aim_pct, limit_metric, limit_value, judged) VALUES (:id, :position, :set, :patch, :aimL, :aimA,"
                + " :aimB, :source, :l, :a, :b, :de00, :de76, :dch, :dh, :dl, :sctv, :sctvAim,"
                + " :limitMetric, :limit, :judged)");
    int position = 0;
    for (JsonFields strip : strips) {
      position++;
      for (JsonFields patch : strip.objects("patches")) {
        double[] aim = patch.numbers("aim_lab", 3);
        double[] lab = patch.numbers("lab", 3);
        batch
            .bind("id", record.scoreId())
            .bind("position", position)
            .bind("set", set(patch))
            .bind("patch", patch.text("id"))
            .bind("aimL", aim[0])
            .bind("aimA", aim[1])
            .bind("aimB", aim[2])
            .bind("source", patch.word("aim_source", AimSource.values()).word())
            .bind("l", lab[0])
            .bind("a", lab[1])
            .bind("b", lab[2])
            .bind("de00", patch.number("de00"))
            .bind("de76", patch.number("de76"))
            .bind("dch", patch.number("dch"))
            .bind("dh", patch.number("dh"))
            .bind("dl", patch.number("dl"))
            .bind("sctv", RecordJson.optionalNumber(patch, "sctv_pct").orElse(null))
            .bind("sctvAim", RecordJson.optionalNumber(patch, "sctv_aim_pct").orElse(null))
            .bind("limitMetric", RecordJson.optionalText(patch, "limit_metric").orElse(null))
            .bind("limit", RecordJson.optionalNumber(patch, "limit").orElse(null))
            .bind("judged", patch.flag("judged"))
            .add();
      }
    }
    JobRows.execute(batch);
  }

  private void writeFindings(Handle handle) throws InputException {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO score_finding (score_id, position, number, code, severity, text) VALUES"
                + " (:id, :position, :number, :code, :severity, :text)");
    int position = 0;
    for (JsonFields strip : strips) {
      position++;
      int number = 0;
      for (JsonFields finding : strip.objects("findings")) {
        batch
            .bind("id", record.scoreId())
            .bind("position", position)
            .bind("number", ++number)
            .bind("code", clean(finding, "code"))
            .bind("severity", clean(finding, "severity"))
            .bind("text", clean(finding, "text"))
            .add();
      }
    }
    JobRows.execute(batch);
  }

  private static String clean(JsonFields fields, String field) throws InputException {
    return StoredText.clean(fields.text(field));
  }

  private static String verdict(JsonFields fields) throws InputException {
    return fields.word("verdict", Verdict.values()).word();
  }

  private static String set(JsonFields fields) throws InputException {
    return fields.word("set", PatchSet.values()).word();
  }
}
