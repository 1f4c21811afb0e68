package selvage.ledger;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import org.jdbi.v3.core.statement.StatementContext;
import selvage.color.Lab;
import selvage.ink.InkMixture;
import selvage.score.Verdict;
import selvage.strip.PatchSet;

/** Reads scored strips one by one: their headings first, then the sets and patches of each. */
final class ScoredStripQuery {
  /**
   * The job of a scored strip: the one that the score names and that the ledger has, else the
   * latest with that strip.
   */
  private static final String JOB_OF_STRIP =
      "COALESCE((SELECT named.job_id FROM job named WHERE named.job_id = s.job_id),"
          + " (SELECT like_it.job_id FROM strip like_it WHERE like_it.strip_id = p.strip_id"
          + " ORDER BY like_it.received DESC, like_it.job_id DESC LIMIT 1))";

  private record Heading(
      String scoreId,
      int position,
      String stripId,
      int page,
      Instant received,
      String proof,
      boolean simulated,
      String tolerance,
      Optional<String> jobId,
      Optional<String> proofingSystem,
      Optional<String> substrate,
      Optional<String> condition) {}

  private final Handle handle;
  private final ScoreFilter filter;
  private final Optional<String> scoreId;
  private final Map<String, InkMixture> mixtures = new HashMap<>();

  ScoredStripQuery(Handle handle, ScoreFilter filter) {
    this(handle, filter, Optional.empty());
  }

  private ScoredStripQuery(Handle handle, ScoreFilter filter, Optional<String> scoreId) {
    this.handle = handle;
    this.filter = filter;
    this.scoreId = scoreId;
  }

  /** The strips of one score. */
  static ScoredStripQuery ofScore(Handle handle, String scoreId) {
    return new ScoredStripQuery(handle, ScoreFilter.ALL, Optional.of(scoreId));
  }

  void run(Consumer<ScoredStrip> taker) {
    for (Heading heading : headings()) {
      taker.accept(
          new ScoredStrip(
              heading.scoreId(),
              heading.stripId(),
              heading.jobId(),
              heading.page(),
              heading.received(),
              heading.proof(),
              heading.proofingSystem(),
              heading.substrate(),
              heading.condition(),
              heading.simulated(),
              heading.tolerance(),
              sets(heading),
              patches(heading)));
    }
  }

  private List<Heading> headings() {
    StringBuilder where = new StringBuilder();
    LedgerQueries.also(where, scoreId, "s.score_id = :score");
    LedgerQueries.also(where, filter.from(), "s.received >= :from");
    LedgerQueries.also(where, filter.to(), "s.received < :to");
    LedgerQueries.also(where, filter.proofingSystem(), "j.proofing_system = :system");
    LedgerQueries.also(where, filter.substrate(), "j.substrate = :substrate");
    LedgerQueries.also(where, filter.condition(), "j.condition_name = :condition");
    LedgerQueries.also(where, filter.folder(), "s.folder = :folder");
    Query query =
        handle.createQuery(
            "SELECT s.score_id, p.position, p.strip_id, p.page, s.received, s.file, s.proof,"
                + " p.simulated, p.tolerance, j.job_id, j.proofing_system, j.substrate,"
                + " j.condition_name FROM score s JOIN strip_score p ON p.score_id = s.score_id"
                + " LEFT JOIN job j ON j.job_id = "
                + JOB_OF_STRIP
                + where
                + " ORDER BY s.received DESC, s.score_id DESC, p.position DESC");
    scoreId.ifPresent(id -> query.bind("score", id));
    filter.folder().ifPresent(name -> query.bind("folder", name));
    filter.from().ifPresent(time -> query.bind("from", StoredText.time(time)));
    filter.to().ifPresent(time -> query.bind("to", StoredText.time(time)));
    filter.proofingSystem().ifPresent(name -> query.bind("system", name));
    filter.substrate().ifPresent(name -> query.bind("substrate", name));
    filter.condition().ifPresent(name -> query.bind("condition", name));
    return query.map(ScoredStripQuery::heading).list();
  }

