package selvage.separation;

import java.awt.image.BufferedImage;
import java.awt.image.WritableRaster;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.graphics.color.PDColor;
import org.apache.pdfbox.pdmodel.graphics.color.PDColorSpace;

/**
 * Carries one of our colours through PDFBox's graphics state, which saves and restores it. PDFBox
 * itself never asks it for anything.
 */
final class CarriedColor extends PDColorSpace {
  private static final float[] NO_COMPONENTS = new float[0];

  final SourceSpace space;
  final float[] components;

  /** The pattern of a pattern colour, a dictionary or stream; null for any other. */
  final COSBase pattern;

  CarriedColor(SourceSpace space, float[] components, COSBase pattern) {
    this.space = space;
    this.components = components;
    this.pattern = pattern;
  }

  /** The space's initial colour. */
  static CarriedColor initial(SourceSpace space) {
    return new CarriedColor(space, space.initialColor(), null);
  }

  PDColor toPdColor() {
    return new PDColor(NO_COMPONENTS, this);
  }

  /** The carried colour; null where PDFBox set its own initial colour, which is black. */
  static CarriedColor of(PDColor color) {
    return color.getColorSpace() instanceof CarriedColor carried ? carried : null;
  }

  @Override
  public COSBase getCOSObject() {
    return COSName.PATTERN;
  }

  @Override
  public String getName() {
    return "carried";
  }

  @Override
  public int getNumberOfComponents() {
    return 0;
  }

  @Override
  public float[] getDefaultDecode(int bitsPerComponent) {
    return NO_COMPONENTS;
  }

  @Override
  public PDColor getInitialColor() {
    return toPdColor();
  }

  @Override
  public float[] toRGB(float[] value) {
    throw new IllegalStateException("colours are never taken through RGB");
  }

  @Override
  public BufferedImage toRGBImage(WritableRaster raster) {
    throw new IllegalStateException("colours are never taken through RGB");
  }

  @Override
  public BufferedImage toRawImage(WritableRaster raster) {
    throw new IllegalStateException("colours are never taken through RGB");
  }
}
