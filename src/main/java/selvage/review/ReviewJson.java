package selvage.review;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.strip.ChosenPatch;
import selvage.strip.Reason;

/** Changes as JSON, a line each, and the record that lies beside an approved proof. */
final class ReviewJson {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private ReviewJson() {}

  /** A change in one line. */
  static String line(Change change) {
    return change(change).toString();
  }

  private static ObjectNode change(Change change) {
    ObjectNode node = MAPPER.createObjectNode();
    node.put("time", change.time().toString());
    node.put("who", change.who());
    node.put("kind", word(change.kind()));
    if (change.page() > 0) {
      node.put("page", change.page());
    }
    node.put("text", change.text());
    ObjectNode choices = node.putObject("choices");
    new TreeMap<>(change.choices())
        .forEach((page, choice) -> choices.set(page.toString(), choice(choice)));
    return node;
  }

  private static ObjectNode choice(PageChoice choice) {
    ObjectNode node = MAPPER.createObjectNode();
    node.put("count", choice.count());
    node.put("ordered", choice.ordered());
    ArrayNode patches = node.putArray("patches");
    for (ChosenPatch patch : choice.patches()) {
      patches
          .addObject()
          .put("inks", MixtureKey.of(patch.mixture()))
          .put("reason", patch.reason().word())
          .put("kept", choice.kept().contains(patch.mixture()));
    }
    ArrayNode dropped = node.putArray("dropped");
    choice.dropped().stream().map(MixtureKey::of).sorted().forEach(dropped::add);
    return node;
  }

  /**
   * Reads a line.
   *
   * @param place for messages
   * @throws InputException where it is no change
   */
  static Change read(String place, String line) throws InputException {
    try {
      JsonNode node = MAPPER.readTree(line);
      Map<Integer, PageChoice> choices = new TreeMap<>();
      for (Map.Entry<String, JsonNode> one : node.required("choices").properties()) {
        choices.put(Integer.valueOf(one.getKey()), choice(one.getValue()));
      }
      return new Change(
          Instant.parse(node.required("time").asText()),
          node.required("who").asText(),
          Change.Kind.valueOf(node.required("kind").asText().toUpperCase(Locale.ROOT)),
          node.path("page").asInt(0),
          node.required("text").asText(),
          choices);
    } catch (JsonProcessingException | IllegalArgumentException | DateTimeException e) {
      throw InputException.of(
          place, "expected a change of a review, found something else: " + e.getMessage(), e);
    }
  }

  private static PageChoice choice(JsonNode node) {
    List<ChosenPatch> patches = new ArrayList<>();
    Set<InkMixture> kept = new LinkedHashSet<>();
    for (JsonNode patch : node.required("patches")) {
      InkMixture mixture = MixtureKey.parse(patch.required("inks").asText());
      String reason = patch.required("reason").asText().toUpperCase(Locale.ROOT).replace('-', '_');
      patches.add(new ChosenPatch(mixture, Reason.valueOf(reason)));
      if (patch.path("kept").asBoolean()) {
        kept.add(mixture);
      }
    }
    Set<InkMixture> dropped = new LinkedHashSet<>();
    node.path("dropped").forEach(key -> dropped.add(MixtureKey.parse(key.asText())));
    return new PageChoice(
        patches,
        kept,
        dropped,
        node.required("count").asInt(),
        node.required("ordered").asBoolean());
  }

  private static String word(Change.Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT);
  }

  /** What lies beside an approved proof: whose choice it is, and how it came about. */
  static String record(String id, String file, List<Change> changes) {
    ObjectNode node = MAPPER.createObjectNode();
    node.put("selvage", 1);
    node.put("review_id", id);
    node.put("file", file);
    ArrayNode list = node.putArray("changes");
    changes.forEach(change -> list.add(change(change)));
    return node.toPrettyString() + "\n";
  }
}
