package selvage.color;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Set;
import java.util.TreeMap;
import selvage.color.CxfDocument.Kind;
import selvage.finding.Finding;
import selvage.finding.InputException;

/**
 * The spot inks of a CxF3 file. A spot ink characterisation (CxF/X-4 [iso17972-4]) is an ink with
 * the tints that it measured on the substrate. Every other {@code Object} with a name and a colour
 * is a solid, unless its device values name a spot at a percentage. Of an object's colours the
 * first CIELAB for D50 and 2° counts, else the first such CIEXYZ, else the first spectrum.
 */
final class CxfSpots {
  static final int MOST_BYTES = 64 << 20;

  private final String file;
  private final CxfDocument document;
  private final CxfSpectra spectra;
  private final Map<String, NavigableMap<Double, Lab>> ramps = new LinkedHashMap<>();
  private int otherLight;

  private CxfSpots(String file, CxfDocument document) throws InputException {
    this.file = file;
    this.document = document;
    this.spectra = new CxfSpectra(file, document);
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
   * @param findings takes what was computed or left out
   * @throws InputException where it is no CxF3, or a value is missing, no number or out of range
   */
  static void read(
      String file,
      byte[] bytes,
      Map<String, NavigableMap<Double, Lab>> ramps,
      List<Finding> findings)
      throws InputException {
    CxfSpots spots = new CxfSpots(file, CxfReader.read(file, bytes));
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
    Map<String, CxfDocument.Entry> byId = new HashMap<>();
    for (CxfDocument.Entry object : document.objects()) {
      if (!object.id().isEmpty()) {
        byId.putIfAbsent(object.id(), object);
      }
    }
    Set<CxfDocument.Entry> taken = new HashSet<>();
    for (CxfDocument.Ink ink : document.inks()) {
      for (CxfDocument.Measurement measurement : ink.measurements()) {
        for (String word : measurement.words()) {
          CxfDocument.Entry object = byId.get(word);
          if (object != null) {
            taken.add(object);
            take(ink.name(), measurement, object);
            break;
          }
        }
      }
    }
    Set<String> characterised = Set.copyOf(ramps.keySet());
    for (CxfDocument.Entry object : document.objects()) {
      String ink = object.ink().isEmpty() ? object.name() : object.ink();
      if (!ink.isEmpty()
          && !object.overprint()
          && !taken.contains(object)
          && !characterised.contains(ink)) {
        put(ink, object.tintPercent(), color(object), object);
      }
    }
  }

  private void take(String ink, CxfDocument.Measurement measurement, CxfDocument.Entry object)
      throws InputException {
    double tint = measurement.tintPercent().orElse(object.tintPercent());
    if (!measurement.overBlack() && tint > 0 && !ink.isEmpty()) {
      put(ink, tint, color(object), object);
    }
  }

  private void put(String ink, double tint, Lab lab, CxfDocument.Entry object)
      throws InputException {
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

  /** Null where the object has no colour that can be taken. */
  private Lab color(CxfDocument.Entry object) throws InputException {
    boolean other = false;
    for (Kind kind : List.of(Kind.LAB, Kind.XYZ)) {
      for (CxfDocument.Stated stated : object.colors()) {
        CxfDocument.Specification specification =
            document.specifications().get(stated.specification());
        if (stated.kind() == kind) {
          if (specification == null || specification.isD50TwoDegrees()) {
            return color(stated);
          }
          other = true;
        }
      }
    }
    List<CxfDocument.Stated> measured = new ArrayList<>(object.colors());
    measured.removeIf(stated -> stated.kind() != Kind.SPECTRUM);
    Lab lab = spectra.color(measured);
    otherLight += lab == null && other ? 1 : 0;
    return lab;
  }

  private Lab color(CxfDocument.Stated stated) throws InputException {
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
