package selvage.ledger;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import selvage.finding.InputException;
import selvage.strip.JsonFields;
import selvage.strip.StripsJson;

/** The JSON of the ledger's records: how files are read, and fields read and written. */
final class RecordJson {
  /** The version of the form, in the field {@code selvage}. */
  static final int VERSION = 1;

  private static final Pattern ID = Pattern.compile("[0-9a-f]{32}");
  private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");

  private RecordJson() {}

  /** Writes one value. */
  interface Content {
    void writeTo(JsonGenerator json) throws IOException;
  }

  /** A file's text, UTF-8, of at most the length of a strips file. */
  static String text(Path file) throws InputException {
    String name = file.toString();
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(StripsJson.MAX_BYTES + 1);
      if (bytes.length > StripsJson.MAX_BYTES) {
        throw InputException.of(
            name,
            "expected at most " + (StripsJson.MAX_BYTES >> 20) + " MiB, found more; remove it");
      }
      return new String(bytes, StandardCharsets.UTF_8);
    } catch (NoSuchFileException e) {
      throw InputException.of(name, "no such file; check the name", e);
    } catch (IOException e) {
      throw InputException.of(name, "can't be read: " + e.getMessage(), e);
    }
  }

  /**
   * The object that a text is.
   *
   * @param name the file's, for messages
   * @param kind what it ought to be, in words
   * @throws InputException where it is none, or of another version
   */
  static JsonFields object(String name, String kind, String json) throws InputException {
    JsonNode root;
    try {
      root = new ObjectMapper().readTree(json);
    } catch (JsonProcessingException e) {
      throw InputException.of(
          name, "expected a " + kind + " (JSON), found: " + e.getOriginalMessage(), e);
    }
    JsonFields fields = JsonFields.of(name, kind, root);
    if (fields.whole("selvage", 1) != VERSION) {
      throw fields.complaint("selvage", "version " + VERSION);
    }
    return fields;
  }

  /** The fields of an object of numbers that the ledger itself wrote. */
  static Map<String, Double> numbers(String json) {
    Map<String, Double> numbers = new TreeMap<>();
    try {
      JsonNode node = new ObjectMapper().readTree(json);
      node.fieldNames().forEachRemaining(name -> numbers.put(name, node.get(name).doubleValue()));
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(e);
    }
    return numbers;
  }

  static void requireId(String id) {
    if (!ID.matcher(id).matches()) {
      throw new IllegalArgumentException(
          "expected an id of 32 hexadecimal digits in lower case, found " + shown(id));
    }
  }

  static void requireSha256(String hash) {
    if (!SHA256.matcher(hash).matches()) {
      throw new IllegalArgumentException(
          "expected a SHA-256 of 64 hexadecimal digits in lower case, found " + shown(hash));
    }
  }

  static String required(String field, String text) {
    if (text.isBlank()) {
      throw new IllegalArgumentException(field + " is blank");
    }
    return StoredText.clean(text);
  }

  private static String shown(String text) {
    return "\"" + (text.length() <= 80 ? text : text.substring(0, 80) + "…") + "\"";
  }

  static Instant time(JsonFields fields, String field) throws InputException {
    try {
      return Instant.parse(fields.text(field));
    } catch (DateTimeParseException e) {
      throw fields.complaint(field, "a time such as 2026-11-25T10:03:00Z");
    }
  }

  static Optional<String> optionalText(JsonFields fields, String field) throws InputException {
    return fields.node().hasNonNull(field) ? Optional.of(fields.text(field)) : Optional.empty();
  }

  static Optional<Double> optionalNumber(JsonFields fields, String field) throws InputException {
    return fields.node().hasNonNull(field) ? Optional.of(fields.number(field)) : Optional.empty();
  }

  static void writeOptional(JsonGenerator json, String field, Optional<String> value)
      throws IOException {
    if (value.isPresent()) {
      json.writeStringField(field, value.get());
    }
  }

  /** Text with Unix line ends on every system, and one at its end. */
  static String written(Content content) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(
          new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n")));
      content.writeTo(json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }
}
