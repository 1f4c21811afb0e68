package selvage.color;

import java.io.ByteArrayInputStream;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * Reads spot inks from CxF3 (ISO 17972-1 [iso17972-1]): every {@code Object} with a name and a
 * colour in CIELAB or CIEXYZ, elements or attributes, in any namespace or none. An object is a
 * solid, unless its device values name a spot at a percentage (CxF/X-4 [iso17972-4]). Document
 * types are refused and nothing outside the file is read.
 */
final class CxfSpots {
  static final int MOST_BYTES = 64 << 20;
  private static final int MOST_DEPTH = 64;
  private static final int MOST_OBJECTS = 100_000;

  private final String file;
  private final Map<String, NavigableMap<Double, Lab>> ramps = new LinkedHashMap<>();
  private final List<Finding> findings = new ArrayList<>();
  private int spectraOnly;

  /** An Object element while it is read. */
  private static final class Entry {
    private final String name;
    private final int line;
    private String ink;
    private double tint = 100;
    private boolean overprint;
    private Double[] lab = new Double[3];
    private Double[] xyz = new Double[3];
    private boolean spectrum;

    private Entry(String name, int line) {
      this.name = name;
      this.line = line;
    }
  }

  private CxfSpots(String file) {
    this.file = file;
  }

  /** Whether bytes look like XML. */
  static boolean isXml(byte[] bytes) {
    int at = bytes.length > 2 && bytes[0] == (byte) 0xEF ? 3 : 0;
    while (at < bytes.length && bytes[at] <= ' ' && bytes[at] > 0) {
      at++;
    }
    return at < bytes.length && bytes[at] == '<';
  }

  /**
   * Reads.
   *
   * @param file its name, for messages
   * @param ramps takes Lab by tint, by ink
   * @param findings takes what was left out
   * @throws InputException where it is no CxF3, or a value is missing or no number
   */
  static void read(
      String file,
      byte[] bytes,
      Map<String, NavigableMap<Double, Lab>> ramps,
      List<Finding> findings)
      throws InputException {
    CxfSpots reader = new CxfSpots(file);
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_COALESCING, true);
    try {
      XMLStreamReader xml = factory.createXMLStreamReader(new ByteArrayInputStream(bytes));
      try {
        reader.read(xml);
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
    ramps.putAll(reader.ramps);
    findings.addAll(reader.findings);
  }

  private void read(XMLStreamReader xml) throws XMLStreamException, InputException {
    Deque<String> open = new ArrayDeque<>();
    Entry entry = null;
    boolean cxf = false;
    int objects = 0;
    StringBuilder text = new StringBuilder();
    while (xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.DTD || event == XMLStreamConstants.ENTITY_REFERENCE) {
        throw complaint(
            xml, "DOCTYPE", "expected no document type, found one; remove it from the file");
      } else if (event == XMLStreamConstants.START_ELEMENT) {
        String element = xml.getLocalName();
        if (open.isEmpty() && !element.equals("CxF")) {
          throw complaint(xml, element, "expected the element CxF, found " + element);
        }
        cxf = true;
        open.push(element);
        if (open.size() > MOST_DEPTH || objects > MOST_OBJECTS) {
          throw complaint(
              xml,
              element,
              "expected at most "
                  + MOST_DEPTH
                  + " nested elements and "
                  + MOST_OBJECTS
                  + " objects; split the library");
        }
        text.setLength(0);
        if (element.equals("Object")) {
          objects++;
          entry = new Entry(attribute(xml, "Name"), xml.getLocation().getLineNumber());
        } else if (entry != null) {
          takeAttributes(xml, element, entry);
        }
      } else if (event == XMLStreamConstants.CHARACTERS) {
        text.append(xml.getText());
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        String element = open.pop();
        if (element.equals("Object") && entry != null) {
          finish(entry);
          entry = null;
        } else if (entry != null) {
          take(xml, element, open.isEmpty() ? "" : open.peek(), text.toString().strip(), entry);
        }
        text.setLength(0);
      }
    }
    if (!cxf) {
      throw InputException.of(file, "expected CxF3, found no element");
    }
    if (spectraOnly > 0) {
      findings.add(
          Finding.warning(
              "spot-spectrum-not-read",
              file
                  + ": "
                  + spectraOnly
                  + " colours are given as spectra only and were left out; export the library with"
                  + " CIELAB (D50, 2°)"));
    }
  }

