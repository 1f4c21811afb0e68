package selvage.report;

import selvage.color.DisplayColor;
import selvage.color.Lab;

/** Colours of swatches, sRGB. */
final class ScreenColor {
  private final DisplayColor display = new DisplayColor();

  /** Red, green, blue in three bytes. */
  int of(Lab lab) {
    byte[] rgb = new byte[3];
    float[] values = {(float) lab.l(), (float) lab.a(), (float) lab.b()};
    display.encode(values, 1, rgb, 0);
    return (rgb[0] & 255) << 16 | (rgb[1] & 255) << 8 | (rgb[2] & 255);
  }
}
