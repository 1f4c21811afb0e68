package selvage.color;

import java.io.ByteArrayInputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.StringTokenizer;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import selvage.color.CxfDocument.Kind;
import selvage.finding.InputException;

/**
 * Reads CxF3 (ISO 17972-1 [iso17972-1]) with the spot ink characterisations of CxF/X-4 (ISO 17972-4
 * [iso17972-4]): elements or attributes, in any namespace or none. Document types are refused and
 * nothing outside the file is read.
 */
final class CxfReader {
  private static final int MOST_DEPTH = 64;
  private static final int MOST_OBJECTS = 100_000;

  private final String file;
  private final XMLStreamReader xml;
  private final Deque<String> open = new ArrayDeque<>();
  private final List<CxfDocument.Entry> objects = new ArrayList<>();
  private final Map<String, CxfDocument.Specification> specifications = new LinkedHashMap<>();
  private final List<CxfDocument.Ink> inks = new ArrayList<>();
  private OpenObject object;
  private OpenSpecification specification;
  private OpenInk ink;

  /** An Object while it is read. */
  private static final class OpenObject {
    private final String id;
    private final String name;
    private final int line;
    private final List<CxfDocument.Stated> colors = new ArrayList<>();
    private String ink = "";
    private double tint = 100;
    private boolean overprint;
    private String colorSpecification = "";
    private OptionalDouble startNm = OptionalDouble.empty();
    private final Double[] values = new Double[3];

    private OpenObject(String id, String name, int line) {
      this.id = id;
      this.name = name;
      this.line = line;
    }
  }

  /** A ColorSpecification while it is read. */
  private static final class OpenSpecification {
    private final String id;
    private String illuminant = "";
    private String observer = "";
    private OptionalDouble startNm = OptionalDouble.empty();
    private OptionalDouble stepNm = OptionalDouble.empty();

    private OpenSpecification(String id) {
      this.id = id;
    }
  }

  /** A SpotInkCharacterisation while it is read. */
  private static final class OpenInk {
    private String name;
    private boolean overBlack;
    private List<String> words; // null outside a measurement
    private OptionalDouble tint = OptionalDouble.empty();
    private final List<CxfDocument.Measurement> measurements = new ArrayList<>();

    private OpenInk(String name) {
      this.name = name;
    }
  }

  private CxfReader(String file, XMLStreamReader xml) {
    this.file = file;
    this.xml = xml;
  }

