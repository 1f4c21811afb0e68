package selvage.sheet;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;
import selvage.strip.StripLayout;

/**
 * Finds a place for a strip: blank room of the media outside the bleed, as far from ink as there is
 * a choice, else beyond the edge where the sheet grows least, a tenth being granted for text that
 * reads without turning the sheet.
 */
final class StripPlacer {
  /** How long a strip may become where a page is too short for any. */
  private static final double WIDENED_MM = 120;

  /** Shorter strips are tried in so many steps, and so many places along an edge. */
  private static final int LENGTHS = 6;

  private static final double SLIDE_MM = 5;

  /** Ink this far off does not scatter into a reading (common practice, no source). */
  private static final double ENOUGH_MM = 12;

  private static final double CLEARANCE_STEP_MM = 3;

  /**
   * The sheet grows by whole steps of half an inch, a whole number of samples at any even
   * resolution: the page's own pixels stay where they were. What the strip doesn't need parts it
   * from the page.
   */
  private static final double STEP_MM = 12.7;

  /** So much a sheet may grow on one side, whatever its size (house rule). */
  private static final double MOST_GROWTH_MM = 120;

  /** A large sheet may grow by this share of its side (house rule). */
  private static final double MOST_SHARE = 0.25;

  /**
   * A sheet may always grow by the area of A5 (ISO 216), in square millimetres: a small page needs
   * that for an ordinary strip (house rule).
   */
  private static final double ORDINARY_AREA_MM2 = 148 * 210;

  private static final double UPRIGHT_COST = 1.1;
  private static final double ROUNDING_MM = 1e-6;

  private final PageFrame frame;
  private final InkOccupancy occupancy;
  private final DoubleFunction<StripLayout> layouts;
  private final double shortestMm;

  /**
   * A placer for one page.
   *
   * @param layouts lays the strip out within a length in millimetres
   * @param shortestMm the least such length
   */
  StripPlacer(
      PageFrame frame,
      InkOccupancy occupancy,
      DoubleFunction<StripLayout> layouts,
      double shortestMm) {
    this.frame = frame;
    this.occupancy = occupancy;
    this.layouts = layouts;
    this.shortestMm = shortestMm;
  }

  /**
   * Finds the place, where there is a choice one that does not make the sheet grow too far.
   *
   * @param wanted the edge to take; any where empty
   */
  Placement place(Optional<Edge> wanted) {
    List<Edge> edges = wanted.map(List::of).orElse(List.of(Edge.values()));
    Placement free = null;
    for (Edge edge : edges) {
      free = clearer(free, free(edge));
    }
    if (free != null) {
      return free;
    }
    return edges.stream()
        .map(this::beyond)
        .min(
            Comparator.comparing(this::growsTooFar)
                .thenComparing(Placement::widened)
                .thenComparingDouble(this::cost))
        .orElseThrow();
  }

  /** Whether the sheet would become larger than a print shop accepts. */
  boolean growsTooFar(Placement place) {
    return place.growthMm(frame) > mostGrowthMm(place)
        && place.addedArea(frame) > ORDINARY_AREA_MM2;
  }

  /** By how much a sheet of this size may grow at this place's edge, in millimetres. */
  double mostGrowthMm(Placement place) {
    return Math.max(MOST_GROWTH_MM, MOST_SHARE * place.acrossMm(frame.displayedMedia()));
  }

  /** Square millimetres that are added; rows that stand upright cost a little more to read. */
  private double cost(Placement place) {
    return place.addedArea(frame) * (place.edge().isUpright() ? UPRIGHT_COST : 1);
  }

  private Placement beyond(Edge edge) {
    Rectangle sheet = frame.displayedMedia();
    Rectangle crop = frame.displayedCrop();
    boolean upright = edge.isUpright();
    double start = upright ? crop.lly() : crop.llx();
    double edgeMm = upright ? crop.height() : crop.width();
    if (edgeMm < shortestMm) {
      start = upright ? sheet.lly() : sheet.llx();
      edgeMm = upright ? sheet.height() : sheet.width();
    }
    boolean widened = edgeMm < shortestMm;
    StripLayout layout = layouts.apply(widened ? Math.max(WIDENED_MM, shortestMm) : edgeMm);
    double depth = wholeSteps(layout.heightMm());
    double length = widened ? edgeMm + wholeSteps(layout.widthMm() - edgeMm) : edgeMm;
    double reach = start + length;
    double along =
        MarkGrid.near(start + (length - layout.widthMm()) / 2, start, reach - layout.widthMm());
    double outer = depth - layout.heightMm();
    return switch (edge) {
      case BOTTOM ->
          at(
              edge,
              layout,
              along,
              -depth,
              sheet.union(new Rectangle(start, -depth, reach, 0)),
              widened);
      case TOP ->
          at(
              edge,
              layout,
              along,
              MarkGrid.near(sheet.ury() + outer, sheet.ury(), sheet.ury() + outer),
              sheet.union(new Rectangle(start, 0, reach, sheet.ury() + depth)),
              widened);
      case LEFT ->
          at(
              edge,
              layout,
              MarkGrid.nearUpright(layout, -depth, -depth, -layout.heightMm()),
              along,
              sheet.union(new Rectangle(-depth, start, 0, reach)),
              widened);
      case RIGHT ->
          at(
              edge,
              layout,
              MarkGrid.nearUpright(layout, sheet.urx() + outer, sheet.urx(), sheet.urx() + outer),
              along,
              sheet.union(new Rectangle(0, start, sheet.urx() + depth, reach)),
              widened);
    };
  }

