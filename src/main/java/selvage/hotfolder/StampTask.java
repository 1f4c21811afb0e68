package selvage.hotfolder;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import selvage.finding.InputException;
import selvage.separation.ContentLimits;
import selvage.sheet.Edge;
import selvage.strip.ChosenSet;
import selvage.strip.StripLabel;
import selvage.survey.AreaKind;
import selvage.survey.JobSurvey;
import selvage.workflow.StampJob;
import selvage.workflow.StampOptions;
import selvage.workflow.SurveyJob;

/** Stamps a job in a worker's process, into a folder that nobody else looks into. */
final class StampTask {
  private StampTask() {}

  /**
   * What is asked for.
   *
   * @param job the claimed file
   * @param proof the stamped file's name in the folder for finished files
   * @param time stamped on the label
   * @param shortSeconds after which it is to be given up as long; 0 for never
   */
  static ObjectNode request(
      FolderSettings.Stamping how, Path job, Path proof, Instant time, double shortSeconds) {
    ObjectNode request = new ObjectMapper().createObjectNode();
    request.put("kind", Kind.JOB.word());
    request.put("job", job.toString());
    request.put("proof", proof.toString());
    request.put("time", time.toString());
    request.put("short_seconds", shortSeconds);
    how.condition().ifPresent(condition -> request.put("condition", condition));
    request.put("standard", how.standard());
    request.put("patches", how.patches());
    request.put("reader", how.reader());
    request.put("edge", how.edge());
    request.put("per_job", how.perJob());
    request.put("dpi", how.dpi());
    ArrayNode spots = request.putArray("spots");
    how.spots().forEach(spot -> spots.add(spot.toString()));
    ArrayNode label = request.putArray("label");
    how.label().forEach(item -> label.addArray().add(item.name()).add(item.value()));
    return request;
  }

  static void run(JsonNode request, ObjectNode reply) throws InputException, IOException {
    run(request, reply, Map.of());
  }

  /**
   * As {@link #run(JsonNode, ObjectNode)}.
   *
   * @param chosen patches by the page that bears the strip
   */
  static void run(JsonNode request, ObjectNode reply, Map<Integer, ChosenSet> chosen)
      throws InputException, IOException {
    Path job = Path.of(request.path("job").asText());
    List<Path> spots = new ArrayList<>();
    request.path("spots").forEach(spot -> spots.add(Path.of(spot.asText())));
    double seconds = request.path("short_seconds").asDouble();
    long end = seconds > 0 ? System.nanoTime() + (long) (seconds * 1e9) : Long.MAX_VALUE;
    JobSurvey survey =
        new SurveyJob(
                new SurveyJob.Request(
                    job,
                    request.path("condition").asText(null),
                    null,
                    request.path("dpi").asDouble(),
                    AreaKind.TRIM,
                    spots,
                    null,
                    null,
                    ContentLimits.USUAL),
                page -> {
                  if (end != Long.MAX_VALUE && System.nanoTime() - end > 0) {
                    throw new Worker.TakesLongException();
                  }
                })
            .run();
    StampJob.Result result =
        StampJob.run(
            job, survey, Path.of(request.path("proof").asText()), options(request, chosen));
    reply.put("outcome", "stamped");
    reply.put("sha256", survey.job().sha256());
    reply.put("strips", result.strips().strips().size());
    reply.put("findings", result.findings().size());
    ArrayNode written = reply.putArray("written");
    result.written().forEach(file -> written.add(file.toString()));
  }

  private static StampOptions options(JsonNode request, Map<Integer, ChosenSet> chosen) {
    List<StripLabel.Item> label = new ArrayList<>();
    for (JsonNode item : request.path("label")) {
      label.add(new StripLabel.Item(item.path(0).asText(), item.path(1).asText()));
    }
    return new StampOptions(
        request.path("patches").asInt(),
        request.path("standard").asText(),
        request.path("reader").asText(),
        Edge.named(request.path("edge").asText()),
        request.path("per_job").asBoolean(),
        Optional.empty(),
        label,
        Instant.parse(request.path("time").asText()),
        chosen);
  }
}
