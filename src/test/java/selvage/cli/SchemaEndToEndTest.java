package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.ledger.JobRecord;

/** What commands write is what {@code docs/schema} describes, and no field more. */
class SchemaEndToEndTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir static Path folder;

  @BeforeAll
  static void runTheDemo() {
    run("demo", folder.resolve("demo"));
  }

  @Test
  void survey_demo_asDescribed() throws IOException {
    assertThat(faults("survey", read("survey.json"))).isEmpty();
  }

  @Test
  void strips_demo_asDescribed() throws IOException {
    assertThat(faults("strips", read("proof.strips.json"))).isEmpty();
  }

  @Test
  void scores_severalStrips_asDescribed() throws IOException {
    assertThat(faults("score", read("good-score.json"))).isEmpty();
    assertThat(faults("score", read("bad-score.json"))).isEmpty();
  }

  @Test
  void score_oneStripWithAllThatCanBeAskedFor_asDescribed() throws IOException {
    Path json = folder.resolve("one.json");
    run(
        "score",
        folder.resolve("demo/proof.strips.json"),
        folder.resolve("demo/bad-measured.txt"),
        "--page",
        "1",
        "--repeatability",
        "0.3",
        "--diagnose",
        "--correction",
        folder.resolve("correction.txt"),
        "--json",
        json,
        "--quiet");
    JsonNode score = MAPPER.readTree(json.toFile());
    assertThat(score.has("mending")).isTrue();
    assertThat(faults("score", score)).isEmpty();
  }

  @Test
  void score_stripReadThreeTimes_asDescribed() throws IOException {
    Path strips = folder.resolve("demo/proof.strips.json");
    Path json = folder.resolve("thrice.json");
    List<Path> files = new ArrayList<>();
    for (int seed = 1; seed <= 3; seed++) {
      files.add(folder.resolve("m" + seed + ".txt"));
      run("rehearse", strips, "-o", files.get(seed - 1), "--noise", "0.3", "--seed", seed);
    }
    // with --page the one form, without it the form of several
    run(
        "score",
        strips,
        files.get(0),
        files.get(1),
        files.get(2),
        "--page",
        "1",
        "--json",
        json,
        "--quiet");
    JsonNode one = MAPPER.readTree(json.toFile());
    assertThat(one.path("repeatability").path("spreads")).isNotEmpty();
    assertThat(faults("score", one)).isEmpty();
    run("score", strips, files.get(0), files.get(1), "--json", json, "--quiet");
    JsonNode several = MAPPER.readTree(json.toFile());
    assertThat(several.path("scores").get(1).has("repeatability")).isTrue();
    assertThat(faults("score", several)).isEmpty();
  }

  @Test
  void score_filedInALedger_asDescribed() throws IOException {
    Path json = folder.resolve("filed.score.json");
    run(
        "score",
        folder.resolve("demo/proof.strips.json"),
        folder.resolve("demo/good-measured.txt"),
        "--ledger",
        folder.resolve("filed.db"),
        "--json",
        json,
        "--quiet");
    JsonNode score = MAPPER.readTree(json.toFile());
    assertThat(score.path("filed").path("folder").textValue()).isEqualTo("by hand");
    assertThat(faults("score", score)).isEmpty();
  }

  @Test
  void compare_season_asDescribed() throws IOException {
    Path json = folder.resolve("comparison.json");
    run("compare", "--ledger", folder.resolve("demo/season.db"), "--json", json, "--quiet");
    JsonNode comparison = MAPPER.readTree(json.toFile());
    assertThat(comparison.path("pairs").intValue()).isEqualTo(150);
    assertThat(faults("comparison", comparison)).isEmpty();
  }

  @Test
  void jobRecord_stampedAndRefused_asDescribed() throws IOException {
    for (JobRecord.State state : JobRecord.State.values()) {
      boolean stamped = state == JobRecord.State.STAMPED;
      JobRecord job =
          new JobRecord(
              "0".repeat(32),
              "flyers",
              "a/b.pdf",
              "0".repeat(64),
              7,
              Instant.EPOCH,
              Instant.EPOCH,
              state,
              stamped ? Optional.of("a/b.proof.pdf") : Optional.empty(),
              stamped ? Optional.of("a/b.proof.strips.json") : Optional.empty(),
              stamped ? Optional.empty() : Optional.of("no PDF"));
      assertThat(faults("job", MAPPER.readTree(job.toJson()))).isEmpty();
    }
  }

  @Test
  void score_wrongVerdictOrMissingField_noticed() throws IOException {
    ObjectNode score = (ObjectNode) read("good-score.json");
    score.put("verdict", "perhaps");
    assertThat(faults("score", score)).isNotEmpty();
    ObjectNode strips = (ObjectNode) read("proof.strips.json");
    ((ObjectNode) strips.path("strips").get(0)).remove("strip_id");
    assertThat(faults("strips", strips)).isNotEmpty();
  }

  private static JsonNode read(String file) throws IOException {
    return MAPPER.readTree(folder.resolve("demo").resolve(file).toFile());
  }

  /** Against the schema, closed to fields that it does not describe. */
  private static List<String> faults(String name, JsonNode json) throws IOException {
    Path file = Path.of("docs", "schema", name + ".schema.json");
    JsonNode described = MAPPER.readTree(file.toFile());
    assertThat(described.path("$schema").textValue()).contains("2020-12");
    close(described);
    Schema schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12).getSchema(described);
    return schema.validate(json).stream().map(Object::toString).toList();
  }

  private static void close(JsonNode node) {
    if (node.path("properties").isObject() && node.path("type").isTextual()) {
      ((ObjectNode) node).put("additionalProperties", false);
    }
    node.forEach(SchemaEndToEndTest::close);
  }

  private static void run(Object... arguments) {
    PrintWriter silent = new PrintWriter(new StringWriter());
    Main.run(Stream.of(arguments).map(Object::toString).toArray(String[]::new), silent, silent);
  }
}