  private Placement at(
      Edge edge, StripLayout layout, double x, double y, Rectangle sheet, boolean widened) {
    return Placement.at(frame, edge, layout, x, y, sheet, widened);
  }

  private static double wholeSteps(double mm) {
    return Math.ceil(mm / STEP_MM - ROUNDING_MM) * STEP_MM;
  }

  /** The place with more bare sheet around it; the first where they are alike. */
  private Placement clearer(Placement first, Placement second) {
    if (first == null || second == null) {
      return first == null ? second : first;
    }
    return clearance(second) > clearance(first) ? second : first;
  }

  /** How far a free place is from any ink, in millimetres, as far as that matters. */
  private double clearance(Placement place) {
    double clear = 0;
    while (clear < ENOUGH_MM && isBlank(place, clear + CLEARANCE_STEP_MM)) {
      clear += CLEARANCE_STEP_MM;
    }
    return clear;
  }

  private boolean isBlank(Placement place, double aroundMm) {
    Rectangle box = place.box();
    double around = frame.userUnits(aroundMm);
    return occupancy.isBlank(
        box.llx() - around, box.lly() - around, box.urx() + around, box.ury() + around);
  }

  /**
   * Room between crop box and bleed box, at full length or shorter, where it is blank; null where
   * there is none.
   */
  private Placement free(Edge edge) {
    if (occupancy == InkOccupancy.UNKNOWN) {
      return null;
    }
    Rectangle crop = frame.displayedCrop();
    Rectangle bleed = frame.displayedBleed();
    double depth =
        switch (edge) {
          case BOTTOM -> bleed.lly() - crop.lly();
          case TOP -> crop.ury() - bleed.ury();
          case LEFT -> bleed.llx() - crop.llx();
          case RIGHT -> crop.urx() - bleed.urx();
        };
    double room = edge.isUpright() ? crop.height() : crop.width();
    for (int step = 0; step < LENGTHS && room >= shortestMm; step++) {
      double length = room - (room - shortestMm) * step / LENGTHS;
      StripLayout layout = layouts.apply(length);
      if (layout.heightMm() > depth + ROUNDING_MM) {
        return null; // a shorter one is higher still
      }
      Placement found = slide(edge, layout, crop, room, Math.max(0, depth - layout.heightMm()));
      if (found != null) {
        return found;
      }
    }
    return null;
  }

  /**
   * Tries places along the edge, from its middle outwards; null where none is blank.
   *
   * @param spareMm how far the strip may lie off the edge
   */
  private Placement slide(
      Edge edge, StripLayout layout, Rectangle crop, double room, double spareMm) {
    double spare = Math.max(0, room - layout.widthMm());
    int steps = (int) (spare / 2 / SLIDE_MM);
    Placement best = null;
    double start = edge.isUpright() ? crop.lly() : crop.llx();
    for (int i = 0; i <= 2 * steps; i++) {
      double off = spare / 2 + SLIDE_MM * (i % 2 == 0 ? i / 2 : -(i + 1) / 2);
      double along = MarkGrid.near(start + off, start, start + spare);
      Placement place = inside(edge, layout, crop, along, spareMm);
      if (isBlank(place, 0)) {
        best = clearer(best, place);
        if (clearance(best) >= ENOUGH_MM) {
          return best;
        }
      }
    }
    return best;
  }

  /**
   * A place at an edge of the crop box.
   *
   * @param along where the strip begins along the edge
   * @param spareMm how far it may lie off the edge
   */
  private Placement inside(
      Edge edge, StripLayout layout, Rectangle crop, double along, double spareMm) {
    double top = crop.ury() - layout.heightMm();
    double right = crop.urx() - layout.heightMm();
    double left = crop.llx();
    double bottom = crop.lly();
    double across =
        switch (edge) {
          case BOTTOM -> MarkGrid.near(bottom, bottom, bottom + spareMm);
          case TOP -> MarkGrid.near(top, top - spareMm, top);
          case LEFT -> MarkGrid.nearUpright(layout, left, left, left + spareMm);
          case RIGHT -> MarkGrid.nearUpright(layout, right, right - spareMm, right);
        };
    double x = edge.isUpright() ? across : along;
    double y = edge.isUpright() ? along : across;
    return at(edge, layout, x, y, frame.displayedMedia(), false);
  }
}
