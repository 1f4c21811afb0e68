package selvage.web;

import io.javalin.http.Context;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import selvage.ledger.JobFilter;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.ledger.ScoreSummary;

/** The jobs of the ledger, the latest first, a page at a time, with their last scores. */
final class ProofList {
  private static final int A_PAGE = 100;
  private static final int MOST_TEXT = 200;

  private final Ledger ledger;

  ProofList(Ledger ledger) {
    this.ledger = ledger;
  }

  /**
   * What a request asks for: {@code text} in the file's name, {@code state} and {@code page} from
   * 1. What can't be understood is no wish.
   */
  ProofListView model(Context context) {
    return model(
        context.queryParam("text"), context.queryParam("state"), context.queryParam("page"));
  }

  ProofListView model(String wantedText, String wantedState, String wantedPage) {
    String text = Optional.ofNullable(wantedText).orElse("").strip();
    text = text.length() > MOST_TEXT ? text.substring(0, MOST_TEXT) : text;
    Optional<JobRecord.State> state = state(wantedState);
    JobFilter filter = state.isPresent() ? JobFilter.in(state.get()) : JobFilter.ALL;
    long total = ledger.jobCount(filter, text);
    long pages = Math.max(1, (total + A_PAGE - 1) / A_PAGE);
    long page = Math.min(pages, page(wantedPage));
    int skip = (int) Math.min(Integer.MAX_VALUE - A_PAGE, (page - 1) * A_PAGE);
    List<JobRecord> jobs = ledger.jobs(filter, text, skip, A_PAGE);
    Map<String, ScoreSummary> last = new HashMap<>();
    for (ScoreSummary score : ledger.summaries(jobs.stream().map(JobRecord::jobId).toList())) {
      last.putIfAbsent(score.record().jobId().orElseThrow(), score);
    }
    List<ProofListView.Row> rows = new ArrayList<>();
    for (JobRecord job : jobs) {
      rows.add(new ProofListView.Row(job, Optional.ofNullable(last.get(job.jobId()))));
    }
    String query =
        "text="
            + URLEncoder.encode(text, StandardCharsets.UTF_8)
            + "&state="
            + state.map(JobRecord.State::word).orElse("");
    return new ProofListView(
        rows, text, state.map(JobRecord.State::word).orElse(""), total, page, pages, query);
  }

  private static Optional<JobRecord.State> state(String word) {
    for (JobRecord.State state : JobRecord.State.values()) {
      if (state.word().equals(word == null ? "" : word.toLowerCase(Locale.ROOT))) {
        return Optional.of(state);
      }
    }
    return Optional.empty();
  }

  private static long page(String given) {
    boolean isNumber = given != null && given.matches("[1-9][0-9]{0,8}");
    return isNumber ? Long.parseLong(given) : 1;
  }
}
