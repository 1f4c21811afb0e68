package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import selvage.strip.StripDrawing.Text;
import selvage.strip.StripLabel.Item;

/**
 * The upper part of a strip: its name as a mark in the middle, on the left as text with the job's
 * name, on the right what else the label says; on a narrow strip the text is below the mark.
 *
 * <p>Programs that look for marks on a whole sheet begin at its middle lines, and a strip lies in
 * the middle of an edge: there, turned so that a line across meets a solid edge of it, the mark is
 * found at once; at the strip's end it took them seconds.
 */
final class StripHead {
  /** From one baseline to the next, in sizes of the font. */
  static final double LEADING = 1.28;

  private static final double MM_PER_PT = 25.4 / 72;
  private static final double NAME_PT = 8;
  private static final double ITEM_PT = 6;
  private static final double PARAGRAPH_GAP_MM = 0.3;

  /**
   * Holds a strip's name; on a strip too narrow for two such columns the text is below the mark.
   */
  private static final double LEAST_COLUMN_MM = 38;

  /** A baseline's height above the lower edge of its line. */
  private static final double BASELINE = 0.24;

  private static final String DOT = "  ·  ";

  private record Line(String text, double sizePt, double gapAboveMm) {
    double heightMm() {
      return sizePt * MM_PER_PT * LEADING + gapAboveMm;
    }
  }

  private final TextWidth width;
  private final boolean isTextBeside;
  private final double columnMm;
  private final IdMark mark;
  private final double markLeftMm;
  private final List<Line> left = new ArrayList<>();
  private final List<Line> right = new ArrayList<>();

  /**
   * Sets the text.
   *
   * @param widthMm of the whole strip
   * @param width of text in the font that will be used
   */
  StripHead(StripLabel label, String stripId, double widthMm, TextWidth width) {
    this.width = width;
    this.mark = IdMark.of(stripId);
    // Half a module off, so that the middle line does not run along an edge between two modules.
    this.markLeftMm = IdMark.onGrid((widthMm - mark.sizeMm() + IdMark.MODULE_MM) / 2);
    double besideMm = markLeftMm - IdMark.CLEAR_MM - StripComposer.QUIET_MM;
    this.isTextBeside = besideMm >= LEAST_COLUMN_MM;
    this.columnMm = isTextBeside ? besideMm : widthMm - 2 * StripComposer.QUIET_MM;
    List<String> names = new ArrayList<>(List.of("Control strip " + stripId));
    names.addAll(inTwo(label.job()));
    names.addAll(List.of(label.page(), label.condition(), label.dateTime()));
    addLines(left, names, NAME_PT, DOT, 0);
    List<String> items = new ArrayList<>();
    for (Item item : label.items()) {
      items.add(item.name() + ": " + item.value());
    }
    if (!items.isEmpty()) {
      addLines(right, items, ITEM_PT, DOT, 0);
    }
    double gap = items.isEmpty() ? 0 : PARAGRAPH_GAP_MM;
    addLines(right, List.of(StripLabel.CAUTION.split(" ")), ITEM_PT, " ", gap);
  }

  double heightMm() {
    return isTextBeside
        ? Math.max(mark.sizeMm() + IdMark.GRID_MM, Math.max(height(left), height(right)))
        : mark.sizeMm() + IdMark.CLEAR_MM + height(left) + height(right);
  }

  private static double height(List<Line> lines) {
    return lines.stream().mapToDouble(Line::heightMm).sum();
  }

  /**
   * Adds mark and text to a drawing.
   *
   * @param lowerMm the head's lower edge
   */
  void addTo(List<BoxMm> bars, List<Text> texts, double lowerMm) {
    double upperMm = lowerMm + heightMm();
    double markLowerMm = IdMark.onGrid(upperMm - mark.sizeMm());
    bars.addAll(mark.turnedBars(markLeftMm, markLowerMm));
    if (isTextBeside) {
      addTo(texts, left, StripComposer.QUIET_MM, upperMm);
      addTo(texts, right, markLeftMm + mark.sizeMm() + IdMark.CLEAR_MM, upperMm);
    } else {
      double below = lowerMm + height(left) + height(right);
      addTo(texts, left, StripComposer.QUIET_MM, below);
      addTo(texts, right, StripComposer.QUIET_MM, below - height(left));
    }
  }

  private static void addTo(List<Text> texts, List<Line> lines, double leftMm, double upperMm) {
    double y = upperMm;
    for (Line line : lines) {
      y -= line.heightMm();
      double baseline = y + BASELINE * line.sizePt() * MM_PER_PT * LEADING;
      texts.add(new Text(leftMm, baseline, line.sizePt(), line.text()));
    }
  }

  /** Sets parts in as few lines as they need. */
  private void addLines(
      List<Line> lines, List<String> parts, double sizePt, String between, double gapAboveMm) {
    double gap = gapAboveMm;
    String line = "";
    for (String part : parts) {
      String fitting = shortened(part, sizePt);
      String longer = line.isEmpty() ? fitting : line + between + fitting;
      if (width.mm(longer, sizePt) <= columnMm) {
        line = longer;
      } else {
        lines.add(new Line(line, sizePt, gap));
        gap = 0;
        line = fitting;
      }
    }
    lines.add(new Line(line, sizePt, gap));
  }

  /** A job's name; where it is longer than a line in two parts, broken behind a mark in it. */
  private List<String> inTwo(String name) {
    int[] letters = name.codePoints().toArray();
    int fitting = letters.length;
    while (fitting > 1 && width.mm(new String(letters, 0, fitting), NAME_PT) > columnMm) {
      fitting--;
    }
    if (fitting == letters.length) {
      return List.of(name);
    }
    int cut = fitting;
    while (cut > fitting / 2 && "-_ ".indexOf(letters[cut - 1]) < 0) {
      cut--;
    }
    cut = cut > fitting / 2 ? cut : fitting;
    return List.of(
        new String(letters, 0, cut).strip(),
        new String(letters, cut, letters.length - cut).strip());
  }

  /** A text that fits a line, its middle left out where it is too long. */
  private String shortened(String text, double sizePt) {
    String shown = text;
    int[] letters = text.codePoints().toArray();
    for (int keep = letters.length - 1; width.mm(shown, sizePt) > columnMm && keep > 0; keep--) {
      int head = (keep + 1) / 2;
      shown =
          new String(letters, 0, head)
              + "…"
              + new String(letters, letters.length - (keep - head), keep - head);
    }
    return shown;
  }
}
