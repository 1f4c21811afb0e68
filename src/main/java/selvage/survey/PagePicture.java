package selvage.survey;

import java.io.IOException;
import java.io.OutputStream;
import java.util.Arrays;

/** Draws a page from its map. */
public final class PagePicture {
  private PagePicture() {}

  /**
   * Writes the counted area as an 8-bit sRGB PNG.
   *
   * @param rgb red, green and blue of every row of the census
   * @param block places along and across that become one sample, their mean; at least 1
   * @param dpi samples an inch of what is written
   * @param out is closed
   */
  public static void write(ColorMap map, byte[] rgb, int block, double dpi, OutputStream out)
      throws IOException {
    int columns = (map.columns() + block - 1) / block;
    int lines = (map.lines() + block - 1) / block;
    byte[] line = new byte[3 * columns];
    int[] sums = new int[4 * columns];
    try (PngEncoder png = new PngEncoder(out, columns, lines, dpi, PngEncoder.Samples.SRGB)) {
      for (int y = 0; y < lines; y++) {
        if (block == 1) {
          copy(map, rgb, y, line);
        } else {
          Arrays.fill(sums, 0);
          int bottom = Math.min(map.lines(), (y + 1) * block);
          for (int from = y * block; from < bottom; from++) {
            add(map, rgb, from, block, sums);
          }
          average(sums, line);
        }
        png.write(line);
      }
      png.end();
    }
  }

  private static void copy(ColorMap map, byte[] rgb, int y, byte[] line) {
    for (int x = 0; x < map.columns(); x++) {
      int from = 3 * map.rowAt(x, y);
      int at = 3 * x;
      line[at] = rgb[from];
      line[at + 1] = rgb[from + 1];
      line[at + 2] = rgb[from + 2];
    }
  }

  /** Adds a line's places to the sums of their blocks: red, green, blue and how many. */
  private static void add(ColorMap map, byte[] rgb, int y, int block, int[] sums) {
    for (int x = 0; x < map.columns(); x++) {
      int from = 3 * map.rowAt(x, y);
      int at = 4 * (x / block);
      sums[at] += rgb[from] & 255;
      sums[at + 1] += rgb[from + 1] & 255;
      sums[at + 2] += rgb[from + 2] & 255;
      sums[at + 3]++;
    }
  }

  private static void average(int[] sums, byte[] line) {
    for (int x = 0; 3 * x < line.length; x++) {
      int count = sums[4 * x + 3];
      for (int i = 0; i < 3; i++) {
        line[3 * x + i] = (byte) ((sums[4 * x + i] + count / 2) / count);
      }
    }
  }
}
