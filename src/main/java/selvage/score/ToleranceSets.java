package selvage.score;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import selvage.finding.InputException;
import selvage.strip.PatchSet;

/**
 * Finds and reads tolerance sets: JSON files as {@code docs/file-formats.md} describes them, built
 * in from {@code strips/tolerances} or a user's own. A key that is not known refuses the file,
 * because a misspelt limit would not be applied.
 */
public final class ToleranceSets {
  /** The tolerance sets that the program carries; the first is the default. */
  public static final List<String> BUILT_IN = List.of("iso-12647-7-2016", "iso-12647-7-2007-de76");

  private static final int MAX_BYTES = 1 << 20;
  private static final Set<String> KEYS =
      Set.of("selvage_tolerance", "name", "source", "guard_band", "limits");
  private static final Set<String> LIMIT_KEYS =
      Set.of(
          "name",
          "set",
          "patches",
          "role",
          "metric",
          "statistic",
          "limit",
          "guard_band",
          "least",
          "source",
          "mark");

  private final String file;
  private String place = "";

  private ToleranceSets(String file) {
    this.file = file;
  }

  /**
   * The tolerance set of a name or a file.
   *
   * @param nameOrFile one of {@link #BUILT_IN}, or the path of a file
   * @throws InputException where it is neither, or the file is no tolerance set
   */
  public static ToleranceSet resolve(String nameOrFile) throws InputException {
    if (BUILT_IN.contains(nameOrFile)) {
      String resource = "/strips/tolerances/" + nameOrFile + ".json";
      try (InputStream in = ToleranceSets.class.getResourceAsStream(resource)) {
        if (in == null) {
          throw new IllegalStateException(resource + " is not built in");
        }
        return parse(nameOrFile, in.readAllBytes());
      } catch (IOException e) {
        throw new IllegalStateException(resource, e);
      }
    }
    Path path = pathOrNull(nameOrFile);
    if (path == null || !Files.isRegularFile(path)) {
      throw InputException.of(
          nameOrFile,
          "expected a tolerance set's name ("
              + String.join(", ", BUILT_IN)
              + ") or file, found neither; choose one of them");
    }
    try (InputStream in = Files.newInputStream(path)) {
      return parse(nameOrFile, in.readNBytes(MAX_BYTES));
    } catch (IOException e) {
      throw InputException.of(nameOrFile, "can't be read: " + e.getMessage(), e);
    }
  }

  private static Path pathOrNull(String text) {
    try {
      return Path.of(text);
    } catch (InvalidPathException e) {
      return null;
    }
  }

  /**
   * Reads a tolerance set.
   *
   * @param file for messages
   * @param json the file's bytes
   * @throws InputException naming the place and what was expected there
   */
  public static ToleranceSet parse(String file, byte[] json) throws InputException {
    JsonMapper mapper =
        JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .disable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();
    mapper
        .getFactory()
        .setStreamReadConstraints(StreamReadConstraints.builder().maxNestingDepth(20).build());
    JsonNode root;
    try {
      root = mapper.readTree(json);
    } catch (JsonProcessingException e) {
      JsonLocation at = e.getLocation();
      throw InputException.at(
          file,
          at == null ? 1 : at.getLineNr(),
          "JSON",
          "expected a tolerance set, found a fault: " + e.getOriginalMessage());
    } catch (IOException e) {
      throw InputException.of(file, "can't be read: " + e.getMessage(), e);
    }
    return new ToleranceSets(file).toleranceSet(root);
  }

  private ToleranceSet toleranceSet(JsonNode root) throws InputException {
    if (!root.isObject() || root.path("selvage_tolerance").asInt() != 1) {
      throw fault("selvage_tolerance", "1 (a tolerance set)", root.path("selvage_tolerance"));
    }
    requireKnown(root, KEYS);
    String name = text(root, "name");
    String source = text(root, "source");
    double guardBand = number(root, "guard_band", 0);
    if (!root.path("limits").isArray() || root.path("limits").isEmpty()) {
      throw fault("limits", "a list of limits", root.path("limits"));
    }
    List<Limit> limits = new ArrayList<>();
    for (JsonNode node : root.path("limits")) {
      place = "limits[" + limits.size() + "].";
      limits.add(limit(node, guardBand));
    }
    place = "";
    try {
      return new ToleranceSet(name, source, limits);
    } catch (IllegalArgumentException e) {
      throw InputException.of(file, "limits: found " + e.getMessage() + "; put it right", e);
    }
  }

  private Limit limit(JsonNode node, double guardBand) throws InputException {
    if (!node.isObject()) {
      throw fault("", "an object", node);
    }
    requireKnown(node, LIMIT_KEYS);
    try {
      return new Limit(
          text(node, "name"),
          word(node, "set", PatchSet.values(), PatchSet::word),
          word(node, "patches", PatchChoice.values(), PatchChoice::word),
          node.has("role") ? text(node, "role") : "",
          word(node, "metric", Metric.values(), Metric::word),
          word(node, "statistic", Statistic.values(), Statistic::word),
          number(node, "limit", Double.NaN),
          number(node, "guard_band", guardBand),
          (int) number(node, "least", 1),
          text(node, "source"),
          text(node, "mark"));
    } catch (IllegalArgumentException e) {
      throw InputException.of(file, place + " found " + e.getMessage() + "; put it right", e);
    }
  }

  private void requireKnown(JsonNode node, Set<String> known) throws InputException {
    for (Iterator<String> names = node.fieldNames(); names.hasNext(); ) {
      String name = names.next();
      if (!known.contains(name)) {
        throw InputException.of(
            file, place + name + ": is no key of a tolerance set; correct or remove it");
      }
    }
  }

  private String text(JsonNode node, String key) throws InputException {
    JsonNode value = node.path(key);
    if (!value.isTextual() || value.textValue().isBlank()) {
      throw fault(key, "a text", value);
    }
    return value.textValue();
  }

  private double number(JsonNode node, String key, double otherwise) throws InputException {
    JsonNode value = node.path(key);
    if (value.isMissingNode() && !Double.isNaN(otherwise)) {
      return otherwise;
    }
    if (!value.isNumber() || !Double.isFinite(value.doubleValue())) {
      throw fault(key, "a number", value);
    }
    return value.doubleValue();
  }

  private <T> T word(JsonNode node, String key, T[] choices, Function<T, String> word)
      throws InputException {
    List<String> words = new ArrayList<>();
    for (T choice : choices) {
      if (word.apply(choice).equals(node.path(key).textValue())) {
        return choice;
      }
      words.add(word.apply(choice));
    }
    throw fault(key, "one of " + String.join(", ", words), node.path(key));
  }

  private InputException fault(String key, String expected, JsonNode found) {
    return InputException.of(
        file,
        place
            + key
            + ": expected "
            + expected
            + ", found "
            + (found.isMissingNode() ? "nothing" : found.toString())
            + "; put it right");
  }
}
