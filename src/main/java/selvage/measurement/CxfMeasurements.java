package selvage.measurement;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import selvage.cgats.CgatsTable.Keyword;
import selvage.color.Lab;
import selvage.color.ReferenceWhite;
import selvage.color.SpectralWeights;
import selvage.color.Xyz;
import selvage.cxf.CxfColor;
import selvage.cxf.CxfColor.Kind;
import selvage.cxf.CxfFile;
import selvage.cxf.CxfObject;
import selvage.cxf.CxfSpecification;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Measurement.LabOrigin;

/**
 * Makes measurements of a CxF3 document: one for each measurement condition that it holds. An
 * object's own Lab goes before its XYZ, and both before its spectrum. Targets, which say what was
 * printed, are paired with measurements by their Location tag, else by name.
 */
final class CxfMeasurements {
  /** A reading while its group is not complete. */
  private record Item(CxfObject object, CxfColor color, CxfSpecification specification) {}

  private final CxfFile file;
  private final Map<String, Map<String, Double>> tints = new HashMap<>();
  private final List<Finding> findings;

  private CxfMeasurements(CxfFile file) {
    this.file = file;
    this.findings = new ArrayList<>(file.findings());
  }

  /**
   * The measurements of a document.
   *
   * @throws InputException where it has no colours, they are for another illuminant than D50 or
   *     another observer than 2°, or a value is out of range
   */
  static List<Measurement> of(CxfFile file) throws InputException {
    return new CxfMeasurements(file).measurements();
  }

  private List<Measurement> measurements() throws InputException {
    List<CxfObject> measured = new ArrayList<>();
    List<CxfObject> targets = new ArrayList<>();
    for (CxfObject object : file.objects()) {
      if (!object.colors().isEmpty()) {
        (isTarget(object) ? targets : measured).add(object);
      }
      if (!object.tints().isEmpty()) {
        tints.putIfAbsent(place(object), object.tints());
      }
    }
    if (measured.isEmpty() && !targets.isEmpty()) {
      measured.addAll(targets);
      findings.add(
          Finding.warning(
              "targets-taken-as-readings",
              file.fileName()
                  + ": all objects call themselves targets; they were taken as readings, so check"
                  + " that this is a measurement"));
    }
    Map<MeasurementCondition, List<Item>> groups = new LinkedHashMap<>();
    for (CxfObject object : measured) {
      Map<MeasurementCondition, List<Item>> own = new LinkedHashMap<>();
      for (CxfColor color : object.colors()) {
        CxfSpecification specification = specification(color);
        Item item = new Item(object, color, specification);
        own.computeIfAbsent(words(item).condition(), condition -> new ArrayList<>()).add(item);
      }
      for (Map.Entry<MeasurementCondition, List<Item>> one : own.entrySet()) {
        groups.computeIfAbsent(one.getKey(), key -> new ArrayList<>()).add(chosen(one.getValue()));
      }
    }
    if (groups.isEmpty()) {
      throw InputException.of(
          file.fileName(),
          "expected objects with ColorCIELab, ColorCIEXYZ or ReflectanceSpectrum, found none among "
              + file.objects().size()
              + " objects; export the measurement");
    }
    List<Measurement> measurements = new ArrayList<>();
    for (List<Item> group : groups.values()) {
      measurements.add(measurement(group, groups.size() > 1));
      findings.clear();
    }
    return measurements;
  }

  private static boolean isTarget(CxfObject object) {
    String type = object.type().toLowerCase(Locale.ROOT);
    return type.contains("target") || type.contains("standard") || type.contains("reference");
  }

  private static String place(CxfObject object) {
    String location = object.tags().getOrDefault("LOCATION", "");
    return location.isEmpty() ? object.name() : location;
  }

  /** What a colour says of itself; where a document has one specification only, that one. */
  private CxfSpecification specification(CxfColor color) {
    CxfSpecification named = file.specifications().get(color.specification());
    if (named != null) {
      return named;
    }
    return color.specification().isEmpty() && file.specifications().size() == 1
        ? file.specifications().values().iterator().next()
        : CxfSpecification.NONE;
  }

  private HeaderWords words(Item item) {
    CxfSpecification specification = item.specification();
    int line = specification.line();
    String illumination =
        specification.illumination().isEmpty()
            ? item.object().type()
            : specification.illumination();
    List<Keyword> keywords = new ArrayList<>();
    keywords.add(new Keyword("MEASUREMENT_CONDITION", illumination, line));
    keywords.add(new Keyword("POLARIZATION", specification.polarization(), line));
    keywords.add(new Keyword("FILTER", specification.filter(), line));
    keywords.add(new Keyword("SAMPLE_BACKING", specification.backing(), line));
    keywords.add(new Keyword("MEASUREMENT_GEOMETRY", specification.geometry(), line));
    if (item.color().kind() != Kind.SPECTRUM) {
      keywords.add(new Keyword("ILLUMINANT", specification.illuminant(), line));
      keywords.add(new Keyword("OBSERVER", specification.observer(), line));
    }
    file.information().forEach((name, value) -> keywords.add(new Keyword(name, value, 1)));
    return new HeaderWords(file.fileName(), keywords);
  }

