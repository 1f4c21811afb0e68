package selvage.cxf;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import selvage.finding.InputException;

/**
 * Walks through XML that nobody vouches for. A document type refuses the file before anything of it
 * is used, entities other than XML's own five can't be declared, nothing outside the file is
 * opened, and depth and length of texts are bounded. Element names count without their namespace.
 */
final class CxfCursor {
  private static final int MOST_DEPTH = 64;
  private static final int MOST_TEXT = 1 << 20;

  private final String fileName;
  private final XMLStreamReader xml;
  private int depth;

  CxfCursor(String fileName, byte[] bytes) throws InputException {
    this.fileName = fileName;
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setXMLResolver(
        (publicId, systemId, base, namespace) -> {
          throw new XMLStreamException("an external entity");
        });
    factory.setXMLReporter((message, type, info, location) -> {});
    try {
      xml = factory.createXMLStreamReader(new ByteArrayInputStream(bytes));
    } catch (XMLStreamException e) {
      throw broken(e);
    }
  }

  /** Depth of the present element; 0 outside the root. */
  int depth() {
    return depth;
  }

  /** Line of the present place, counted from 1. */
  int line() {
    return Math.max(1, xml.getLocation().getLineNumber());
  }

  /** The present element's name without its prefix. */
  String name() {
    return xml.getLocalName();
  }

  /** An attribute of the present element, whatever its namespace and capitals; empty if missing. */
  String attribute(String name) {
    for (int i = 0; i < xml.getAttributeCount(); i++) {
      if (xml.getAttributeLocalName(i).equalsIgnoreCase(name)) {
        return xml.getAttributeValue(i).strip();
      }
    }
    return "";
  }

  /** How many attributes the present element has. */
  int attributes() {
    return xml.getAttributeCount();
  }

  /** An attribute's name, without its prefix. */
  String attributeName(int index) {
    return xml.getAttributeLocalName(index);
  }

  /** An attribute's value. */
  String attributeValue(int index) {
    return xml.getAttributeValue(index).strip();
  }

  /**
   * Goes to the next child of an element; deeper elements that were not asked for are passed over.
   *
   * @param parent the element's depth
   * @return whether there was one; if not, the element has ended
   */
  boolean nextChild(int parent) throws InputException {
    return nextChild(parent, null);
  }

  /**
   * As {@link #nextChild(int)}.
   *
   * @param text takes the element's own text on the way; null where it does not matter
   */
  boolean nextChild(int parent, StringBuilder text) throws InputException {
    while (true) {
      int event = next();
      if (text != null && depth == parent && isText(event)) {
        append(text);
      }
      if (event == XMLStreamConstants.START_ELEMENT && depth == parent + 1) {
        return true;
      }
      if (event == XMLStreamConstants.END_DOCUMENT
          || (event == XMLStreamConstants.END_ELEMENT && depth < parent)) {
        return false;
      }
    }
  }

  /** The present element's own text, its children's left out; the element has ended then. */
  String text() throws InputException {
    int own = depth;
    StringBuilder text = new StringBuilder();
    while (true) {
      int event = next();
      if (event == XMLStreamConstants.END_ELEMENT && depth < own) {
        return text.toString().strip();
      }
      if (event == XMLStreamConstants.END_DOCUMENT) {
        throw refused("expected the end of an element, found the end of the file");
      }
      if (isText(event) && depth == own) {
        append(text);
      }
    }
  }

  private static boolean isText(int event) {
    return event == XMLStreamConstants.CHARACTERS || event == XMLStreamConstants.CDATA;
  }

  private void append(StringBuilder text) throws InputException {
    if (text.length() + xml.getTextLength() > MOST_TEXT) {
      throw refused("expected at most " + MOST_TEXT + " characters in an element, found more");
    }
    text.append(xml.getTextCharacters(), xml.getTextStart(), xml.getTextLength());
  }

  /** The present element's text as numbers parted by blanks. */
  List<Double> numbers() throws InputException {
    String name = name();
    int line = line();
    String text = text();
    List<Double> numbers = new ArrayList<>();
    int at = 0;
    while (at < text.length()) {
      int start = at;
      while (at < text.length() && text.charAt(at) > ' ') {
        at++;
      }
      if (at > start) {
        numbers.add(number(name, text.substring(start, at), line));
      }
      at++;
    }
    return numbers;
  }

  /**
   * A finite number.
   *
   * @throws InputException where a text is none
   */
  double number(String field, String text, int line) throws InputException {
    boolean plain = !text.isEmpty();
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      plain &= (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E';
    }
    if (plain) {
      try {
        double value = Double.parseDouble(text);
        if (Double.isFinite(value)) {
          return value;
        }
      } catch (NumberFormatException e) {
        plain = false;
      }
    }
    String found = text.length() <= 40 ? text : text.substring(0, 40) + "…";
    throw InputException.at(
        fileName,
        line,
        field,
        "expected a number, found "
            + (text.isEmpty() ? "nothing" : "\"" + found + "\"")
            + "; put the value right or remove the object");
  }

  /**
   * A number from 0 to 100.
   *
   * @throws InputException where a text is none
   */
  double percent(String field, String text, int line) throws InputException {
    double value = number(field, text, line);
    if (!(value >= 0 && value <= 100)) {
      throw InputException.at(
          fileName, line, field, "expected 0 to 100 percent, found " + text + "; put it right");
    }
    return value;
  }

  /** A refusal at the present line. */
  InputException refused(String problem) {
    return InputException.at(fileName, line(), "XML", problem);
  }

  private int next() throws InputException {
    int event;
    try {
      event = xml.hasNext() ? xml.next() : XMLStreamConstants.END_DOCUMENT;
    } catch (XMLStreamException e) {
      throw broken(e);
    }
    switch (event) {
      case XMLStreamConstants.START_ELEMENT -> {
        depth++;
        if (depth > MOST_DEPTH) {
          throw refused("expected elements nested at most " + MOST_DEPTH + " deep, found more");
        }
      }
      case XMLStreamConstants.END_ELEMENT -> depth--;
      case XMLStreamConstants.DTD ->
          throw refused(
              "expected XML without a document type, found <!DOCTYPE; it could draw in other"
                  + " files, so it is not read; export the data anew");
      case XMLStreamConstants.ENTITY_REFERENCE ->
          throw refused("expected no entities, found &" + xml.getLocalName() + ";");
      default -> {
        // text, comments and instructions: the caller's business or nobody's
      }
    }
    return event;
  }

  private InputException broken(XMLStreamException e) {
    int line = e.getLocation() == null ? 1 : Math.max(1, e.getLocation().getLineNumber());
    String message = String.valueOf(e.getMessage());
    int own = message.indexOf("Message: ");
    String reason = own < 0 ? message : message.substring(own + 9);
    return InputException.at(
        fileName,
        line,
        "XML",
        "expected well-formed XML, found XML that can't be read ("
            + reason.replaceAll("\\s+", " ").strip()
            + "); fetch or export the file again");
  }
}
