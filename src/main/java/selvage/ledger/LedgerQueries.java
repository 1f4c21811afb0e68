package selvage.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.StatementContext;

/** What is asked of the ledger's tables, and calibrations written to them. */
final class LedgerQueries {
  static final String JOB =
      "j.job_id, j.folder, j.file, j.sha256, j.bytes, j.received, j.finished, j.state, j.proof,"
          + " j.strips_file, j.why";
  private static final String FILED =
      "SELECT "
          + JOB
          + ", s.strip_id, s.page, j.strips_json FROM strip s JOIN job j ON j.job_id = s.job_id";
  private static final String SCORE =
      "score_id, folder, file, sha256, received, scored, job_id, proof";

  private LedgerQueries() {}

  static Optional<JobRecord> job(Handle handle, String jobId) {
    return handle
        .createQuery("SELECT " + JOB + " FROM job j WHERE j.job_id = :id")
        .bind("id", jobId)
        .map(LedgerQueries::jobRecord)
        .findOne();
  }

  /** Adds a condition to a where clause, if there is a wish. */
  static void also(StringBuilder where, Optional<?> wish, String condition) {
    if (wish.isPresent()) {
      where.append(where.length() == 0 ? " WHERE " : " AND ").append(condition);
    }
  }

  static Optional<JobRecord> jobOfStrips(Handle handle, String stripsJson) {
    return handle
        .createQuery(
            "SELECT "
                + JOB
                + " FROM job j WHERE j.strips_sha256 = :hash"
                + " ORDER BY j.received DESC, j.job_id DESC LIMIT 1")
        .bind("hash", StoredText.sha256(StoredText.clean(stripsJson)))
        .map(LedgerQueries::jobRecord)
        .findOne();
  }

  static Optional<FiledStrip> stripOfJob(Handle handle, String jobId) {
    return handle
        .createQuery(FILED + " WHERE s.job_id = :id ORDER BY s.page, s.strip_id LIMIT 1")
        .bind("id", jobId)
        .map(LedgerQueries::filedStrip)
        .findOne();
  }

  static List<FiledStrip> strips(Handle handle, String stripId, int most) {
    return handle
        .createQuery(
            FILED
                + " WHERE s.strip_id = :id"
                + " ORDER BY s.received DESC, s.job_id DESC LIMIT :most")
        .bind("id", stripId)
        .bind("most", most)
        .map(LedgerQueries::filedStrip)
        .list();
  }

  /** The long texts are fetched for the chosen few alone, so that sorting stays small. */
  static List<FiledStrip> latestStrips(Handle handle, int skip, int most) {
    return handle
        .createQuery(
            "SELECT "
                + JOB
                + ", s.strip_id, s.page, j.strips_json FROM (SELECT one.strip_id, one.job_id,"
                + " one.page, one.received FROM strip one WHERE NOT EXISTS (SELECT 1 FROM strip"
                + " later WHERE later.strip_id = one.strip_id AND (later.received > one.received"
                + " OR (later.received = one.received AND later.job_id > one.job_id)))"
                + " ORDER BY one.received DESC, one.job_id DESC, one.page, one.strip_id"
                + " LIMIT :most OFFSET :skip) s JOIN job j ON j.job_id = s.job_id"
                + " ORDER BY s.received DESC, s.job_id DESC, s.page, s.strip_id")
        .bind("most", most)
        .bind("skip", skip)
        .map(LedgerQueries::filedStrip)
        .list();
  }

  static Optional<ScoreRecord> score(Handle handle, String scoreId) {
    return handle
        .createQuery("SELECT " + SCORE + " FROM score WHERE score_id = :id")
        .bind("id", scoreId)
        .map(LedgerQueries::scoreRecord)
        .findOne();
  }

  static List<ScoreRecord> scoresOfJob(Handle handle, String jobId) {
    return handle
        .createQuery(
            "SELECT "
                + SCORE
                + " FROM score WHERE job_id = :id ORDER BY received DESC, score_id DESC")
        .bind("id", jobId)
        .map(LedgerQueries::scoreRecord)
        .list();
  }

  static Ledger.Count count(Handle handle) {
    return new Ledger.Count(rows(handle, "job"), rows(handle, "strip"), rows(handle, "score"));
  }

  private static long rows(Handle handle, String table) {
    return handle.createQuery("SELECT COUNT(*) FROM " + table).mapTo(Long.class).one();
  }

  static void calibrate(Handle handle, Calibration calibration) {
    handle
        .createUpdate("DELETE FROM calibration WHERE calibration_id = :id")
        .bind("id", calibration.id())
        .execute();
    handle
        .createUpdate(
            "INSERT INTO calibration (calibration_id, proofing_system, at, note)"
                + " VALUES (:id, :system, :at, :note)")
        .bind("id", calibration.id())
        .bind("system", calibration.proofingSystem())
        .bind("at", StoredText.time(calibration.time()))
        .bind("note", calibration.note())
        .execute();
  }

  static List<Calibration> calibrations(Handle handle) {
    return handle
        .createQuery(
            "SELECT proofing_system, at, note FROM calibration ORDER BY at, calibration_id")
        .map(
            (rows, context) ->
                new Calibration(
                    rows.getString("proofing_system"),
                    Instant.parse(rows.getString("at")),
                    rows.getString("note")))
        .list();
  }

  static JobRecord jobRecord(ResultSet rows, StatementContext context) throws SQLException {
    return new JobRecord(
        rows.getString("job_id"),
        rows.getString("folder"),
        rows.getString("file"),
        rows.getString("sha256"),
        rows.getLong("bytes"),
        Instant.parse(rows.getString("received")),
        Instant.parse(rows.getString("finished")),
        JobRecord.State.of(rows.getString("state")),
        Optional.ofNullable(rows.getString("proof")),
        Optional.ofNullable(rows.getString("strips_file")),
        Optional.ofNullable(rows.getString("why")));
  }

  private static FiledStrip filedStrip(ResultSet rows, StatementContext context)
      throws SQLException {
    return new FiledStrip(
        jobRecord(rows, context),
        rows.getString("strip_id"),
        rows.getInt("page"),
        rows.getString("strips_json"));
  }

  static ScoreRecord scoreRecord(ResultSet rows, StatementContext context) throws SQLException {
    return new ScoreRecord(
        rows.getString("score_id"),
        rows.getString("folder"),
        rows.getString("file"),
        rows.getString("sha256"),
        Instant.parse(rows.getString("received")),
        Instant.parse(rows.getString("scored")),
        Optional.ofNullable(rows.getString("job_id")),
        Optional.ofNullable(rows.getString("proof")));
  }
}