  /** Lab before XYZ before a spectrum; another illuminant's colours only where nothing else is. */
  private Item chosen(List<Item> items) {
    Item best = null;
    for (Item item : items) {
      if (best == null || rank(item) < rank(best)) {
        best = item;
      }
    }
    return best;
  }

  private int rank(Item item) {
    int rank = item.color().kind().compareTo(Kind.LAB);
    try {
      words(item).requireD50();
      return rank;
    } catch (InputException e) {
      return rank + 3;
    }
  }

  private Measurement measurement(List<Item> group, boolean several) throws InputException {
    HeaderWords words = words(group.get(0));
    String source =
        several
            ? file.fileName()
                + ", "
                + words.condition().illumination().orElse("no condition stated")
            : file.fileName();
    List<CxfColor> colors = new ArrayList<>();
    group.forEach(item -> colors.add(item.color()));
    CxfScale scale = CxfScale.of(file.fileName(), source, colors, findings);
    List<Reading> readings = new ArrayList<>(group.size());
    LabOrigin origin = LabOrigin.LAB;
    String method = origin.method();
    for (Item item : group) {
      words(item).requireD50();
      Lab lab;
      switch (item.color().kind()) {
        case LAB -> lab = lab(item);
        case XYZ -> {
          lab = labOfXyz(item, scale);
          origin = origin == LabOrigin.LAB ? LabOrigin.XYZ : origin;
          method = origin == LabOrigin.XYZ ? origin.method() : method;
        }
        default -> {
          SpectralWeights weights = weights(item, scale);
          lab = weights.lab(scale.reflectance(file.fileName(), item.color()));
          origin = LabOrigin.SPECTRA;
          method = weights.method();
        }
      }
      readings.add(reading(item, lab));
    }
    words.findDoubts(source, findings);
    return new Measurement(
        source, header(), words.condition(), origin, method, words.simulated(), readings, findings);
  }

  private Map<String, String> header() {
    Map<String, String> header = new TreeMap<>(file.information());
    for (CxfObject object : file.objects()) {
      String strip = object.tags().get(Measurement.STRIP_KEYWORD);
      if (strip != null) {
        header.putIfAbsent(Measurement.STRIP_KEYWORD, strip);
      }
    }
    return header;
  }

  private Reading reading(Item item, Lab lab) throws InputException {
    CxfObject object = item.object();
    Map<String, Double> stated = new HashMap<>();
    Map<String, Double> found =
        object.tints().isEmpty() ? tints.getOrDefault(place(object), Map.of()) : object.tints();
    for (Map.Entry<String, Double> tint : found.entrySet()) {
      if (tint.getValue() < 0 || tint.getValue() > 100) {
        throw outOfRange(object.line(), tint.getKey(), "0 to 100", tint.getValue());
      }
      stated.put(tint.getKey(), tint.getValue());
    }
    String id = object.tags().getOrDefault("SAMPLE_ID", object.id());
    return new Reading(id, object.name(), stated, lab, object.line());
  }

  private Lab lab(Item item) throws InputException {
    List<Double> values = item.color().values();
    requireWithin(item.color(), "L", values.get(0), -1, 110);
    requireWithin(item.color(), "A", values.get(1), -200, 200);
    requireWithin(item.color(), "B", values.get(2), -200, 200);
    return new Lab(values.get(0), values.get(1), values.get(2));
  }

  private Lab labOfXyz(Item item, CxfScale scale) throws InputException {
    double[] xyz = new double[3];
    for (int axis = 0; axis < 3; axis++) {
      xyz[axis] = scale.xyz() * item.color().values().get(axis);
      requireWithin(item.color(), "XYZ".substring(axis, axis + 1), xyz[axis], 0, 130);
    }
    return ReferenceWhite.ISO_13655.toLab(new Xyz(xyz[0], xyz[1], xyz[2]));
  }

  private void requireWithin(CxfColor color, String field, double value, double low, double high)
      throws InputException {
    if (value < low || value > high) {
      throw outOfRange(color.line(), field, (int) Math.max(low, -128) + " to " + (int) high, value);
    }
  }

  private InputException outOfRange(int line, String field, String expected, double found) {
    return InputException.at(
        file.fileName(),
        line,
        field,
        "expected a number from "
            + expected
            + ", found "
            + found
            + "; put the value right or measure again");
  }

  private SpectralWeights weights(Item item, CxfScale scale) throws InputException {
    CxfColor color = item.color();
    CxfSpecification specification = item.specification();
    double start = color.startNm().orElse(specification.startNm().orElse(Double.NaN));
    if (Double.isNaN(start)) {
      throw InputException.at(
          file.fileName(),
          color.line(),
          "ReflectanceSpectrum",
          "expected StartWL here or in the WavelengthRange of its ColorSpecification, found"
              + " neither; export the data anew");
    }
    return scale.weights(file.fileName(), color, start, specification.stepNm(), findings);
  }
}
