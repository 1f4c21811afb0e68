package selvage.strip;

import java.util.List;

/**
 * All of a strip but its patches, in black on the bare substrate: marks, hairlines and text, in
 * millimetres from the strip's lower left corner.
 *
 * @param bars filled rectangles
 * @param arrows filled triangles that point along the row
 * @param texts lines of text
 */
public record StripDrawing(List<BoxMm> bars, List<BoxMm> arrows, List<Text> texts) {
  /**
   * A line of text.
   *
   * @param xMm where it begins
   * @param baselineMm its baseline
   * @param sizePt the font's size in points
   */
  public record Text(double xMm, double baselineMm, double sizePt, String text) {}

  public StripDrawing {
    bars = List.copyOf(bars);
    arrows = List.copyOf(arrows);
    texts = List.copyOf(texts);
  }
}
