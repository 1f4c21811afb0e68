package selvage.sheet;

import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.function.DoubleFunction;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import selvage.strip.StripLayout;

/**
 * A strip's page of its own behind the job's page: as large as that one's media as displayed,
 * larger only where the strip needs it, in the same units.
 *
 * @param page without content yet, not yet in the document
 * @param place of the strip on it
 */
record OwnPage(PDPage page, Placement place) {
  /** Left bare at the edge where the page is large enough: printers need some of it. */
  private static final double MARGIN_MM = 12.7;

  /** A page that is too small for its strip grows in both directions by such steps. */
  private static final double STEP = 1.05;

  private static final double ROUNDING_MM = 1e-6;
  private static final String OUTPUT_INTENTS = "OutputIntents";

  /** Deeper page trees are taken for damaged. */
  private static final int MOST_NODES = 64;

  /**
   * Makes the page.
   *
   * @param wanted the edge along which the strip lies; the top where empty
   * @param layouts lays the strip out within a length in millimetres
   * @param shortestMm the least such length
   */
  static OwnPage like(
      PDPage job, Optional<Edge> wanted, DoubleFunction<StripLayout> layouts, double shortestMm) {
    PageFrame frame = PageFrame.of(job);
    Rectangle sheet = frame.displayedMedia();
    Edge edge = wanted.orElse(Edge.TOP);
    boolean upright = edge.isUpright();
    double along = upright ? sheet.height() : sheet.width();
    double across = upright ? sheet.width() : sheet.height();
    StripLayout layout = layout(along, across, layouts, shortestMm);
    along = Math.max(along, layout.widthMm());
    across = Math.max(across, layout.heightMm());
    double width = upright ? across : along;
    double height = upright ? along : across;
    PDPage page =
        StripPage.blank(
            new PDRectangle((float) frame.userUnits(width), (float) frame.userUnits(height)));
    page.setCropBox(page.getMediaBox());
    page.setRotation(0);
    keep(job, COSName.USER_UNIT, page);
    keep(job, COSName.getPDFName(OUTPUT_INTENTS), page);
    double margin = Math.min(MARGIN_MM, (across - layout.heightMm()) / 2);
    double start = MarkGrid.near((along - layout.widthMm()) / 2, 0, along - layout.widthMm());
    double most = across - layout.heightMm();
    double far = most - margin;
    double x =
        switch (edge) {
          case BOTTOM, TOP -> start;
          case LEFT -> MarkGrid.nearUpright(layout, margin, 0, most);
          case RIGHT -> MarkGrid.nearUpright(layout, far, 0, most);
        };
    double y =
        switch (edge) {
          case BOTTOM -> MarkGrid.near(margin, 0, most);
          case TOP -> MarkGrid.near(far, 0, most);
          case LEFT, RIGHT -> start;
        };
    PageFrame own = PageFrame.of(page);
    return new OwnPage(page, Placement.at(own, edge, layout, x, y, own.displayedMedia(), false));
  }

  private static void keep(PDPage job, COSName key, PDPage page) {
    COSBase value = job.getCOSObject().getItem(key);
    if (value != null) {
      page.getCOSObject().setItem(key, value);
    }
  }

  /** The strip at the page's length, or at that of the least page of its shape that holds it. */
  private static StripLayout layout(
      double along, double across, DoubleFunction<StripLayout> layouts, double shortestMm) {
    StripLayout layout = layouts.apply(Math.max(along, shortestMm));
    double needed = layout.widthMm() * layout.heightMm();
    double scale = 1;
    while (layout.heightMm() > across * scale + ROUNDING_MM) {
      scale = Math.max(scale * STEP, Math.sqrt(needed / (along * across)) / STEP);
      layout = layouts.apply(Math.max(along * scale, shortestMm));
    }
    return layout;
  }

  /** Whether a page can be put behind this one: it has one place in a page tree that is sound. */
  static boolean canFollow(PDDocument document, PDPage job, int index) {
    COSDictionary page = job.getCOSObject();
    if (document.getPages().indexOf(job) != index
        || !(page.getDictionaryObject(COSName.PARENT) instanceof COSDictionary parent)
        || !(parent.getDictionaryObject(COSName.KIDS) instanceof COSArray kids)) {
      return false;
    }
    int places = 0;
    for (int i = 0; i < kids.size(); i++) {
      if (!(kids.getObject(i) instanceof COSDictionary kid)) {
        return false;
      }
      places += kid == page ? 1 : 0;
    }
    COSDictionary root = document.getPages().getCOSObject();
    Set<COSDictionary> seen = new HashSet<>();
    COSDictionary node = parent;
    while (node != root) {
      if (!seen.add(node)
          || seen.size() > MOST_NODES
          || node.getInt(COSName.COUNT) < 1
          || !(node.getDictionaryObject(COSName.PARENT) instanceof COSDictionary above)) {
        return false;
      }
      node = above;
    }
    return places == 1 && root.getInt(COSName.COUNT) > index && !root.containsKey(COSName.PARENT);
  }
}
