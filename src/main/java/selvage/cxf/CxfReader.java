package selvage.cxf;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.StringJoiner;
import java.util.TreeMap;
import selvage.cxf.CxfColor.Kind;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * Reads CxF3 (ISO 17972-1 [iso17972-1]) with the spot ink characterisations of CxF/X-4 (ISO 17972-4
 * [iso17972-4]) as files of the trade have it: with any namespace or none, values as elements or as
 * attributes. {@code docs/file-formats.md} says what is taken.
 */
public final class CxfReader {
  /** The largest file that is read, in bytes. */
  public static final int MAX_BYTES = 32 << 20;

  private static final int MOST_OBJECTS = 100_000;

  private final String fileName;
  private final CxfCursor xml;
  private final Map<String, String> information = new TreeMap<>();
  private final Map<String, CxfSpecification> specifications = new HashMap<>();
  private final List<CxfObject> objects = new ArrayList<>();
  private final List<CxfInk> inks = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();

  private CxfReader(String fileName, byte[] bytes) throws InputException {
    this.fileName = fileName;
    this.xml = new CxfCursor(fileName, bytes);
  }

  /** Whether bytes begin as XML does, byte order marks and blanks apart. */
  public static boolean isXml(byte[] bytes) {
    for (byte one : bytes) {
      int value = one & 0xFF;
      boolean before = value <= ' ' || value == 0xEF || value == 0xBB || value >= 0xFE;
      if (!before && value != 0xBF) {
        return value == '<';
      }
    }
    return false;
  }

  /**
   * Reads the bytes of a file.
   *
   * @param fileName for messages
   * @throws InputException where it is no well-formed CxF3, has a document type, is too large or
   *     too deep, or a number can't be read
   */
  public static CxfFile parse(String fileName, byte[] bytes) throws InputException {
    if (bytes.length > MAX_BYTES) {
      throw InputException.of(
          fileName, "expected at most " + (MAX_BYTES >> 20) + " MiB of CxF, found more; split it");
    }
    return new CxfReader(fileName, bytes).document();
  }

  private CxfFile document() throws InputException {
    if (!xml.nextChild(0) || !xml.name().equalsIgnoreCase("CxF")) {
      throw InputException.at(
          fileName,
          xml.line(),
          "XML",
          "expected a CxF document; at its root, expected the element CxF, found "
              + (xml.depth() == 0 ? "no element" : "<" + xml.name() + ">")
              + "; export the data as CxF3 or CGATS text");
    }
    while (xml.nextChild(1)) {
      switch (xml.name()) {
        case "FileInformation" -> fileInformation();
        case "Resources" -> resources();
        default -> {
          // CustomResources and the like: of them only characterised inks are taken
          new CxfInkReader(xml).read(inks);
        }
      }
    }
    xml.nextChild(0); // the rest has to be well-formed too
    return new CxfFile(fileName, information, specifications, objects, inks, findings);
  }

