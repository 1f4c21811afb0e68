package selvage.hotfolder;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import selvage.finding.InputException;
import selvage.measurement.MatchedStrip;
import selvage.measurement.MeasurementReader;
import selvage.measurement.StripChoice;
import selvage.report.ScoreJson;
import selvage.report.ScoreText;
import selvage.score.ProofScore;
import selvage.strip.Strip;
import selvage.strip.StripsFile;
import selvage.strip.StripsJson;
import selvage.workflow.ScoreProof;
import selvage.workflow.WriteReports;

/** Scores a measurement in a worker's process against the strips that it may be of. */
final class ScoreTask {
  private ScoreTask() {}

  /**
   * A proof that a measurement may be of.
   *
   * @param strips its strips file
   * @param proof its name for people
   */
  record Candidate(Path strips, String proof) {}

  /**
   * What is asked for.
   *
   * @param measurement the claimed file
   * @param candidates the proof that it names, or all that it may be of
   * @param score where the score goes
   * @param report where the report goes
   */
  static ObjectNode request(
      FolderSettings folder,
      Path measurement,
      List<Candidate> candidates,
      Path score,
      Path report,
      Instant time) {
    ObjectNode request = new ObjectMapper().createObjectNode();
    request.put("kind", Kind.MEASUREMENT.word());
    request.put("measurement", measurement.toString());
    request.put("tolerance", folder.tolerance());
    folder.stamping().condition().ifPresent(condition -> request.put("condition", condition));
    request.put("score", score.toString());
    request.put("report", report.toString());
    request.put("time", time.toString());
    ArrayNode list = request.putArray("candidates");
    for (Candidate candidate : candidates) {
      list.addObject().put("strips", candidate.strips().toString()).put("proof", candidate.proof());
    }
    return request;
  }

  static void run(JsonNode request, ObjectNode reply) throws InputException, IOException {
    Path measurement = Path.of(request.path("measurement").asText());
    List<JsonNode> candidates = new ArrayList<>();
    request.path("candidates").forEach(candidates::add);
    int chosen = candidates.size() == 1 ? 0 : choose(measurement, candidates);
    Path strips = Path.of(candidates.get(chosen).path("strips").asText());
    StripsFile file = StripsJson.read(strips);
    Optional<String> condition =
        file.conditionSource().equals("file")
            ? Optional.ofNullable(request.path("condition").asText(null))
            : Optional.empty();
    ScoreProof.Outcome scored =
        new ScoreProof(
                StripChoice.ANY,
                request.path("tolerance").asText(),
                false,
                OptionalDouble.empty(),
                false,
                condition)
            .run(strips, List.of(measurement), OptionalDouble.empty());
    String name = String.valueOf(measurement.getFileName());
    ScoreProof.Outcome outcome =
        new ScoreProof.Outcome(
            scored.scores().stream()
                .map(score -> score.calling(measurement.toString(), name))
                .toList(),
            scored.mending());
    writeScore(Path.of(request.path("score").asText()), outcome.scores());
    new WriteReports(
            List.of(Path.of(request.path("report").asText())),
            List.of(),
            Instant.parse(request.path("time").asText()))
        .run(strips, List.of(measurement), outcome);
    reply.put("outcome", "scored");
    reply.put("candidate", chosen);
    reply.put("verdict", ScoreText.verdict(outcome.scores()).word());
  }

  private static void writeScore(Path target, List<ProofScore> scores) throws IOException {
    try (JsonGenerator json =
        new JsonFactory().createGenerator(target.toFile(), JsonEncoding.UTF8)) {
      json.useDefaultPrettyPrinter();
      ScoreJson.write(scores, json);
    }
  }

  /** The candidate whose strip the readings fit; the first that has it, where several do. */
  private static int choose(Path measurement, List<JsonNode> candidates)
      throws InputException, IOException {
    Map<String, Integer> owners = new LinkedHashMap<>();
    Map<String, String> proofs = new LinkedHashMap<>();
    List<Strip> strips = new ArrayList<>();
    StripsFile first = null;
    for (int i = 0; i < candidates.size(); i++) {
      StripsFile file;
      try {
        file = StripsJson.read(Path.of(candidates.get(i).path("strips").asText()));
      } catch (InputException e) {
        continue;
      }
      first = first == null ? file : first;
      for (Strip strip : file.strips()) {
        if (owners.putIfAbsent(strip.stripId(), i) == null) {
          proofs.put(strip.stripId(), candidates.get(i).path("proof").asText());
          strips.add(strip);
        }
      }
    }
    if (first == null) {
      throw InputException.of(
          measurement.getFileName().toString(),
          "no stamped proof is known that it could be a measurement of; stamp the job first");
    }
    StripsFile all =
        new StripsFile(
            first.job(), first.proof(), first.conditionName(), first.conditionSource(), strips);
    try {
      List<MatchedStrip> matched =
          StripChoice.ANY.match("the proofs known", all, MeasurementReader.read(measurement));
      return owners.get(matched.get(0).strip().stripId());
    } catch (InputException e) {
      StringBuilder named = new StringBuilder();
      proofs.forEach(
          (id, proof) -> {
            if (e.getMessage().contains(id) && named.length() < 400) {
              named.append(named.length() == 0 ? "" : ", ").append(id + " is of " + proof);
            }
          });
      throw InputException.of(
          measurement.getFileName().toString(),
          e.getMessage() + (named.length() == 0 ? "" : " (" + named + ")"));
    }
  }
}