  private static Heading heading(ResultSet rows, StatementContext context) throws SQLException {
    String proof = rows.getString("proof");
    return new Heading(
        rows.getString("score_id"),
        rows.getInt("position"),
        rows.getString("strip_id"),
        rows.getInt("page"),
        Instant.parse(rows.getString("received")),
        proof == null ? rows.getString("file") : proof,
        rows.getBoolean("simulated"),
        rows.getString("tolerance"),
        Optional.ofNullable(rows.getString("job_id")),
        Optional.ofNullable(rows.getString("proofing_system")),
        Optional.ofNullable(rows.getString("substrate")),
        Optional.ofNullable(rows.getString("condition_name")));
  }

  private List<ScoredStrip.SetResult> sets(Heading heading) {
    return handle
        .createQuery(
            "SELECT patch_set, verdict, mean_de00, COALESCE(area_mean_de00, mean_de00) AS by_area,"
                + " max_de00 FROM set_score WHERE score_id = :id AND position = :position"
                + " AND patch_set IN ('job', 'standard')")
        .bind("id", heading.scoreId())
        .bind("position", heading.position())
        .map(
            (rows, context) ->
                new ScoredStrip.SetResult(
                    set(rows.getString("patch_set")),
                    verdict(rows.getString("verdict")),
                    rows.getDouble("mean_de00"),
                    rows.getDouble("by_area"),
                    rows.getDouble("max_de00")))
        .list();
  }

  private List<ScoredStrip.Reading> patches(Heading heading) {
    return handle
        .createQuery(
            "SELECT r.patch_set, r.patch_id, t.inks, t.role, r.aim_l, r.aim_a, r.aim_b, r.lab_l,"
                + " r.lab_a, r.lab_b, r.de00, r.de76, r.limit_metric, r.limit_value"
                + " FROM patch_score r LEFT JOIN patch t ON t.job_id = :job AND t.strip_id = :strip"
                + " AND t.patch_set = r.patch_set AND t.patch_id = r.patch_id"
                + " WHERE r.score_id = :id AND r.position = :position")
        .bind("id", heading.scoreId())
        .bind("position", heading.position())
        .bind("job", heading.jobId().orElse(null))
        .bind("strip", heading.stripId())
        .map(this::reading)
        .list();
  }

  private ScoredStrip.Reading reading(ResultSet rows, StatementContext context)
      throws SQLException {
    double de00 = rows.getDouble("de00");
    String metric = rows.getString("limit_metric");
    double limit = rows.getDouble("limit_value");
    Optional<Boolean> overLimit =
        metric == null
            ? Optional.empty()
            : Optional.of((metric.equals("de76") ? rows.getDouble("de76") : de00) > limit);
    return new ScoredStrip.Reading(
        set(rows.getString("patch_set")),
        rows.getString("patch_id"),
        mixture(rows.getString("inks")),
        Optional.ofNullable(rows.getString("role")),
        new Lab(rows.getDouble("aim_l"), rows.getDouble("aim_a"), rows.getDouble("aim_b")),
        new Lab(rows.getDouble("lab_l"), rows.getDouble("lab_a"), rows.getDouble("lab_b")),
        de00,
        overLimit);
  }

  /** The same inks come again and again. */
  private Optional<InkMixture> mixture(String inks) {
    if (inks == null) {
      return Optional.empty();
    }
    return Optional.of(
        mixtures.computeIfAbsent(inks, text -> InkMixture.ofPercents(RecordJson.numbers(text))));
  }

  private static PatchSet set(String word) {
    return word.equals(PatchSet.JOB.word()) ? PatchSet.JOB : PatchSet.STANDARD;
  }

  static Verdict verdict(String word) {
    for (Verdict verdict : Verdict.values()) {
      if (verdict.word().equals(word)) {
        return verdict;
      }
    }
    throw new IllegalStateException("no verdict: " + word);
  }
}