  private void fileInformation() throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      String name = xml.name().toUpperCase(Locale.ROOT);
      String tag = xml.attribute("Name").toUpperCase(Locale.ROOT);
      String value = xml.attribute("Value");
      String text = xml.text();
      if (name.equals("TAG") && !tag.isEmpty()) {
        information.merge(tag, value.isEmpty() ? text : value, (one, more) -> one + " " + more);
      } else if (!text.isEmpty()) {
        information.merge(name, text, (one, more) -> one + " " + more);
      }
    }
  }

  private void resources() throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      String collection = xml.name();
      int inside = xml.depth();
      while (xml.nextChild(inside)) {
        if (collection.equals("ObjectCollection") && xml.name().equals("Object")) {
          object();
        } else if (collection.equals("ColorSpecificationCollection")
            && xml.name().equals("ColorSpecification")) {
          specification();
        }
      }
    }
  }

  private void object() throws InputException {
    if (objects.size() == MOST_OBJECTS) {
      throw xml.refused(
          "expected at most " + MOST_OBJECTS + " objects, found more; split the file");
    }
    int line = xml.line();
    int depth = xml.depth();
    String type = xml.attribute("ObjectType");
    String name = xml.attribute("Name");
    String id = xml.attribute("Id");
    Map<String, String> tags = new HashMap<>();
    Map<String, Double> tints = new HashMap<>();
    List<CxfColor> colors = new ArrayList<>();
    while (xml.nextChild(depth)) {
      switch (xml.name()) {
        case "ColorValues" -> colorValues(colors);
        case "DeviceColorValues" -> deviceValues(tints);
        case "TagCollection" -> tags(tags);
        case "Tag" -> tag(tags);
        default -> {
          // comments, appearance, images
        }
      }
    }
    objects.add(new CxfObject(type, name, id, tags, tints, colors, line));
  }

  private void tags(Map<String, String> tags) throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      if (xml.name().equals("Tag")) {
        tag(tags);
      }
    }
  }

  private void tag(Map<String, String> tags) throws InputException {
    String name = xml.attribute("Name").toUpperCase(Locale.ROOT);
    String value = xml.attribute("Value");
    String text = xml.text();
    if (!name.isEmpty()) {
      tags.put(name, value.isEmpty() ? text : value);
    }
  }

  private void colorValues(List<CxfColor> colors) throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      switch (xml.name()) {
        case "ReflectanceSpectrum" -> colors.add(spectrum());
        case "ColorCIELab" -> colors.add(triple(Kind.LAB, "L", "A", "B"));
        case "ColorCIEXYZ" -> colors.add(triple(Kind.XYZ, "X", "Y", "Z"));
        default -> {
          // densities and other spaces
        }
      }
    }
  }

  private CxfColor spectrum() throws InputException {
    int line = xml.line();
    String specification = xml.attribute("ColorSpecification");
    OptionalDouble start = optional("StartWL");
    List<Double> values = xml.numbers();
    if (values.isEmpty()) {
      throw InputException.at(
          fileName,
          line,
          "ReflectanceSpectrum",
          "expected numbers, found nothing; measure again or remove the object");
    }
    return new CxfColor(Kind.SPECTRUM, specification, values, start, line);
  }

  private OptionalDouble optional(String attribute) throws InputException {
    String text = xml.attribute(attribute);
    return text.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(xml.number(attribute, text, xml.line()));
  }

  private CxfColor triple(Kind kind, String... axes) throws InputException {
    int line = xml.line();
    int depth = xml.depth();
    String element = xml.name();
    String specification = xml.attribute("ColorSpecification");
    Double[] values = new Double[3];
    for (int axis = 0; axis < 3; axis++) {
      String text = xml.attribute(axes[axis]);
      values[axis] = text.isEmpty() ? null : xml.number(axes[axis], text, line);
    }
    while (xml.nextChild(depth)) {
      for (int axis = 0; axis < 3; axis++) {
        if (xml.depth() == depth + 1 && xml.name().equalsIgnoreCase(axes[axis])) {
          String field = xml.name();
          int place = xml.line();
          values[axis] = xml.number(field, xml.text(), place);
          break;
        }
      }
    }
    for (int axis = 0; axis < 3; axis++) {
      if (values[axis] == null) {
        throw InputException.at(
            fileName,
            line,
            element,
            "expected "
                + String.join(", ", axes)
                + ", found no "
                + axes[axis]
                + "; measure again, or remove it");
      }
    }
    return new CxfColor(kind, specification, List.of(values), OptionalDouble.empty(), line);
  }

  private void deviceValues(Map<String, Double> tints) throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      if (xml.name().startsWith("ColorCMYK")) {
        inks(tints);
      }
    }
  }

  private void inks(Map<String, Double> tints) throws InputException {
    int depth = xml.depth();
    for (String ink : List.of("Cyan", "Magenta", "Yellow", "Black")) {
      String text = xml.attribute(ink);
      if (!text.isEmpty()) {
        tints.put(ink, xml.number(ink, text, xml.line()));
      }
    }
    while (xml.nextChild(depth)) {
      String name = xml.name();
      int line = xml.line();
      String process = processInk(name);
      if (!process.isEmpty()) {
        tints.put(process, xml.number(name, xml.text(), line));
      } else if (name.equals("SpotColor")) {
        spot(tints);
      }
    }
  }

  /** The process ink that an element means, by its name or its letter; empty for others. */
  private static String processInk(String element) {
    return switch (element) {
      case "Cyan", "C" -> "Cyan";
      case "Magenta", "M" -> "Magenta";
      case "Yellow", "Y" -> "Yellow";
      case "Black", "K" -> "Black";
      default -> "";
    };
  }

  private void spot(Map<String, Double> tints) throws InputException {
    int line = xml.line();
    int depth = xml.depth();
    String name = xml.attribute("Name");
    String percent = xml.attribute("Percentage");
    while (xml.nextChild(depth)) {
      switch (xml.name()) {
        case "Name" -> name = xml.text();
        case "Percentage" -> percent = xml.text();
        default -> {
          // nothing else counts
        }
      }
    }
    if (!name.isEmpty()) {
      tints.put(name, xml.number("SpotColor " + name, percent, line));
    }
  }

  private void specification() throws InputException {
    int line = xml.line();
    String id = xml.attribute("Id");
    Map<String, String> texts = new HashMap<>();
    StringJoiner geometry = new StringJoiner(" ");
    OptionalDouble[] range = {OptionalDouble.empty(), OptionalDouble.empty()};
    collect(xml.depth(), texts, geometry, range);
    specifications.put(
        id,
        new CxfSpecification(
            texts.getOrDefault("Illuminant", ""),
            texts.getOrDefault("Observer", ""),
            texts.getOrDefault("DeviceIllumination", ""),
            texts.getOrDefault("DevicePolarization", ""),
            texts.getOrDefault("DeviceFilter", ""),
            texts.getOrDefault("Backing", ""),
            geometry.toString(),
            range[0],
            range[1],
            line));
  }

  /** Texts of the elements that say something of themselves, wherever below they stand. */
  private void collect(
      int depth, Map<String, String> texts, StringJoiner geometry, OptionalDouble[] range)
      throws InputException {
    while (xml.nextChild(depth)) {
      String name = xml.name();
      switch (name) {
        case "WavelengthRange" -> {
          range[0] = optional("StartWL");
          range[1] = optional("Increment");
        }
        case "Illuminant", "Observer", "DeviceIllumination", "DevicePolarization", "DeviceFilter" ->
            texts.put(name, xml.text());
        case "Backing" -> backing(texts);
        case "IlluminationAngle", "MeasurementAngle", "SingleAngleConfiguration" ->
            geometry.add(xml.text());
        default -> collect(xml.depth(), texts, geometry, range);
      }
    }
  }

  /** The backing's kind is the element's text or attribute, or that of an element within. */
  private void backing(Map<String, String> texts) throws InputException {
    String type = xml.attribute("Type");
    String text = type.isEmpty() ? xml.text() : type;
    if (!text.isEmpty()) {
      texts.put("Backing", text);
    }
  }
}
