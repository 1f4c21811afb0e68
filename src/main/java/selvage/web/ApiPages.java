package selvage.web;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.util.List;
import java.util.Map;
import selvage.finding.InputException;
import selvage.ledger.JobFilter;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.ledger.ScoreSummary;
import selvage.report.ComparisonJson;
import selvage.score.Verdict;

/** What other programs read of the shop, as JSON below {@code /api/v1}. */
final class ApiPages {
  static final String ROOT = "/api/v1";
  static final String DESCRIPTION = "/api/openapi.json";
  private static final Map<String, String> SCHEMAS =
      Map.of(
          "job.schema.json", "/schema/job.schema.json",
          "strips.schema.json", "/schema/strips.schema.json",
          "score.schema.json", "/schema/score.schema.json",
          "comparison.schema.json", "/schema/comparison.schema.json");
  private static final int MOST = 500;
  private static final int USUAL = 100;
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final Pages pages;
  private final ProofShelf shelf;

  private ApiPages(Pages pages, ProofShelf shelf) {
    this.pages = pages;
    this.shelf = shelf;
  }

  static void register(RoutesConfig routes, Pages pages, ProofShelf shelf) {
    ApiPages api = new ApiPages(pages, shelf);
    routes.get(DESCRIPTION, ApiPages::describe);
    routes.get("/api/schema/{name}", ApiPages::schema);
    routes.get("/help/api", api::help);
    routes.get(ROOT + "/health", api::health);
    routes.get(ROOT + "/jobs", api::jobs);
    routes.get(ROOT + "/jobs/{jobId}", context -> json(context, api.job(context).toJson()));
    routes.get(ROOT + "/jobs/{jobId}/strips", api::strips);
    routes.get(ROOT + "/scores", api::scores);
    routes.get(ROOT + "/scores/{scoreId}", api::score);
    routes.get(ROOT + "/comparison", api::comparison);
  }

  static void json(Context context, String text) {
    context.contentType("application/json; charset=utf-8").result(text);
  }

  private static void describe(Context context) throws IOException {
    resource(context, "/web/openapi.json");
  }

  /** A name in a request is looked up in a table; it never becomes a path. */
  private static void schema(Context context) throws IOException {
    String resource = SCHEMAS.get(context.pathParam("name"));
    if (resource == null) {
      throw new NotFoundResponse("There is no schema of this name.");
    }
    resource(context, resource);
  }

  private static void resource(Context context, String name) throws IOException {
    try (InputStream in = ApiPages.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("not in the jar: " + name);
      }
      context.contentType("application/json; charset=utf-8").result(in.readAllBytes());
    }
  }

  private void help(Context context) throws InputException {
    pages.show(context, "apihelp.jte", pages.frame(context, "For other programs", ""), Map.of());
  }

  /** Answers 503 by {@link Failures} where the ledger can't be asked. */
  private void health(Context context) {
    Ledger.Count count = shelf.ledger().count();
    ObjectNode health = MAPPER.createObjectNode();
    health.put("status", "well");
    health.put("jobs", count.jobs());
    health.put("strips", count.strips());
    health.put("scores", count.scores());
    json(context, health.toString());
  }

  private void jobs(Context context) throws InputException {
    JobFilter filter =
        new JobFilter(
            ApiWishes.moment(context, "from"),
            ApiWishes.moment(context, "to"),
            ApiWishes.text(context, "folder"),
            ApiWishes.state(context),
            java.util.Optional.empty());
    String text = ApiWishes.text(context, "text").orElse("");
    int skip = ApiWishes.whole(context, "skip", 0, 0, Integer.MAX_VALUE);
    int most = ApiWishes.whole(context, "most", USUAL, 1, MOST);
    ObjectNode answer = MAPPER.createObjectNode();
    answer.put("total", shelf.ledger().jobCount(filter, text));
    ArrayNode list = answer.putArray("jobs");
    for (JobRecord job : shelf.ledger().jobs(filter, text, skip, most)) {
      list.add(read(job.toJson()));
    }
    json(context, answer.toString());
  }

  private static JsonNode read(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (IOException e) {
      throw new IllegalStateException("a record that is no JSON", e);
    }
  }

  private JobRecord job(Context context) {
    String id = LedgerIds.of(context, "jobId", "job");
    return shelf.ledger().job(id).orElseThrow(() -> LedgerIds.unknown("job"));
  }

  private void strips(Context context) {
    JobRecord job = job(context);
    json(
        context,
        shelf
            .ledger()
            .stripsJson(job.jobId())
            .orElseThrow(() -> new NotFoundResponse("This job was refused and has no strips.")));
  }

  private void scores(Context context) throws InputException {
    List<ScoreSummary> found;
    if (context.queryParam("job") != null) {
      String id = context.queryParam("job");
      if (!LedgerIds.isOne(id)) {
        throw ApiWishes.wrong("job", "an id of 32 hexadecimal digits in lower case", id);
      }
      found = shelf.ledger().summaries(List.of(id));
    } else {
      found =
          shelf
              .ledger()
              .latestSummaries(
                  ApiWishes.whole(context, "skip", 0, 0, Integer.MAX_VALUE),
                  ApiWishes.whole(context, "most", USUAL, 1, MOST));
    }
    ObjectNode answer = MAPPER.createObjectNode();
    ArrayNode list = answer.putArray("scores");
    found.forEach(score -> add(score, list.addObject()));
    json(context, answer.toString());
  }

  private static void add(ScoreSummary score, ObjectNode node) {
    node.put("score_id", score.record().scoreId());
    score.record().jobId().ifPresent(id -> node.put("job_id", id));
    score.record().proof().ifPresent(proof -> node.put("proof", proof));
    node.put("folder", score.record().folder());
    node.put("file", score.record().file());
    node.put("received", score.record().received().toString());
    node.put("simulated", score.simulated());
    node.put("verdict", score.verdict().word());
    score.job().map(Verdict::word).ifPresent(word -> node.put("job", word));
    score.standard().map(Verdict::word).ifPresent(word -> node.put("standard", word));
  }

  private void score(Context context) {
    String id = LedgerIds.of(context, "scoreId", "score");
    json(context, shelf.ledger().scoreJson(id).orElseThrow(() -> LedgerIds.unknown("score")));
  }

  private void comparison(Context context) throws InputException, IOException {
    ComparisonWish wish = ComparisonWish.of(context);
    if (!wish.complaints().isEmpty()) {
      throw InputException.of("the address", String.join(" ", wish.complaints()));
    }
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      ComparisonJson.write(ComparisonPages.compare(shelf.ledger(), wish), json);
    }
    json(context, text.toString());
  }
}
