package selvage.survey;

import java.io.IOException;
import java.io.OutputStream;

/** Draws a page from its map. */
public final class PagePicture {
  private PagePicture() {}

  /**
   * Writes the counted area as an 8-bit sRGB PNG, a sample for each place of the map.
   *
   * @param rgb red, green and blue of every row of the census
   * @param dpi places an inch
   * @param out is closed
   */
  public static void write(ColorMap map, byte[] rgb, double dpi, OutputStream out)
      throws IOException {
    int columns = map.columns();
    byte[] line = new byte[3 * columns];
    try (PngEncoder png = new PngEncoder(out, columns, map.lines(), dpi, PngEncoder.Samples.SRGB)) {
      for (int y = 0; y < map.lines(); y++) {
        for (int x = 0; x < columns; x++) {
          int from = 3 * map.rowAt(x, y);
          int at = 3 * x;
          line[at] = rgb[from];
          line[at + 1] = rgb[from + 1];
          line[at + 2] = rgb[from + 2];
        }
        png.write(line);
      }
      png.end();
    }
  }
}
