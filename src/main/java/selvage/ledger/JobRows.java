package selvage.ledger;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jdbi.v3.core.statement.Update;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;
import selvage.strip.JsonFields;
import selvage.strip.Patch;
import selvage.strip.Strip;
import selvage.strip.StripLabel;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;

/** A job with its strips, ready to be written to the ledger's tables. */
final class JobRows {
  private static final int LONGEST_ID = 100;

  private final JobRecord job;
  private final Optional<String> stripsJson;
  private final Optional<StripsFile> strips;
  private final List<JsonFields> findings;

  private JobRows(
      JobRecord job,
      Optional<String> stripsJson,
      Optional<StripsFile> strips,
      List<JsonFields> findings) {
    this.job = job;
    this.stripsJson = stripsJson;
    this.strips = strips;
    this.findings = findings;
  }

  /**
   * Reads what is to be written.
   *
   * @throws InputException where the strips file's text can't be used
   */
  static JobRows of(JobRecord job, Optional<String> stripsJson) throws InputException {
    if (stripsJson.isEmpty()) {
      return new JobRows(job, stripsJson, Optional.empty(), List.of());
    }
    String name = job.strips().orElse(job.file());
    String text = StoredText.clean(stripsJson.get());
    StripsFile file = StripsJson.read(name, text.getBytes(StandardCharsets.UTF_8));
    JsonFields root = RecordJson.object(name, "strips file", text);
    for (Strip strip : file.strips()) {
      requireShort(name, "strip_id", strip.stripId());
      for (Patch patch : strip.patches()) {
        requireShort(name, "patch id", patch.id());
      }
    }
    return new JobRows(
        job,
        Optional.of(text),
        Optional.of(file),
        root.node().has("findings") ? root.objects("findings") : List.of());
  }

  /** Ids are keys of tables, and a database takes keys of some length only. */
  static void requireShort(String file, String field, String id) throws InputException {
    if (id.length() > LONGEST_ID || !id.equals(StoredText.clean(id))) {
      throw InputException.of(
          file,
          field
              + ": expected at most "
              + LONGEST_ID
              + " characters of plain text, found \""
              + id.substring(0, Math.min(id.length(), 40))
              + "…\"; write the file anew");
    }
  }

  /** Replaces what the ledger has of this job, within the caller's transaction. */
  void write(Handle handle) throws InputException {
    handle.createUpdate("DELETE FROM job WHERE job_id = :id").bind("id", job.jobId()).execute();
    writeJob(handle);
    if (strips.isEmpty()) {
      return;
    }
    writeLabel(handle);
    writeFindings(handle);
    writeStrips(handle);
    writePatches(handle);
  }

  private void writeJob(Handle handle) {
    Update insert =
        handle.createUpdate(
            "INSERT INTO job (job_id, folder, file, sha256, bytes, received, finished, state,"
                + " proof, strips_file, why, pages, condition_name, condition_source,"
                + " proofing_system, substrate, strips_sha256, strips_json)"
                + " VALUES (:id, :folder, :file, :sha256, :bytes, :received, :finished, :state,"
                + " :proof, :strips, :why, :pages, :condition, :conditionSource,"
                + " :system, :substrate, :stripsSha256, :stripsJson)");
    insert
        .bind("id", job.jobId())
        .bind("folder", job.folder())
        .bind("file", job.file())
        .bind("sha256", job.sha256())
        .bind("bytes", job.bytes())
        .bind("received", StoredText.time(job.received()))
        .bind("finished", StoredText.time(job.finished()))
        .bind("state", job.state().word())
        .bind("proof", job.proof().orElse(null))
        .bind("strips", job.strips().orElse(null))
        .bind("why", job.why().orElse(null))
        .bind("pages", strips.map(file -> file.job().pages()).orElse(null))
        .bind("condition", strips.map(file -> clean(file.conditionName())).orElse(null))
        .bind("conditionSource", strips.map(file -> clean(file.conditionSource())).orElse(null))
        .bind("system", labelled("Proofing system"))
        .bind("substrate", labelled("Substrate"))
        .bind("stripsSha256", stripsJson.map(StoredText::sha256).orElse(null))
        .bind("stripsJson", stripsJson.orElse(null))
        .execute();
  }

