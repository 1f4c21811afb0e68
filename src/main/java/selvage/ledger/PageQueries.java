package selvage.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/** What pages ask of the ledger: jobs by the page, scores at a glance, texts as they were filed. */
final class PageQueries {
  private static final String SUMMARY =
      "SELECT s.score_id, s.folder, s.file, s.sha256, s.received, s.scored, s.job_id, s.proof,"
          + " s.verdict, p.position, p.strip_id, p.page, p.simulated, p.tolerance, t.patch_set,"
          + " t.verdict AS set_verdict FROM score s JOIN strip_score p ON p.score_id = s.score_id"
          + " LEFT JOIN set_score t ON t.score_id = p.score_id AND t.position = p.position"
          + " AND t.patch_set IN ('job', 'standard') WHERE ";
  private static final String LATEST_FIRST =
      " ORDER BY s.received DESC, s.score_id DESC, p.position";

  private PageQueries() {}

  static Optional<String> stripsJson(Handle handle, String jobId) {
    return handle
        .createQuery("SELECT strips_json FROM job WHERE job_id = :id AND strips_json IS NOT NULL")
        .bind("id", jobId)
        .mapTo(String.class)
        .findOne();
  }

  static Optional<String> scoreJson(Handle handle, String scoreId) {
    return handle
        .createQuery("SELECT score_json FROM score WHERE score_id = :id")
        .bind("id", scoreId)
        .mapTo(String.class)
        .findOne();
  }

  static List<JobRecord> jobs(Handle handle, JobFilter filter, String text, int skip, int most) {
    Query query =
        handle.createQuery(
            "SELECT "
                + LedgerQueries.JOB
                + " FROM job j"
                + where(filter, text)
                + " ORDER BY j.received DESC, j.job_id DESC LIMIT :most OFFSET :skip");
    bind(query, filter, text);
    return query.bind("most", most).bind("skip", skip).map(LedgerQueries::jobRecord).list();
  }

  static long jobCount(Handle handle, JobFilter filter, String text) {
    Query query = handle.createQuery("SELECT COUNT(*) FROM job j" + where(filter, text));
    bind(query, filter, text);
    return query.mapTo(Long.class).one();
  }

  private static String where(JobFilter filter, String text) {
    StringBuilder where = new StringBuilder();
    LedgerQueries.also(where, filter.from(), "j.received >= :from");
    LedgerQueries.also(where, filter.to(), "j.received < :to");
    LedgerQueries.also(where, filter.folder(), "j.folder = :folder");
    LedgerQueries.also(where, filter.state(), "j.state = :state");
    LedgerQueries.also(where, filter.sha256(), "j.sha256 = :sha256");
    if (!text.isEmpty()) {
      LedgerQueries.also(
          where,
          Optional.of(text),
          "(LOWER(j.file) LIKE :text ESCAPE '!' OR LOWER(j.proof) LIKE :text ESCAPE '!')");
    }
    return where.toString();
  }

  private static void bind(Query query, JobFilter filter, String text) {
    filter.from().ifPresent(time -> query.bind("from", StoredText.time(time)));
    filter.to().ifPresent(time -> query.bind("to", StoredText.time(time)));
    filter.folder().ifPresent(folder -> query.bind("folder", folder));
    filter.state().ifPresent(state -> query.bind("state", state.word()));
    filter.sha256().ifPresent(hash -> query.bind("sha256", hash));
    if (!text.isEmpty()) {
      String plain = StoredText.clean(text).toLowerCase(Locale.ROOT);
      String literal = plain.replace("!", "!!").replace("%", "!%").replace("_", "!_");
      query.bind("text", "%" + literal + "%");
    }
  }

  static List<ScoreSummary> summariesOfJobs(Handle handle, Collection<String> jobIds) {
    if (jobIds.isEmpty()) {
      return List.of();
    }
    return summaries(
        handle
            .createQuery(SUMMARY + "s.job_id IN (<ids>)" + LATEST_FIRST)
            .bindList("ids", List.copyOf(jobIds)));
  }

  static List<ScoreSummary> latestSummaries(Handle handle, int skip, int most) {
    return summaries(
        handle
            .createQuery(
                SUMMARY
                    + "s.score_id IN (SELECT one.score_id FROM score one ORDER BY one.received DESC,"
                    + " one.score_id DESC LIMIT :most OFFSET :skip)"
                    + LATEST_FIRST)
            .bind("most", most)
            .bind("skip", skip));
  }

  /** Joins the rows of a score: one a strip and set. */
  private static List<ScoreSummary> summaries(Query query) {
    Map<String, Gathering> gathered = new LinkedHashMap<>();
    query
        .map(
            (rows, context) -> {
              gathered
                  .computeIfAbsent(
                      rows.getString("score_id"),
                      id -> new Gathering(new LinkedHashMap<>(), new ArrayList<>()))
                  .add(rows, LedgerQueries.scoreRecord(rows, context));
              return null;
            })
        .list();
    return gathered.values().stream().map(Gathering::summary).toList();
  }

  private record Gathering(
      Map<Integer, ScoreSummary.StripVerdict> strips, List<ScoreSummary> heads) {
    void add(ResultSet rows, ScoreRecord record) throws SQLException {
      if (heads.isEmpty()) {
        heads.add(
            new ScoreSummary(
                record, ScoredStripQuery.verdict(rows.getString("verdict")), List.of()));
      }
      int position = rows.getInt("position");
      ScoreSummary.StripVerdict strip = strips.get(position);
      if (strip == null) {
        strip =
            new ScoreSummary.StripVerdict(
                rows.getString("strip_id"),
                rows.getInt("page"),
                rows.getBoolean("simulated"),
                rows.getString("tolerance"),
                Optional.empty(),
                Optional.empty());
      }
      String set = rows.getString("patch_set");
      if (set != null) {
        Verdict verdict = ScoredStripQuery.verdict(rows.getString("set_verdict"));
        strip =
            set.equals(PatchSet.JOB.word()) ? strip.withJob(verdict) : strip.withStandard(verdict);
      }
      strips.put(position, strip);
    }

    ScoreSummary summary() {
      ScoreSummary head = heads.get(0);
      return new ScoreSummary(head.record(), head.verdict(), List.copyOf(strips.values()));
    }
  }

  static LabelNames names(Handle handle) {
    return new LabelNames(
        distinct(handle, "folder"),
        distinct(handle, "proofing_system"),
        distinct(handle, "substrate"),
        distinct(handle, "condition_name"));
  }

  private static List<String> distinct(Handle handle, String column) {
    return handle
        .createQuery(
            "SELECT DISTINCT "
                + column
                + " FROM job WHERE "
                + column
                + " IS NOT NULL ORDER BY "
                + column)
        .mapTo(String.class)
        .list();
  }
}
