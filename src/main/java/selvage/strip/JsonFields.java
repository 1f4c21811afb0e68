package selvage.strip;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import selvage.finding.InputException;

/** The fields of a JSON object, each asked for by name, type and place. */
public final class JsonFields {
  private final String file;
  private final String place;
  private final JsonNode node;

  private JsonFields(String file, String place, JsonNode node) {
    this.file = file;
    this.place = place;
    this.node = node;
  }

  /**
   * Wraps an object.
   *
   * @param place how messages name it, for example {@code strips[0].patches[3]}
   * @throws InputException where it is none
   */
  public static JsonFields of(String file, String place, JsonNode node) throws InputException {
    if (node == null || !node.isObject()) {
      throw InputException.of(
          file, place + ": expected an object, found " + shown(node) + "; write the file anew");
    }
    return new JsonFields(file, place, node);
  }

  private InputException wrong(String field, String expected) {
    return InputException.of(
        file, place + "." + field + ": expected " + expected + ", found " + shown(node.get(field)));
  }

  private static String shown(JsonNode value) {
    if (value == null || value.isMissingNode()) {
      return "nothing";
    }
    String text = value.toString();
    return text.length() <= 60 ? text : text.substring(0, 60) + "…";
  }

  public String text(String field) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isTextual() || value.textValue().isBlank()) {
      throw wrong(field, "a text");
    }
    return value.textValue();
  }

  public double number(String field) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isNumber() || !Double.isFinite(value.doubleValue())) {
      throw wrong(field, "a number");
    }
    return value.doubleValue();
  }

  public double number(String field, double least, double most) throws InputException {
    double value = number(field);
    if (!(value >= least && value <= most)) {
      throw wrong(field, "a number from " + least + " to " + most);
    }
    return value;
  }

  public int whole(String field, int least) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isIntegralNumber() || !value.canConvertToInt()) {
      throw wrong(field, "a whole number");
    }
    if (value.intValue() < least) {
      throw wrong(field, "a whole number of at least " + least);
    }
    return value.intValue();
  }

  public long longNumber(String field) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isIntegralNumber() || !value.canConvertToLong()) {
      throw wrong(field, "a whole number");
    }
    return value.longValue();
  }

  public boolean flag(String field) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isBoolean()) {
      throw wrong(field, "true or false");
    }
    return value.booleanValue();
  }

  public double[] numbers(String field, int count) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isArray() || value.size() != count) {
      throw wrong(field, "a list of " + count + " numbers");
    }
    double[] numbers = new double[count];
    for (int i = 0; i < count; i++) {
      if (!value.get(i).isNumber() || !Double.isFinite(value.get(i).doubleValue())) {
        throw wrong(field, "a list of " + count + " numbers");
      }
      numbers[i] = value.get(i).doubleValue();
    }
    return numbers;
  }

  /** One of an enum's words: its constants in lower case, hyphens for underscores. */
  public <T extends Enum<T>> T word(String field, T[] values) throws InputException {
    String text = text(field);
    List<String> words = new ArrayList<>();
    for (T value : values) {
      String word = value.name().toLowerCase(Locale.ROOT).replace('_', '-');
      if (word.equals(text)) {
        return value;
      }
      words.add(word);
    }
    throw wrong(field, "one of " + String.join(", ", words));
  }

  public JsonFields object(String field) throws InputException {
    return of(file, place + "." + field, node.get(field));
  }

  public List<JsonFields> objects(String field) throws InputException {
    JsonNode value = node.get(field);
    if (value == null || !value.isArray()) {
      throw wrong(field, "a list");
    }
    List<JsonFields> objects = new ArrayList<>();
    for (int i = 0; i < value.size(); i++) {
      objects.add(of(file, place + "." + field + "[" + i + "]", value.get(i)));
    }
    return objects;
  }

  /** The object itself, for fields whose names are data. */
  public JsonNode node() {
    return node;
  }

  /** A complaint about a field, in this file and place. */
  public InputException complaint(String field, String expected) {
    return wrong(field, expected);
  }

  /** A complaint about the object as a whole. */
  public InputException complaint(String problem) {
    return InputException.of(file, place + ": " + problem);
  }
}
