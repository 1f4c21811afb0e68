package selvage.color;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Set;
import java.util.TreeMap;
import selvage.cxf.CxfColor;
import selvage.cxf.CxfColor.Kind;
import selvage.cxf.CxfFile;
import selvage.cxf.CxfInk;
import selvage.cxf.CxfObject;
import selvage.cxf.CxfReader;
import selvage.cxf.CxfSpecification;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Colorant;

/**
 * The spot inks of a CxF3 file. A spot ink characterisation (CxF/X-4 [iso17972-4]) is an ink with
 * the tints that it measured on the substrate. Every other {@code Object} with a name and a colour
 * is a solid, unless its device values name a spot at a percentage. Of an object's colours the
 * first CIELAB for D50 and 2° counts, else the first such CIEXYZ, else the first spectrum.
 */
final class CxfSpots {
  private final String file;
  private final CxfFile document;
  private final CxfSpectra spectra;
  private final Map<String, NavigableMap<Double, Lab>> ramps = new LinkedHashMap<>();
  private int otherLight;

  private CxfSpots(CxfFile document) {
    this.file = document.fileName();
    this.document = document;
    this.spectra = new CxfSpectra(document);
  }

  /**
   * Reads.
   *
   * @param file its name, for messages
   * @param ramps takes Lab by tint, by ink
   * @param findings takes what was computed or left out
   * @throws InputException where it is no CxF3, or a value is missing, no number or out of range
   */
  static void read(
      String file,
      byte[] bytes,
      Map<String, NavigableMap<Double, Lab>> ramps,
      List<Finding> findings)
      throws InputException {
    CxfSpots spots = new CxfSpots(CxfReader.parse(file, bytes));
    spots.read();
    ramps.putAll(spots.ramps);
    spots.spectra.addFindings(findings);
    if (spots.otherLight > 0) {
      findings.add(
          Finding.warning(
              "spot-color-not-d50",
              file
                  + ": "
                  + spots.otherLight
                  + " colours are given for another illuminant than D50 or another observer than 2°"
                  + " only and were left out; export them for D50, 2°, or with spectra"));
    }
  }

  private void read() throws InputException {
    Map<String, CxfObject> byId = new HashMap<>();
    for (CxfObject object : document.objects()) {
      if (!object.id().isEmpty()) {
        byId.putIfAbsent(object.id(), object);
      }
    }
    Set<CxfObject> taken = new HashSet<>();
    for (CxfInk ink : document.inks()) {
      for (CxfInk.Measurement measurement : ink.measurements()) {
        for (String word : measurement.words()) {
          CxfObject object = byId.get(word);
          if (object != null) {
            taken.add(object);
            take(ink.name(), measurement, object);
            break;
          }
        }
      }
    }
    Set<String> characterised = Set.copyOf(ramps.keySet());
    for (CxfObject object : document.objects()) {
      List<String> printed = printed(object);
      String ink = printed.isEmpty() ? object.name() : printed.get(0);
      if (!ink.isEmpty()
          && printed.size() <= 1
          && !isProcess(ink, printed)
          && !taken.contains(object)
          && !characterised.contains(ink)) {
        put(ink, tintPercent(object, ink), color(object), object);
      }
    }
  }

  private void take(String ink, CxfInk.Measurement measurement, CxfObject object)
      throws InputException {
    double tint =
        measurement.tintPercent().isPresent()
            ? measurement.tintPercent().getAsDouble()
            : tintPercent(object, ink);
    if (!measurement.overBlack() && tint > 0 && !ink.isEmpty()) {
      put(ink, tint, color(object), object);
    }
  }

  private void put(String ink, double tint, Lab lab, CxfObject object) throws InputException {
    if (lab == null) {
      return;
    }
    Lab before = ramps.computeIfAbsent(ink, unused -> new TreeMap<>()).putIfAbsent(tint, lab);
    if (before != null && !before.equals(lab)) {
      throw InputException.at(
          file,
          object.line(),
          "Object",
          "expected each ink and tint once, found \""
              + ink
              + "\" at "
              + tint
              + " % a second time with another colour; remove one");
    }
  }

  /** The inks that an object's device values print; a spot ink counts at 0 % too. */
  private static List<String> printed(CxfObject object) {
    List<String> inks = new ArrayList<>();
    object
        .tints()
        .forEach(
            (ink, tint) -> {
              if (tint > 0 || Colorant.named(ink).isSpot()) {
                inks.add(ink);
              }
            });
    return inks;
  }

  /** Whether the only ink printed is a process ink: no spot, whatever the object is called. */
  private static boolean isProcess(String ink, List<String> printed) {
    return !printed.isEmpty() && !Colorant.named(ink).isSpot();
  }

  /** The tint of an ink in an object; a solid where nothing is said. */
  private double tintPercent(CxfObject object, String ink) throws InputException {
    double tint = object.tints().getOrDefault(ink, 100.0);
    if (!(tint >= 0 && tint <= 100)) {
      throw InputException.at(
          file, object.line(), ink, "expected 0 to 100 percent, found " + tint + "; put it right");
    }
    return tint;
  }

  /** Null where the object has no colour that can be taken. */
  private Lab color(CxfObject object) throws InputException {
    boolean other = false;
    for (Kind kind : List.of(Kind.LAB, Kind.XYZ)) {
      for (CxfColor stated : object.colors()) {
        CxfSpecification specification = document.specifications().get(stated.specification());
        if (stated.kind() == kind) {
          if (specification == null || isD50TwoDegrees(specification)) {
            return color(stated);
          }
          other = true;
        }
      }
    }
    List<CxfColor> measured = new ArrayList<>(object.colors());
    measured.removeIf(stated -> stated.kind() != Kind.SPECTRUM);
    Lab lab = spectra.color(measured);
    otherLight += lab == null && other ? 1 : 0;
    return lab;
  }

  private static boolean isD50TwoDegrees(CxfSpecification specification) {
    String illuminant = specification.illuminant().toUpperCase(Locale.ROOT);
    return (illuminant.isEmpty() || illuminant.contains("D50"))
        && !specification.observer().contains("10");
  }

  private Lab color(CxfColor stated) throws InputException {
    List<Double> values = stated.values();
    if (stated.kind() == Kind.XYZ) {
      return ReferenceWhite.ISO_13655.toLab(new Xyz(values.get(0), values.get(1), values.get(2)));
    }
    if (!(values.get(0) >= 0 && values.get(0) <= 100)) {
      throw InputException.at(
          file, stated.line(), "L", "expected L* from 0 to 100, found " + values.get(0));
    }
    return new Lab(values.get(0), values.get(1), values.get(2));
  }
}
