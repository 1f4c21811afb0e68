package selvage.separation;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSNumber;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.cos.COSString;
import selvage.finding.InputException;

/**
 * Reads PDF colour spaces as {@link SourceSpace}s. A space that can't be read becomes a device
 * space with as many components, and a finding.
 */
final class SpaceReader {
  /** Components of the largest DeviceN that is read. */
  private static final int MOST_COMPONENTS = 64;

  private static final int MOST_DEPTH = 8;

  private final InkSet inks;
  private final SpotAlternates alternates;
  private final ProcessLinks links;
  private final FindingList findings;
  private final Place place;
  private final IdentityHashMap<COSBase, SourceSpace> known = new IdentityHashMap<>();
  private final Deque<COSBase> reading = new ArrayDeque<>();
  private final Map<String, SourceSpace> device = new HashMap<>();

  SpaceReader(
      InkSet inks,
      SpotAlternates alternates,
      ProcessLinks links,
      FindingList findings,
      Place place) {
    this.inks = inks;
    this.alternates = alternates;
    this.links = links;
    this.findings = findings;
    this.place = place;
  }

  SourceSpace gray(COSDictionary resources) {
    return device("DeviceGray", resources);
  }

  SourceSpace rgb(COSDictionary resources) {
    return device("DeviceRGB", resources);
  }

  SourceSpace cmyk(COSDictionary resources) {
    return device("DeviceCMYK", resources);
  }

  /** A device space, or the default space that the resources put in its place. */
  private SourceSpace device(String name, COSDictionary resources) {
    COSName key =
        switch (name) {
          case "DeviceGray" -> COSName.DEFAULT_GRAY;
          case "DeviceRGB" -> COSName.DEFAULT_RGB;
          default -> COSName.DEFAULT_CMYK;
        };
    COSBase replacement = resourceSpace(resources, key);
    if (replacement != null && !isReading(replacement)) {
      SourceSpace space = read(replacement, resources);
      SourceSpace plain = plainDevice(name);
      if (space.components() == plain.components()) {
        return space;
      }
    }
    return plainDevice(name);
  }

  private SourceSpace plainDevice(String name) {
    return device.computeIfAbsent(
        name,
        n ->
            switch (n) {
              case "DeviceGray" -> new ProcessSpaces.Gray();
              case "DeviceRGB" -> links.deviceRgb();
              default -> new ProcessSpaces.Cmyk(Reach.CMYK_DIRECT);
            });
  }

  private static COSBase resourceSpace(COSDictionary resources, COSName name) {
    if (resources == null) {
      return null;
    }
    COSDictionary spaces = resources.getCOSDictionary(COSName.COLORSPACE);
    return spaces == null ? null : spaces.getDictionaryObject(name);
  }

  private boolean isReading(COSBase base) {
    for (COSBase open : reading) {
      if (open == base) {
        return true;
      }
    }
    return false;
  }

  /**
   * Reads a space.
   *
   * @param base a name or an array; a name that is no device space is looked up in the resources
   * @param resources of the content stream; may be null
   * @return never null: what can't be read becomes DeviceGray, with a finding
   */
  SourceSpace read(COSBase base, COSDictionary resources) {
    COSBase direct = base instanceof COSObject object ? object.getObject() : base;
    SourceSpace space = direct == null ? null : known.get(direct);
    if (space != null) {
      return space;
    }
    if (direct == null || isReading(direct) || reading.size() >= MOST_DEPTH) {
      return unreadable("a colour space that is missing or refers to itself", 1);
    }
    reading.push(direct);
    boolean named = base instanceof COSObject;
    if (named) {
      place.enter(Place.numbered("colour space", base));
    }
    try {
      space = readNew(direct, resources);
    } catch (IOException | InputException | RuntimeException e) {
      space = unreadable("a colour space that can't be read (" + Reason.of(e) + ")", 1);
    } finally {
      reading.pop();
      if (named) {
        place.leave();
      }
    }
    // Names depend on the resources, and an Indexed or Pattern space on what it is built on.
    if (direct instanceof COSArray) {
      known.put(direct, space);
    }
    return space;
  }