  /**
   * Reads.
   *
   * @param file its name, for messages
   * @throws InputException where it is no CxF3, or what should be a number is none
   */
  static CxfDocument read(String file, byte[] bytes) throws InputException {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    try {
      XMLStreamReader xml = factory.createXMLStreamReader(new ByteArrayInputStream(bytes));
      try {
        return new CxfReader(file, xml).read();
      } finally {
        xml.close();
      }
    } catch (XMLStreamException e) {
      throw InputException.at(
          file,
          e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNumber()),
          "XML",
          "expected CxF3, found XML that can't be read; export the library again");
    }
  }

  private CxfDocument read() throws XMLStreamException, InputException {
    boolean cxf = false;
    StringBuilder text = new StringBuilder();
    while (xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.DTD || event == XMLStreamConstants.ENTITY_REFERENCE) {
        throw complaint("DOCTYPE", "expected no document type, found one; remove it from the file");
      } else if (event == XMLStreamConstants.START_ELEMENT) {
        String element = xml.getLocalName();
        if (open.isEmpty() && !element.equals("CxF")) {
          throw complaint(element, "expected the element CxF, found " + element);
        }
        cxf = true;
        open.push(element);
        limit(element);
        text.setLength(0);
        begin(element);
      } else if (event == XMLStreamConstants.CHARACTERS) {
        text.append(xml.getText());
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        String element = open.pop();
        end(element, open.isEmpty() ? "" : open.peek(), text.toString().strip());
        text.setLength(0);
      }
    }
    if (!cxf) {
      throw InputException.of(file, "expected CxF3, found no element");
    }
    return new CxfDocument(objects, specifications, inks);
  }

  private void limit(String element) throws InputException {
    int measurements = ink == null ? 0 : ink.measurements.size();
    if (open.size() > MOST_DEPTH
        || Math.max(objects.size(), Math.max(inks.size(), measurements)) > MOST_OBJECTS) {
      throw complaint(
          element,
          "expected at most "
              + MOST_DEPTH
              + " nested elements and "
              + MOST_OBJECTS
              + " objects; split the library");
    }
  }

  private void begin(String element) throws InputException {
    if (element.equals("Object")) {
      object =
          new OpenObject(attribute("Id"), attribute("Name"), xml.getLocation().getLineNumber());
    } else if (object != null) {
      beginColor(element);
    } else if (element.equals("ColorSpecification")) {
      specification = new OpenSpecification(attribute("Id"));
    } else if (specification != null && element.equals("WavelengthRange")) {
      specification.startNm = optionalNumber("StartWL");
      specification.stepNm = optionalNumber("Increment");
    } else if (isCharacterisation(element)) {
      ink = new OpenInk(attribute("SpotInkName"));
    } else if (ink != null) {
      beginMeasurement(element);
    }
  }

  private static boolean isCharacterisation(String element) {
    return element.equals("SpotInkCharacterisation") || element.equals("SpotInkCharacterization");
  }

  private void beginColor(String element) throws InputException {
    switch (element) {
      case "ColorCIELab" -> takeAxes(element, "LAB");
      case "ColorCIEXYZ" -> takeAxes(element, "XYZ");
      case "ReflectanceSpectrum" -> {
        object.colorSpecification = attribute("ColorSpecification");
        object.startNm = optionalNumber("StartWL");
      }
      default -> {}
    }
  }

  private void takeAxes(String element, String axes) throws InputException {
    object.colorSpecification = attribute("ColorSpecification");
    for (int i = 0; i < 3; i++) {
      String value = attribute(axes.substring(i, i + 1));
      object.values[i] = value.isEmpty() ? null : Double.valueOf(number(element, value));
    }
  }

  private void beginMeasurement(String element) throws InputException {
    if (element.equals("MeasurementSet")) {
      ink.overBlack = attribute("Background").toUpperCase(Locale.ROOT).contains("BLACK");
    } else if (element.equals("Measurement")) {
      ink.words = new ArrayList<>();
      ink.tint = OptionalDouble.empty();
    }
    if (ink.words != null) {
      for (int i = 0; i < xml.getAttributeCount(); i++) {
        takeWord(xml.getAttributeLocalName(i), xml.getAttributeValue(i).strip());
      }
    }
  }

  private void takeWord(String name, String text) throws InputException {
    if (text.isEmpty()) {
      return;
    }
    if (name.contains("Tint") || name.contains("Percent")) {
      ink.tint = OptionalDouble.of(percent(name, text));
    } else {
      ink.words.add(text);
    }
  }

  private void end(String element, String parent, String text) throws InputException {
    if (object != null) {
      if (element.equals("Object")) {
        objects.add(
            new CxfDocument.Entry(
                object.id,
                object.name,
                object.ink,
                object.tint,
                object.overprint,
                object.colors,
                object.line));
        object = null;
      } else {
        endColor(element, parent, text);
      }
    } else if (specification != null) {
      switch (element) {
        case "Illuminant" -> specification.illuminant = text.toUpperCase(Locale.ROOT);
        case "Observer" -> specification.observer = text;
        case "ColorSpecification" -> {
          specifications.putIfAbsent(
              specification.id,
              new CxfDocument.Specification(
                  specification.illuminant,
                  specification.observer,
                  specification.startNm,
                  specification.stepNm));
          specification = null;
        }
        default -> {}
      }
    } else if (ink != null) {
      endMeasurement(element, text);
    }
  }

  private void endColor(String element, String parent, String text) throws InputException {
    switch (element) {
      case "ColorCIELab" -> closeColor(Kind.LAB);
      case "ColorCIEXYZ" -> closeColor(Kind.XYZ);
      case "ReflectanceSpectrum" -> {
        List<Double> values = new ArrayList<>();
        StringTokenizer words = new StringTokenizer(text);
        while (words.hasMoreTokens()) {
          values.add(number(element, words.nextToken()));
        }
        state(Kind.SPECTRUM, values);
      }
      default -> endInner(element, parent, text);
    }
  }

  private void endInner(String element, String parent, String text) throws InputException {
    switch (parent) {
      case "ColorCIELab" -> takeAxis("LAB", element, text);
      case "ColorCIEXYZ" -> takeAxis("XYZ", element, text);
      case "SpotColor" -> {
        if (element.equals("Name")) {
          object.overprint |= !object.ink.isEmpty();
          object.ink = text;
        } else if (element.equals("Percentage")) {
          object.tint = percent(element, text);
        }
      }
      case "ColorCMYK", "ColorCMYKPlusN" -> {
        boolean process = element.length() == 1 || isProcess(element);
        object.overprint |= process && !text.isEmpty() && number(element, text) > 0;
      }
      default -> {}
    }
  }

  private void takeAxis(String axes, String element, String text) throws InputException {
    int axis = element.length() == 1 ? axes.indexOf(element) : -1;
    if (axis >= 0) {
      object.values[axis] = number(element, text);
    }
  }

  private void closeColor(Kind kind) {
    if (object.values[0] != null && object.values[1] != null && object.values[2] != null) {
      state(kind, Arrays.asList(object.values));
    }
    Arrays.fill(object.values, null);
  }

  private void state(Kind kind, List<Double> values) {
    object.colors.add(
        new CxfDocument.Stated(
            kind,
            object.colorSpecification,
            object.startNm,
            values,
            Math.max(1, xml.getLocation().getLineNumber())));
    object.colorSpecification = "";
    object.startNm = OptionalDouble.empty();
  }

  private void endMeasurement(String element, String text) throws InputException {
    if (isCharacterisation(element)) {
      inks.add(new CxfDocument.Ink(ink.name, ink.measurements));
      ink = null;
    } else if (ink.words != null) {
      takeWord(element, text);
      if (element.equals("Measurement")) {
        ink.measurements.add(new CxfDocument.Measurement(ink.words, ink.tint, ink.overBlack));
        ink.words = null;
      }
    } else if (element.equals("SpotInkName") && ink.name.isEmpty()) {
      ink.name = text;
    }
  }

  private static boolean isProcess(String element) {
    return switch (element) {
      case "Cyan", "Magenta", "Yellow", "Black" -> true;
      default -> false;
    };
  }

  private String attribute(String name) {
    String value = xml.getAttributeValue(null, name);
    return value == null ? "" : value.strip();
  }

  private OptionalDouble optionalNumber(String name) throws InputException {
    String value = attribute(name);
    return value.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(number(name, value));
  }

  private double percent(String field, String text) throws InputException {
    double value = number(field, text);
    if (!(value >= 0 && value <= 100)) {
      throw complaint(field, "expected 0 to 100 percent, found " + text);
    }
    return value;
  }

  private double number(String field, String text) throws InputException {
    try {
      double value = Double.parseDouble(text);
      if (Double.isFinite(value)) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Told below.
    }
    throw complaint(field, "expected a number, found \"" + text + "\"; correct it");
  }

  private InputException complaint(String field, String problem) {
    return InputException.at(file, Math.max(1, xml.getLocation().getLineNumber()), field, problem);
  }
}
