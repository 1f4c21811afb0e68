package selvage.separation;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.cos.COSString;
import org.apache.pdfbox.pdmodel.PDDocument;
import selvage.ink.Colorant;

/** Writes the colour spaces of images that become pages, and the document's output intent. */
final class ImageSpaces {
  private static final int SPACE_AT = 16;
  private static final int MARK_AT = 36;

  private final PDDocument document;
  private final Map<String, COSStream> profiles = new HashMap<>();
  private String intent;

  ImageSpaces(PDDocument document) {
    this.document = document;
  }

  /**
   * The colour space of a part.
   *
   * @param profile of the image; empty for none
   */
  COSBase of(ImagePart part, byte[] profile, FindingList findings, String where)
      throws IOException {
    boolean base = part.role() == ImagePart.Role.BASE;
    return switch (part.kind()) {
      case GRAY ->
          withProfile(COSName.DEVICEGRAY, base ? profile : none(), "GRAY", findings, where);
      case RGB -> withProfile(COSName.DEVICERGB, profile, "RGB ", findings, where);
      case CMYK -> cmyk(profile, findings, where);
      case LAB -> InkColor.labSpace();
      case PALETTE -> {
        COSArray indexed = new COSArray();
        indexed.add(COSName.INDEXED);
        indexed.add(withProfile(COSName.DEVICERGB, profile, "RGB ", findings, where));
        indexed.add(COSInteger.get(part.palette().length / 3 - 1));
        indexed.add(new COSString(part.palette()));
        yield indexed;
      }
      case INKS -> {
        if (part.isProcessInk() && cmyk(profile, findings, where) instanceof COSArray) {
          findings.warning(
              "image-profile-ignored",
              where
                  + ": its CMYK profile differs from that of an earlier page, and it has spot inks;"
                  + " its inks were taken as they are");
        }
        yield deviceN(part.inks());
      }
    };
  }

  private static byte[] none() {
    return new byte[0];
  }

  /** DeviceCMYK where the profile became the output intent, or there is none. */
  private COSBase cmyk(byte[] profile, FindingList findings, String where) throws IOException {
    COSBase space = withProfile(COSName.DEVICECMYK, profile, "CMYK", findings, where);
    if (space instanceof COSArray) {
      String key = new String(profile, StandardCharsets.ISO_8859_1);
      if (intent == null) {
        intent = key;
        addOutputIntent(profiles.get(key));
      }
      if (key.equals(intent)) {
        return COSName.DEVICECMYK;
      }
    }
    return space;
  }

  private void addOutputIntent(COSStream profile) {
    COSDictionary entry = new COSDictionary();
    entry.setItem(COSName.TYPE, COSName.OUTPUT_INTENT);
    entry.setName(COSName.S, "GTS_PDFX");
    entry.setString(COSName.OUTPUT_CONDITION_IDENTIFIER, "Custom");
    entry.setItem(COSName.DEST_OUTPUT_PROFILE, profile);
    COSArray intents = new COSArray();
    intents.add(entry);
    document.getDocumentCatalog().getCOSObject().setItem(COSName.OUTPUT_INTENTS, intents);
  }

  private COSBase withProfile(
      COSName device, byte[] profile, String wanted, FindingList findings, String where)
      throws IOException {
    if (profile.length == 0) {
      return device;
    }
    String space = signature(profile, SPACE_AT);
    if (!signature(profile, MARK_AT).equals("acsp") || !space.equals(wanted)) {
      findings.warning(
          "image-profile-ignored",
          where
              + ": its embedded ICC profile is damaged or for another kind of image ("
              + space.strip()
              + "); it was left aside");
      return device;
    }
    String key = new String(profile, StandardCharsets.ISO_8859_1);
    COSStream stream = profiles.get(key);
    if (stream == null) {
      stream = document.getDocument().createCOSStream();
      stream.setInt(COSName.N, components(wanted));
      stream.setItem(COSName.ALTERNATE, device);
      try (OutputStream out = stream.createOutputStream(COSName.FLATE_DECODE)) {
        out.write(profile);
      }
      profiles.put(key, stream);
    }
    COSArray array = new COSArray();
    array.add(COSName.ICCBASED);
    array.add(stream);
    return array;
  }

  private static int components(String space) {
    return switch (space) {
      case "GRAY" -> 1;
      case "CMYK" -> 4;
      default -> 3;
    };
  }

  private static String signature(byte[] profile, int at) {
    return profile.length < at + 4 ? "" : new String(profile, at, 4, StandardCharsets.ISO_8859_1);
  }

  /**
   * DeviceN of the inks. Its alternate is DeviceCMYK, each ink adding its share; the spots' own
   * Separations stand among its attributes.
   */
  private COSBase deviceN(List<InkChannel> inks) throws IOException {
    COSArray names = new COSArray();
    COSDictionary colorants = new COSDictionary();
    for (InkChannel ink : inks) {
      names.add(COSName.getPDFName(ink.name()));
      if (!isProcess(ink)) {
        colorants.setItem(COSName.getPDFName(ink.name()), ink.color().separation(ink.name()));
      }
    }
    COSDictionary attributes = new COSDictionary();
    attributes.setItem(COSName.getPDFName("Colorants"), colorants);
    COSArray space = new COSArray();
    space.add(COSName.DEVICEN);
    space.add(names);
    space.add(COSName.DEVICECMYK);
    space.add(sum(inks));
    space.add(attributes);
    return space;
  }

  private static boolean isProcess(InkChannel ink) {
    return !Colorant.named(ink.name()).isSpot();
  }

  /** A PostScript calculator function: each process tint is the sum of the inks' shares. */
  private COSStream sum(List<InkChannel> inks) throws IOException {
    int n = inks.size();
    StringBuilder program = new StringBuilder("{");
    for (int out = 0; out < 4; out++) {
      program.append(" 0");
      for (int in = 0; in < n; in++) {
        float share = inks.get(in).color().approximateCmyk()[out];
        if (share > 0) {
          // The inputs lie below the outputs made so far and the sum.
          int depth = out + n - in;
          program.append(
              String.format(Locale.ROOT, " %d index %.5f mul add", depth, (double) share));
        }
      }
      program.append(" dup 1 gt { pop 1 } if");
    }
    program.append(String.format(Locale.ROOT, " %d 4 roll", n + 4));
    program.append(" pop".repeat(n)).append(" }");
    COSStream function = document.getDocument().createCOSStream();
    function.setInt(COSName.FUNCTION_TYPE, 4);
    float[] domain = new float[2 * n];
    for (int i = 1; i < domain.length; i += 2) {
      domain[i] = 1;
    }
    function.setItem(COSName.DOMAIN, InkColor.numbers(domain));
    function.setItem(COSName.RANGE, InkColor.numbers(0, 1, 0, 1, 0, 1, 0, 1));
    try (OutputStream out = function.createOutputStream(COSName.FLATE_DECODE)) {
      out.write(program.toString().getBytes(StandardCharsets.US_ASCII));
    }
    return function;
  }
}