  private static String attribute(XMLStreamReader xml, String name) {
    String value = xml.getAttributeValue(null, name);
    return value == null ? "" : value.strip();
  }

  private void takeAttributes(XMLStreamReader xml, String element, Entry entry)
      throws InputException {
    switch (element) {
      case "ColorCIELab" -> {
        for (int i = 0; i < 3; i++) {
          String value = attribute(xml, "LAB".substring(i, i + 1));
          if (!value.isEmpty()) {
            entry.lab[i] = number(xml, element, value);
          }
        }
      }
      case "ColorCIEXYZ" -> {
        for (int i = 0; i < 3; i++) {
          String value = attribute(xml, "XYZ".substring(i, i + 1));
          if (!value.isEmpty()) {
            entry.xyz[i] = number(xml, element, value);
          }
        }
      }
      case "ReflectanceSpectrum" -> entry.spectrum = true;
      default -> {}
    }
  }

  private void take(XMLStreamReader xml, String element, String parent, String text, Entry entry)
      throws InputException {
    switch (parent) {
      case "ColorCIELab" -> {
        int axis = element.length() == 1 ? "LAB".indexOf(element) : -1;
        if (axis >= 0) {
          entry.lab[axis] = number(xml, element, text);
        }
      }
      case "ColorCIEXYZ" -> {
        int axis = element.length() == 1 ? "XYZ".indexOf(element) : -1;
        if (axis >= 0) {
          entry.xyz[axis] = number(xml, element, text);
        }
      }
      case "SpotColor" -> {
        if (element.equals("Name")) {
          entry.overprint |= entry.ink != null;
          entry.ink = text;
        } else if (element.equals("Percentage")) {
          entry.tint = number(xml, element, text);
          if (!(entry.tint >= 0 && entry.tint <= 100)) {
            throw complaint(xml, element, "expected 0 to 100 percent, found " + text);
          }
        }
      }
      case "ColorCMYK", "ColorCMYKPlusN" -> {
        boolean process = element.length() == 1 || isProcess(element);
        if (process && !text.isEmpty() && number(xml, element, text) > 0) {
          entry.overprint = true;
        }
      }
      default -> {}
    }
  }

  private static boolean isProcess(String element) {
    return switch (element) {
      case "Cyan", "Magenta", "Yellow", "Black" -> true;
      default -> false;
    };
  }

  private double number(XMLStreamReader xml, String field, String text) throws InputException {
    try {
      double value = Double.parseDouble(text);
      if (Double.isFinite(value)) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Told below.
    }
    throw complaint(xml, field, "expected a number, found \"" + text + "\"; correct it");
  }

  private InputException complaint(XMLStreamReader xml, String field, String problem) {
    return InputException.at(file, Math.max(1, xml.getLocation().getLineNumber()), field, problem);
  }

  private void finish(Entry entry) throws InputException {
    String ink = entry.ink == null ? entry.name : entry.ink;
    Lab lab = null;
    if (entry.lab[0] != null && entry.lab[1] != null && entry.lab[2] != null) {
      if (!(entry.lab[0] >= 0 && entry.lab[0] <= 100)) {
        throw InputException.at(
            file, entry.line, "L", "expected L* from 0 to 100, found " + entry.lab[0]);
      }
      lab = new Lab(entry.lab[0], entry.lab[1], entry.lab[2]);
    } else if (entry.xyz[0] != null && entry.xyz[1] != null && entry.xyz[2] != null) {
      lab = ReferenceWhite.ISO_13655.toLab(new Xyz(entry.xyz[0], entry.xyz[1], entry.xyz[2]));
    }
    if (lab == null) {
      spectraOnly += entry.spectrum && !ink.isEmpty() ? 1 : 0;
      return;
    }
    if (ink.isEmpty() || entry.overprint) {
      return;
    }
    Lab before = ramps.computeIfAbsent(ink, unused -> new TreeMap<>()).putIfAbsent(entry.tint, lab);
    if (before != null && !before.equals(lab)) {
      throw InputException.at(
          file,
          entry.line,
          "Object",
          "expected each ink and tint once, found \""
              + ink
              + "\" at "
              + entry.tint
              + " % a second time with another colour; remove one");
    }
  }
}