  /** Whether a colour space's name stands for none. */
  boolean isMissing(COSName name, COSDictionary resources) {
    return switch (name.getName()) {
      case "DeviceGray", "G", "CalGray", "DeviceRGB", "RGB", "CalRGB", "DeviceCMYK", "CMYK" ->
          false;
      default -> Place.Resource.of(resources, COSName.COLORSPACE, name).object() == null;
    };
  }

  private SourceSpace unreadable(String what, int components) {
    findings.warning(
        "color-space-not-read",
        place + ": " + what + " was taken as a device space; look at its objects");
    return switch (components) {
      case 3 -> plainDevice("DeviceRGB");
      case 4 -> plainDevice("DeviceCMYK");
      default -> plainDevice("DeviceGray");
    };
  }

  private SourceSpace readNew(COSBase base, COSDictionary resources)
      throws IOException, InputException {
    if (base instanceof COSName name) {
      return named(name, resources);
    }
    if (base instanceof COSStream stream && stream.containsKey(COSName.N)) {
      return icc(stream, resources);
    }
    if (!(base instanceof COSArray array)
        || array.size() == 0
        || !(array.getObject(0) instanceof COSName family)) {
      return unreadable("something that is no colour space", 1);
    }
    return switch (family.getName()) {
      case "CalGray" -> links.calGray(dictionary(array, 1).getFloat(COSName.GAMMA, 1));
      case "CalRGB" -> {
        COSDictionary d = dictionary(array, 1);
        yield links.calRgb(
            numbers(d, COSName.WHITE_POINT), numbers(d, COSName.GAMMA), numbers(d, COSName.MATRIX));
      }
      case "CalCMYK" -> plainDevice("DeviceCMYK");
      case "Lab" -> links.lab(numbers(dictionary(array, 1), COSName.RANGE));
      case "ICCBased" -> {
        if (!(array.getObject(1) instanceof COSStream stream)) {
          yield unreadable("an ICCBased space without its profile", 1);
        }
        yield icc(stream, resources);
      }
      case "Indexed", "I" -> indexed(array, resources);
      case "Separation" -> separation(array, resources);
      case "DeviceN" -> deviceN(array, resources);
      case "Pattern" -> new PatternSpace(array.size() > 1 ? read(array.get(1), resources) : null);
      default -> named(family, resources);
    };
  }

  private SourceSpace named(COSName name, COSDictionary resources) {
    switch (name.getName()) {
      case "DeviceGray", "G", "CalGray" -> {
        return device("DeviceGray", resources);
      }
      case "DeviceRGB", "RGB", "CalRGB" -> {
        return device("DeviceRGB", resources);
      }
      case "DeviceCMYK", "CMYK" -> {
        return device("DeviceCMYK", resources);
      }
      case "Pattern" -> {
        return new PatternSpace(null);
      }
      default -> {
        Place.Resource found = Place.Resource.of(resources, COSName.COLORSPACE, name);
        if (found.object() == null || found.object() == name) {
          return unreadable("the colour space " + name.getName() + ", which is not there,", 1);
        }
        return read(found.item(), resources);
      }
    }
  }

  private static COSDictionary dictionary(COSArray array, int index) {
    return index < array.size() && array.getObject(index) instanceof COSDictionary dictionary
        ? dictionary
        : new COSDictionary();
  }

  private static float[] numbers(COSDictionary dictionary, COSName key) {
    COSArray array = dictionary.getCOSArray(key);
    return array == null ? new float[0] : array.toFloatArray();
  }

