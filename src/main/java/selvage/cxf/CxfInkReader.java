package selvage.cxf;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import selvage.finding.InputException;

/** Reads characterisations of spot inks, wherever they stand below the present element. */
final class CxfInkReader {
  private static final int MOST = 100_000;

  private final CxfCursor xml;
  private int measurementCount;

  CxfInkReader(CxfCursor xml) {
    this.xml = xml;
  }

  /**
   * Reads to the end of the present element.
   *
   * @param inks takes what is found
   * @throws InputException where a tint is no percentage, or there is too much
   */
  void read(List<CxfInk> inks) throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      String name = xml.name();
      if (name.equals("SpotInkCharacterisation") || name.equals("SpotInkCharacterization")) {
        inks.add(ink());
        limit(inks.size());
      } else {
        read(inks);
      }
    }
  }

  private void limit(int count) throws InputException {
    if (count > MOST) {
      throw xml.refused("expected at most " + MOST + " measurements, found more; split the file");
    }
  }

  private CxfInk ink() throws InputException {
    String[] name = {xml.attribute("SpotInkName")};
    List<CxfInk.Measurement> measurements = new ArrayList<>();
    collect(name, measurements, false);
    return new CxfInk(name[0], measurements);
  }

  private void collect(String[] name, List<CxfInk.Measurement> measurements, boolean overBlack)
      throws InputException {
    int depth = xml.depth();
    while (xml.nextChild(depth)) {
      switch (xml.name()) {
        case "SpotInkName" -> {
          String text = xml.text();
          name[0] = name[0].isEmpty() ? text : name[0];
        }
        case "MeasurementSet" -> collect(name, measurements, isBlack(xml.attribute("Background")));
        case "Measurement" -> {
          measurements.add(measurement(overBlack));
          limit(++measurementCount);
        }
        default -> collect(name, measurements, overBlack);
      }
    }
  }

  private static boolean isBlack(String background) {
    return background.toUpperCase(Locale.ROOT).contains("BLACK");
  }

  private CxfInk.Measurement measurement(boolean overBlack) throws InputException {
    int line = xml.line();
    List<String> words = new ArrayList<>();
    OptionalDouble[] tint = {OptionalDouble.empty()};
    takeElement(words, tint);
    return new CxfInk.Measurement(words, tint[0], overBlack, line);
  }

  /** Takes the attributes and texts of the present element and of all within it. */
  private void takeElement(List<String> words, OptionalDouble[] tint) throws InputException {
    String name = xml.name();
    int line = xml.line();
    for (int i = 0; i < xml.attributes(); i++) {
      take(xml.attributeName(i), xml.attributeValue(i), line, words, tint);
    }
    StringBuilder text = new StringBuilder();
    int depth = xml.depth();
    while (xml.nextChild(depth, text)) {
      takeElement(words, tint);
    }
    take(name, text.toString().strip(), line, words, tint);
  }

  private void take(String name, String text, int line, List<String> words, OptionalDouble[] tint)
      throws InputException {
    if (text.isEmpty()) {
      return;
    }
    if (name.contains("Tint") || name.contains("Percent")) {
      tint[0] = OptionalDouble.of(xml.percent(name, text, line));
    } else {
      words.add(text);
    }
  }
}
