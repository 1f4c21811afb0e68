package selvage.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import selvage.strip.BoxMm;
import selvage.strip.Patch;
import selvage.strip.PrintedPatch;
import selvage.strip.StripDrawing;
import selvage.strip.StripLayout;

/**
 * A strip as a picture to stand in a page: an SVG element as large as the strip, one user unit a
 * millimetre. Patches have the colours of their aims, as sRGB shows them. It has presentation
 * attributes only, so that a page which allows no styles and no scripts shows it.
 */
public final class StripSvg {
  private static final double MM_PER_PT = 25.4 / 72;

  /** The first is the strip's own, the next have the same widths. */
  private static final String FONTS = "Liberation Sans, Arial, Helvetica, sans-serif";

  private final StringBuilder svg = new StringBuilder();
  private final ScreenColor screen = new ScreenColor();
  private final double heightMm;

  private StripSvg(double heightMm) {
    this.heightMm = heightMm;
  }

  /**
   * Draws a strip with its text reading from left to right. Each printed patch is a group whose
   * {@code data-patch} is its id, that of the job set where it has two, with a title of all ids and
   * the build.
   */
  public static String of(StripLayout layout) {
    StripSvg drawing = new StripSvg(layout.heightMm());
    drawing.begin(layout);
    drawing.addPatches(layout);
    drawing.addMarks(layout.drawing());
    return drawing.svg.append("</svg>\n").toString();
  }

  private void begin(StripLayout layout) {
    String width = number(layout.widthMm());
    String height = number(layout.heightMm());
    svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"").append(width);
    svg.append("mm\" height=\"").append(height).append("mm\" viewBox=\"0 0 ").append(width);
    svg.append(' ').append(height).append("\" role=\"img\" aria-label=\"");
    svg.append(HtmlText.escaped("Control strip " + layout.stripId())).append("\">\n");
    rectangle(new BoxMm(0, 0, layout.widthMm(), layout.heightMm()), paper(layout));
  }

  /** The colour of the bare substrate; every strip has a patch of it. */
  private String paper(StripLayout layout) {
    return layout.placed().stream()
        .map(StripLayout.Placed::patch)
        .filter(patch -> patch.mixture().isPaper())
        .findFirst()
        .map(this::fill)
        .orElse("#ffffff");
  }

  private String fill(PrintedPatch patch) {
    return SvgDrawing.hex(screen.of(patch.aim().lab()));
  }

  private void addPatches(StripLayout layout) {
    Map<BoxMm, List<String>> ids = new HashMap<>();
    for (Patch patch : layout.patches(false)) {
      ids.computeIfAbsent(patch.box(), box -> new ArrayList<>()).add(patch.id());
    }
    for (StripLayout.Placed placed : layout.placed()) {
      List<String> names = ids.get(placed.box());
      String title = String.join(", ", names) + ": " + InkText.of(placed.patch().mixture());
      svg.append("<g data-patch=\"").append(HtmlText.escaped(names.get(0))).append("\"><title>");
      svg.append(HtmlText.escaped(title)).append("</title>");
      rectangle(placed.box(), fill(placed.patch()));
      svg.append("</g>\n");
    }
  }

  private void addMarks(StripDrawing drawing) {
    svg.append("<g fill=\"#000000\">\n");
    for (BoxMm bar : drawing.bars()) {
      rectangle(bar, null);
    }
    for (BoxMm arrow : drawing.arrows()) {
      svg.append("<path d=\"M").append(point(arrow.xMm(), arrow.yMm()));
      svg.append(" L").append(point(arrow.xMm(), arrow.yMm() + arrow.heightMm()));
      double tip = arrow.xMm() + arrow.widthMm();
      svg.append(" L").append(point(tip, arrow.yMm() + arrow.heightMm() / 2)).append(" Z\"/>\n");
    }
    svg.append("</g>\n<g fill=\"#000000\" font-family=\"").append(FONTS).append("\">\n");
    for (StripDrawing.Text text : drawing.texts()) {
      svg.append("<text");
      attribute("x", text.xMm());
      attribute("y", heightMm - text.baselineMm());
      attribute("font-size", text.sizePt() * MM_PER_PT);
      svg.append('>').append(HtmlText.escaped(text.text())).append("</text>\n");
    }
    svg.append("</g>\n");
  }

  private String point(double xMm, double yMm) {
    return number(xMm) + " " + number(heightMm - yMm);
  }

  /**
   * A filled rectangle.
   *
   * @param fill null for that of the group
   */
  private void rectangle(BoxMm box, String fill) {
    svg.append("<rect");
    attribute("x", box.xMm());
    attribute("y", heightMm - box.yMm() - box.heightMm());
    attribute("width", box.widthMm());
    attribute("height", box.heightMm());
    svg.append(fill == null ? "" : " fill=\"" + fill + "\"").append("/>\n");
  }

  private void attribute(String name, double value) {
    svg.append(' ').append(name).append("=\"").append(number(value)).append('"');
  }

  private static String number(double value) {
    String text = String.format(Locale.ROOT, "%.3f", value + 0.0);
    return text.replaceFirst("\\.?0+$", "").replaceFirst("^-0$", "0");
  }
}