  private static String clean(String text) {
    return StoredText.clean(text);
  }

  /** What the label says; null where it says nothing or that it is not stated. */
  private String labelled(String name) {
    if (strips.isEmpty()) {
      return null;
    }
    for (StripLabel.Item item : strips.get().label()) {
      if (item.name().equals(name)) {
        return item.value().equals(StripLabel.NOT_STATED) ? null : clean(item.value());
      }
    }
    return null;
  }

  private void writeLabel(Handle handle) {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO label_item (job_id, position, name, value)"
                + " VALUES (:id, :position, :name, :value)");
    int position = 0;
    for (StripLabel.Item item : strips.orElseThrow().label()) {
      batch
          .bind("id", job.jobId())
          .bind("position", ++position)
          .bind("name", clean(item.name()))
          .bind("value", clean(item.value()))
          .add();
    }
    execute(batch);
  }

  private void writeFindings(Handle handle) throws InputException {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO job_finding (job_id, position, code, severity, text)"
                + " VALUES (:id, :position, :code, :severity, :text)");
    int position = 0;
    for (JsonFields finding : findings) {
      batch
          .bind("id", job.jobId())
          .bind("position", ++position)
          .bind("code", clean(finding.text("code")))
          .bind("severity", clean(finding.text("severity")))
          .bind("text", clean(finding.text("text")))
          .add();
    }
    execute(batch);
  }

  private void writeStrips(Handle handle) {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO strip (job_id, strip_id, received, page, seed, edge, media_extended,"
                + " reader, aperture_mm, within_de00_2_pct, within_de00_3_pct, mean_de00,"
                + " standard_within_de00_3_pct) VALUES (:id, :strip, :received, :page, :seed,"
                + " :edge, :extended, :reader, :aperture, :within2, :within3, :mean, :standard)");
    for (Strip strip : strips.orElseThrow().strips()) {
      batch
          .bind("id", job.jobId())
          .bind("strip", strip.stripId())
          .bind("received", StoredText.time(job.received()))
          .bind("page", strip.page())
          .bind("seed", strip.seed())
          .bind("edge", clean(strip.place().edge()))
          .bind("extended", strip.place().mediaExtended())
          .bind("reader", clean(strip.reader().name()))
          .bind("aperture", strip.reader().apertureMm())
          .bind("within2", strip.coverage().within2Percent())
          .bind("within3", strip.coverage().within3Percent())
          .bind("mean", strip.coverage().meanDe00())
          .bind("standard", strip.coverage().standardWithin3Percent())
          .add();
    }
    execute(batch);
  }

  private void writePatches(Handle handle) {
    PreparedBatch batch =
        handle.prepareBatch(
            "INSERT INTO patch (job_id, strip_id, patch_set, patch_id, position, role, inks,"
                + " aim_l, aim_a, aim_b, aim_source, area_pct, represents_pct) VALUES (:id, :strip,"
                + " :set, :patch, :position, :role, :inks, :l, :a, :b, :source, :area,"
                + " :represents)");
    for (Strip strip : strips.orElseThrow().strips()) {
      int position = 0;
      for (Patch patch : strip.patches()) {
        batch
            .bind("id", job.jobId())
            .bind("strip", strip.stripId())
            .bind("set", patch.set().word())
            .bind("patch", patch.id())
            .bind("position", ++position)
            .bind("role", clean(patch.role()))
            .bind("inks", inks(patch.mixture()))
            .bind("l", patch.aim().lab().l())
            .bind("a", patch.aim().lab().a())
            .bind("b", patch.aim().lab().b())
            .bind("source", patch.aim().source().word())
            .bind("area", patch.areaPercent())
            .bind("represents", patch.representsPercent())
            .add();
      }
    }
    execute(batch);
  }

  /** An empty batch is no statement. */
  static void execute(PreparedBatch batch) {
    if (batch.size() > 0) {
      batch.execute();
    }
  }

  /** Tints in percent by ink, a JSON object in the mixture's own order. */
  private static String inks(InkMixture mixture) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.writeStartObject();
      for (Map.Entry<Colorant, Integer> ink : mixture.units().entrySet()) {
        json.writeNumberField(clean(ink.getKey().name()), Tint.toPercent(ink.getValue()));
      }
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }
}