  private SourceSpace icc(COSStream stream, COSDictionary resources) throws IOException {
    int n = stream.getInt(COSName.N, 0);
    byte[] profile = StreamBytes.first(stream, ProcessLinks.MOST_PROFILE_BYTES + 1);
    if (n == 4 && links.passes(profile)) {
      return new ProcessSpaces.Cmyk(Reach.PROCESS);
    }
    InputException reason;
    try {
      return links.icc(profile, n);
    } catch (InputException e) {
      reason = e;
    }
    COSBase alternate = stream.getDictionaryObject(COSName.ALTERNATE);
    if (alternate != null) {
      SourceSpace space = read(alternate, resources);
      if (space.components() == n && !(space instanceof PatternSpace)) {
        findings.warning(
            "profile-not-read",
            place + ": " + reason.getMessage() + "; its alternate colour space was taken");
        return space;
      }
    }
    return unreadable(
        Place.numbered("an ICCBased space", stream) + " (" + reason.getMessage() + ")", n);
  }

  private SourceSpace indexed(COSArray array, COSDictionary resources) throws IOException {
    SourceSpace base = read(array.get(1), resources);
    if (base instanceof PatternSpace || base instanceof IndexedSpace) {
      return unreadable("an Indexed space on a " + base.getClass().getSimpleName(), 1);
    }
    int high =
        array.getObject(2) instanceof COSNumber number
            ? Math.max(0, Math.min(4095, number.intValue()))
            : 255;
    COSBase table = array.getObject(3);
    byte[] bytes = new byte[0];
    if (table instanceof COSString string) {
      bytes = string.getBytes();
    } else if (table instanceof COSStream stream) {
      bytes = StreamBytes.first(stream, (long) (high + 1) * Math.max(1, base.components()));
    }
    if (bytes.length < (high + 1) * base.components()) {
      findings.note(
          "indexed-table-short",
          place
              + ": an Indexed space with "
              + bytes.length
              + " bytes where "
              + (high + 1) * base.components()
              + " are needed; the missing ones count as 0");
    }
    return new IndexedSpace(base, high, bytes);
  }

  private SourceSpace separation(COSArray array, COSDictionary resources) throws IOException {
    String name = array.getObject(1) instanceof COSName n ? n.getName() : "";
    if (name.equals("All")) {
      return new NamedSpace.All();
    }
    if (name.isEmpty() || name.equals("None")) {
      return new NamedSpace(new int[] {-1});
    }
    alternates.note(name, 0, 1, array.get(2), array.get(3), resources, false, place);
    return new NamedSpace(new int[] {slot(name)});
  }

  private int slot(String name) {
    int slot = inks.slot(name);
    if (slot < 0) {
      findings.error(
          "too-many-colorants",
          place
              + ": more than "
              + InkSet.MOST
              + " colorants; "
              + name
              + " and what follows were left out");
    }
    return slot;
  }

  private SourceSpace deviceN(COSArray array, COSDictionary resources) throws IOException {
    if (!(array.getObject(1) instanceof COSArray names) || names.size() == 0) {
      return unreadable("a DeviceN space without colorants", 1);
    }
    int n = names.size();
    if (n > MOST_COMPONENTS) {
      findings.warning(
          "too-many-components",
          place
              + ": a DeviceN space of "
              + n
              + " components; more than "
              + MOST_COMPONENTS
              + " can't be printed and its objects were left out");
      int[] none = new int[n];
      Arrays.fill(none, -1);
      return new NamedSpace(none);
    }
    COSDictionary attributes = dictionary(array, 4);
    COSDictionary colorants = attributes.getCOSDictionary(COSName.COLORANTS);
    int[] slots = new int[n];
    for (int i = 0; i < n; i++) {
      String name = names.getObject(i) instanceof COSName colorant ? colorant.getName() : "None";
      if (name.equals("None") || name.equals("All")) {
        slots[i] = -1;
        continue;
      }
      slots[i] = slot(name);
      COSBase own =
          colorants == null ? null : colorants.getDictionaryObject(COSName.getPDFName(name));
      if (own instanceof COSArray separation
          && separation.size() >= 4
          && "Separation".equals(separation.getName(0))) {
        alternates.note(name, 0, 1, separation.get(2), separation.get(3), resources, false, place);
      } else {
        alternates.note(name, i, n, array.get(2), array.get(3), resources, true, place);
      }
    }
    return new NamedSpace(slots);
  }
}
