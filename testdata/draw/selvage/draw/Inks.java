package selvage.draw;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.color.PDColorSpace;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceCMYK;

/** The inks of the job: four process colours, two spots, and an NChannel space of both spots. */
final class Inks {
  static final String DUNE_RED = "Dune Red";
  static final String REED_TEAL = "Reed Teal";

  private static final float[] DUNE_RED_CMYK = {0.10f, 0.76f, 0.74f, 0.06f};
  private static final float[] REED_TEAL_CMYK = {0.84f, 0.30f, 0.42f, 0.14f};

  private final PDColorSpace dune;
  private final PDColorSpace reed;
  private final PDColorSpace both;
  private final PDColorSpace registration;

  Inks(PDDocument document) throws IOException {
    COSArray duneSpace = separation(DUNE_RED, DUNE_RED_CMYK);
    COSArray reedSpace = separation(REED_TEAL, REED_TEAL_CMYK);
    dune = PDColorSpace.create(duneSpace);
    reed = PDColorSpace.create(reedSpace);
    both = PDColorSpace.create(nChannel(document, duneSpace, reedSpace));
    registration = PDColorSpace.create(separation("All", new float[] {1, 1, 1, 1}));
  }

  /** Process tints in percent. */
  static PDColor cmyk(double c, double m, double y, double k) {
    return new PDColor(new float[] {share(c), share(m), share(y), share(k)}, PDDeviceCMYK.INSTANCE);
  }

  PDColor dune(double percent) {
    return new PDColor(new float[] {share(percent)}, dune);
  }

  PDColor reed(double percent) {
    return new PDColor(new float[] {share(percent)}, reed);
  }

  /** Both spots over each other. */
  PDColor both(double dunePercent, double reedPercent) {
    return new PDColor(new float[] {share(dunePercent), share(reedPercent)}, both);
  }

  /** Marks that appear on every plate. */
  PDColor registration() {
    return new PDColor(new float[] {1}, registration);
  }

  private static float share(double percent) {
    return (float) (percent / 100);
  }

  /** A spot over DeviceCMYK. */
  static COSArray separation(String name, float[] solid) {
    COSDictionary transform = new COSDictionary();
    transform.setInt(COSName.FUNCTION_TYPE, 2);
    transform.setItem(COSName.DOMAIN, COSArray.ofCOSIntegers(List.of(0, 1)));
    transform.setItem(COSName.C0, COSArray.ofCOSIntegers(List.of(0, 0, 0, 0)));
    COSArray full = new COSArray();
    full.setFloatArray(solid);
    transform.setItem(COSName.C1, full);
    transform.setInt(COSName.N, 1);
    return array(COSName.SEPARATION, COSName.getPDFName(name), COSName.DEVICECMYK, transform);
  }

  private static COSArray nChannel(PDDocument document, COSArray dune, COSArray reed)
      throws IOException {
    COSStream transform = document.getDocument().createCOSStream();
    transform.setInt(COSName.FUNCTION_TYPE, 4);
    transform.setItem(COSName.DOMAIN, COSArray.ofCOSIntegers(List.of(0, 1, 0, 1)));
    transform.setItem(COSName.RANGE, COSArray.ofCOSIntegers(List.of(0, 1, 0, 1, 0, 1, 0, 1)));
    StringBuilder program = new StringBuilder("{ ");
    for (int i = 0; i < 4; i++) {
      // the two solids' shares of one process ink, added and clipped; the tints stay below
      program.append(i).append(" 1 add index ").append(DUNE_RED_CMYK[i]).append(" mul ");
      program.append(i).append(" 1 add index ").append(REED_TEAL_CMYK[i]);
      program.append(" mul add dup 1 gt { pop 1 } if ");
    }
    program.append("6 -2 roll pop pop }");
    try (OutputStream out = transform.createOutputStream()) {
      out.write(program.toString().getBytes(StandardCharsets.US_ASCII));
    }
    COSDictionary attributes = new COSDictionary();
    attributes.setName(COSName.SUBTYPE, "NChannel");
    COSDictionary colorants = new COSDictionary();
    colorants.setItem(COSName.getPDFName(DUNE_RED), dune);
    colorants.setItem(COSName.getPDFName(REED_TEAL), reed);
    attributes.setItem(COSName.COLORANTS, colorants);
    return array(
        COSName.DEVICEN,
        array(COSName.getPDFName(DUNE_RED), COSName.getPDFName(REED_TEAL)),
        COSName.DEVICECMYK,
        transform,
        attributes);
  }

  private static COSArray array(COSBase... items) {
    COSArray array = new COSArray();
    for (COSBase item : items) {
      array.add(item);
    }
    return array;
  }
}
