package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.ledger.LedgerFixture;
import selvage.measurement.LabShift;
import selvage.measurement.StripFixture;

/**
 * The API over HTTP: its answers are what {@code openapi.json} and {@code docs/schema} describe.
 */
class ApiHttpTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final String JOB = LedgerFixture.id(1);
  private static final String SCORE = LedgerFixture.score(1, 1).scoreId();

  @TempDir static Path root;
  private static FiledShop shop;
  private static JsonNode description;

  @BeforeAll
  static void fillTheShop() throws Exception {
    shop = new FiledShop(root);
    String strips = LedgerFixture.strips("Proofer 1", "AAAA-0001");
    shop.file(LedgerFixture.stamped(1, "flyer.pdf"), Optional.of(strips));
    shop.file(LedgerFixture.refused(2, "bad.pdf", "no PDF"), Optional.empty());
    shop.ledger.fileScore(
        LedgerFixture.score(1, 1), LedgerFixture.scoreJson(new LabShift(-9, 0, 0), "AAAA-0001"));
    Files.writeString(shop.outgoing.resolve("flyer.pdf.proof.pdf"), "%PDF-proof");
    Files.writeString(shop.outgoing.resolve("flyer.pdf.proof.strips.json"), strips);
    description = json("/api/openapi.json");
  }

  @AfterAll
  static void close() {
    shop.close();
  }

  private static JsonNode json(String path) throws IOException, InterruptedException {
    HttpResponse<String> answer = shop.get(path);
    assertThat(answer.statusCode()).as(path + ": " + answer.body()).isEqualTo(200);
    assertThat(answer.headers().firstValue("Content-Type").orElseThrow())
        .startsWith("application/json");
    return MAPPER.readTree(answer.body());
  }

  /** An API's client is no browser: it keeps no cookies. */
  private static HttpResponse<String> post(String path, byte[] body, String... headers)
      throws Exception {
    HttpRequest.Builder request =
        shop.web.request(path).POST(HttpRequest.BodyPublishers.ofByteArray(body));
    if (headers.length > 0) {
      request.headers(headers);
    }
    return java.net.http.HttpClient.newHttpClient()
        .send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void routes_ofTheApi_areThoseDescribed() {
    TreeSet<String> described = new TreeSet<>();
    for (var path : description.path("paths").properties()) {
      for (var method : path.getValue().properties()) {
        described.add(method.getKey().toUpperCase(Locale.ROOT) + " " + path.getKey());
      }
    }

    assertThat(described).isEqualTo(new TreeSet<>(shop.web.server.apiRoutes()));
    assertThat(described).hasSizeGreaterThan(8);
  }

  @ParameterizedTest
  @CsvSource({
    "/api/v1/health, /api/v1/health",
    "/api/v1/jobs, /api/v1/jobs?most=5",
    "/api/v1/jobs, /api/v1/jobs?state=refused&text=BAD&from=2026-01-01T00:00:00Z&folder=house",
    "/api/v1/jobs/{jobId}, /api/v1/jobs/00000000000000000000000000000001",
    "/api/v1/jobs/{jobId}/strips, /api/v1/jobs/00000000000000000000000000000001/strips",
    "/api/v1/scores, /api/v1/scores",
    "/api/v1/scores, /api/v1/scores?job=00000000000000000000000000000001",
    "/api/v1/scores/{scoreId}, /api/v1/scores/000000000000000000000000000003e9",
    "/api/v1/comparison, /api/v1/comparison?from=2026-11-01&to=2026-11-30"
  })
  void answers_ofEveryAddress_areAsDescribed(String path, String request) throws Exception {
    JsonNode schema =
        description
            .path("paths")
            .path(path)
            .path("get")
            .path("responses")
            .path("200")
            .path("content")
            .path("application/json")
            .path("schema");

    assertThat(faults(schema, json(request))).isEmpty();
  }

  /** What an answer has against a schema of the description. */
  private static List<String> faults(JsonNode schema, JsonNode answer) throws IOException {
    ObjectNode whole = MAPPER.createObjectNode();
    whole.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    whole.setAll((ObjectNode) inlined(schema.deepCopy()));
    whole.set("components", inlined(description.path("components").deepCopy()));
    Schema compiled =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(whole.toString());
    List<String> faults = new ArrayList<>();
    for (Error error :
        compiled.validate(answer.toString(), com.networknt.schema.InputFormat.JSON)) {
      faults.add(error.toString());
    }
    return faults;
  }

  /** Puts the schema files in the place of their addresses. */
  private static JsonNode inlined(JsonNode node) throws IOException {
    if (node.isObject()) {
      String address = node.path("$ref").asText("");
      if (address.startsWith("/api/schema/")) {
        JsonNode file =
            MAPPER.readTree(
                Path.of("docs/schema", address.substring("/api/schema/".length())).toFile());
        return file;
      }
      List<String> names = new ArrayList<>();
      node.fieldNames().forEachRemaining(names::add);
      for (String name : names) {
        ((ObjectNode) node).set(name, inlined(node.get(name)));
      }
    } else if (node.isArray()) {
      for (int i = 0; i < node.size(); i++) {
        ((com.fasterxml.jackson.databind.node.ArrayNode) node).set(i, inlined(node.get(i)));
      }
    }
    return node;
  }

  @Test
  void schemas_ofTheDescription_areServed() throws Exception {
    for (String name : List.of("job", "strips", "score", "comparison")) {
      assertThat(json("/api/schema/" + name + ".schema.json"))
          .isEqualTo(MAPPER.readTree(Path.of("docs/schema", name + ".schema.json").toFile()));
    }
    assertThat(shop.get("/api/schema/..%2fopenapi.json").statusCode()).isIn(400, 404);
  }

  @ParameterizedTest
  @CsvSource({
    "404, /api/v1/jobs/x",
    "404, /api/v1/jobs/ffffffffffffffffffffffffffffffff",
    "404, /api/v1/jobs/00000000000000000000000000000002/strips",
    "404, /api/v1/scores/..%2e",
    "404, /api/v1/nothing",
    "422, /api/v1/jobs?most=0",
    "422, /api/v1/jobs?most=99999999999999",
    "422, /api/v1/jobs?skip=-1",
    "422, /api/v1/jobs?from=yesterday",
    "422, /api/v1/jobs?to=%2B1000000000-01-01T00:00:00Z",
    "422, /api/v1/jobs?state=%3Cb%3E",
    "422, /api/v1/scores?job=1",
    "422, /api/v1/comparison?from=x"
  })
  void faults_ofTheAsker_areToldAsJson(int status, String path) throws Exception {
    HttpResponse<String> answer = shop.get(path);
    JsonNode error = MAPPER.readTree(answer.body());

    assertThat(answer.statusCode()).isEqualTo(status);
    assertThat(error.path("status").asInt()).isEqualTo(status);
    assertThat(faults(description.at("/components/schemas/Error"), error)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "..%2F..%2Fescape.pdf, escape.pdf",
    "%2Fetc%2Fcron.d%2Fjob.pdf, job.pdf",
    ".hidden.pdf, hidden.pdf",
    "a%3Cb%3E%00.pdf, a_b__.pdf"
  })
  void submitJob_anyName_liesInTheIncomingFolderAlone(String name, String expected)
      throws Exception {
    byte[] file = "%PDF-1.7 a job".getBytes(StandardCharsets.UTF_8);
    HttpResponse<String> answer = post("/api/v1/jobs?name=" + name, file);

    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(202);
    JsonNode json = MAPPER.readTree(answer.body());
    assertThat(faults(description.at("/components/schemas/Accepted"), json)).isEmpty();
    assertThat(json.path("file").asText()).isEqualTo(expected);
    assertThat(root.resolve("in").resolve(expected)).hasBinaryContent(file);
    Files.delete(root.resolve("in").resolve(expected));
    try (var left = Files.list(root.resolve("in"))) {
      assertThat(left.filter(Files::isRegularFile)).isEmpty();
    }
  }

  @Test
  void submitJob_twice_replacesNothing() throws Exception {
    post("/api/v1/jobs?name=same.pdf", "one".getBytes(StandardCharsets.UTF_8));
    HttpResponse<String> answer =
        post("/api/v1/jobs?name=same.pdf", "two".getBytes(StandardCharsets.UTF_8));

    assertThat(MAPPER.readTree(answer.body()).path("file").asText()).isEqualTo("same-2.pdf");
    assertThat(root.resolve("in/same.pdf")).hasContent("one");
    Files.delete(root.resolve("in/same.pdf"));
    Files.delete(root.resolve("in/same-2.pdf"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/api/v1/jobs",
        "/api/v1/jobs?name=a.pdf.part",
        "/api/v1/jobs?name=a.pdf&folder=..%2Fout",
        "/api/v1/measurements?name=a.txt",
        "/api/v1/measurements?name=a.txt&job=1"
      })
  void submit_unusable_isToldAsJson(String path) throws Exception {
    HttpResponse<String> answer = post(path, new byte[] {1, 2, 3});

    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(MAPPER.readTree(answer.body()).path("error").asText())
        .isNotBlank()
        .doesNotContain(root.toString());
  }

  @Test
  void submit_tooLarge_isToldAsJson() throws Exception {
    HttpResponse<String> answer = post("/api/v1/jobs?name=a.pdf", new byte[(4 << 20) + 1]);

    assertThat(answer.statusCode()).isEqualTo(413);
    assertThat(MAPPER.readTree(answer.body()).path("error").asText()).contains("--max-upload");
    assertThat(root.resolve("in/a.pdf")).doesNotExist();
  }

  @Test
  void submit_fromAnotherSite_isRefused() throws Exception {
    byte[] file = {1};

    assertThat(post("/api/v1/jobs?name=a.pdf", file, "Origin", "http://elsewhere.example"))
        .satisfies(answer -> assertThat(answer.statusCode()).isEqualTo(403));
    assertThat(post("/api/v1/jobs?name=a.pdf", file, "Origin", "null").statusCode()).isEqualTo(403);
    assertThat(post("/api/v1/jobs?name=a.pdf", file, "Sec-Fetch-Site", "cross-site").statusCode())
        .isEqualTo(403);
    assertThat(post("/api/v1/jobs?name=a.pdf", file, "Cookie", "selvage=x").statusCode())
        .isEqualTo(403);
    assertThat(root.resolve("in/a.pdf")).doesNotExist();
  }

  @Test
  void submitMeasurement_ofAProof_isScoredAndAnsweredWithTheScore() throws Exception {
    HttpResponse<String> answer =
        post(
            "/api/v1/measurements?name=a.txt&job=" + JOB,
            StripFixture.measured("AAAA-0001", 0, 0, 0).getBytes(StandardCharsets.UTF_8));

    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(201);
    JsonNode score = MAPPER.readTree(answer.body());
    assertThat(score.path("verdict").asText()).isEqualTo("pass");
    JsonNode schema =
        description
            .at("/paths/~1api~1v1~1measurements/post/responses/201/content")
            .path("application/json")
            .path("schema");
    assertThat(faults(schema, score)).isEmpty();
    String location = answer.headers().firstValue("Location").orElseThrow();
    assertThat(json(location)).isEqualTo(score);
    assertThat(location).isNotEqualTo("/api/v1/scores/" + SCORE);
  }

  @Test
  void help_isAPage() throws Exception {
    assertThat(shop.get("/help/api").body()).contains("<h1>For other programs</h1>");
  }
}
