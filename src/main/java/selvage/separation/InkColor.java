package selvage.separation;

import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSFloat;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;

/** The colour of an ink's solid as an image states it: the alternate colour of its Separation. */
final class InkColor {
  /** Where the components are counted. */
  enum Space {
    CMYK,
    RGB,
    LAB
  }

  /** Stands for an ink of which no colour is known: as dark as half a tint of black. */
  static final InkColor NEUTRAL = cmyk(0, 0, 0, 0.5f);

  private final Space space;
  private final float[] paper;
  private final float[] solid;

  private InkColor(Space space, float[] paper, float[] solid) {
    this.space = space;
    this.paper = paper;
    this.solid = solid;
  }

  static InkColor cmyk(float c, float m, float y, float k) {
    return new InkColor(Space.CMYK, new float[4], new float[] {c, m, y, k});
  }

  static InkColor rgb(float r, float g, float b) {
    return new InkColor(Space.RGB, new float[] {1, 1, 1}, new float[] {r, g, b});
  }

  static InkColor lab(float l, float a, float b) {
    return new InkColor(Space.LAB, new float[] {100, 0, 0}, new float[] {l, a, b});
  }

  /** Whether no colour is known of the ink. */
  boolean isUnknown() {
    return this == NEUTRAL;
  }

  /** A solid of a process colorant. */
  static InkColor process(int index) {
    float[] solid = new float[4];
    solid[index] = 1;
    return new InkColor(Space.CMYK, new float[4], solid);
  }

  /** The tints of C, M, Y, K that stand for the solid where only those can be stated. */
  float[] approximateCmyk() {
    return (space == Space.CMYK ? solid : NEUTRAL.solid).clone();
  }

  /** A Separation of the ink, its tint transform straight from paper to solid. */
  COSArray separation(String name) {
    COSDictionary transform = new COSDictionary();
    transform.setInt(COSName.FUNCTION_TYPE, 2);
    transform.setItem(COSName.DOMAIN, numbers(0, 1));
    transform.setItem(COSName.C0, numbers(paper));
    transform.setItem(COSName.C1, numbers(solid));
    transform.setInt(COSName.N, 1);
    COSArray separation = new COSArray();
    separation.add(COSName.SEPARATION);
    separation.add(COSName.getPDFName(name));
    separation.add(
        switch (space) {
          case CMYK -> COSName.DEVICECMYK;
          case RGB -> COSName.DEVICERGB;
          case LAB -> labSpace();
        });
    separation.add(transform);
    return separation;
  }

  /** CIELAB under D50, a* and b* from −128 to 127. */
  static COSBase labSpace() {
    COSDictionary white = new COSDictionary();
    white.setItem(COSName.WHITE_POINT, numbers(0.9642f, 1, 0.8249f));
    white.setItem(COSName.RANGE, numbers(-128, 127, -128, 127));
    COSArray lab = new COSArray();
    lab.add(COSName.LAB);
    lab.add(white);
    return lab;
  }

  static COSArray numbers(float... values) {
    COSArray array = new COSArray();
    for (float value : values) {
      array.add(
          value == Math.rint(value) && Math.abs(value) < 1e6
              ? COSInteger.get((long) value)
              : new COSFloat(value));
    }
    return array;
  }
}
