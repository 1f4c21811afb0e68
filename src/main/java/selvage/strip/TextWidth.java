package selvage.strip;

/** How wide a text comes out; answered by whoever knows the font. */
@FunctionalInterface
public interface TextWidth {
  /**
   * The width of a line.
   *
   * @param sizePt the font's size in points
   * @return millimetres
   */
  double mm(String text, double sizePt);
}
