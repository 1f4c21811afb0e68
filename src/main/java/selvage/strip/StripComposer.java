package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import selvage.color.Lab;
import selvage.strip.StripDrawing.Text;
import selvage.strip.StripLayout.Placed;

/** Gives every patch, mark and line of a strip its place, from the bottom upwards. */
final class StripComposer {
  /** Left clear around everything (common practice, no source). */
  static final double QUIET_MM = 4;

  private static final double MM_PER_PT = 25.4 / 72;
  private static final double CAPTION_PT = 6;
  private static final double PATCH_LABEL_PT = 6;
  private static final double LEAST_WIDTH_MM = 120;
  private static final double PATCH_LABEL_ROOM_MM = 2.3;
  private static final double PATCH_LABEL_BELOW_MM = 2.2;
  private static final double HAIRLINE_MM = 0.1;
  private static final double HAIRLINE_OFF_MM = 0.2;
  private static final double START_BAR_MM = 1.5;
  private static final double BETWEEN_SETS_MM = 1.5;
  private static final double HEAD_GAP_MM = 1.5;

  private final ReaderGeometry reader;
  private final TextWidth width;
  private final double widthMm;
  private final List<Placed> placed = new ArrayList<>();
  private final List<String> labels = new ArrayList<>();
  private final List<BoxMm> bars = new ArrayList<>();
  private final List<BoxMm> arrows = new ArrayList<>();
  private final List<Text> texts = new ArrayList<>();
  private double y = QUIET_MM;
  private int row;
  private int jobs;
  private int standards;

  StripComposer(
      StripContent content,
      ReaderGeometry reader,
      TextWidth width,
      double availableMm,
      List<List<PrintedPatch>> jobRows,
      List<List<PrintedPatch>> standardRows,
      String stripId) {
    this.reader = reader;
    this.width = width;
    double longest = 0;
    for (List<List<PrintedPatch>> rows : List.of(jobRows, standardRows)) {
      for (List<PrintedPatch> patches : rows) {
        longest = Math.max(longest, StripRows.lengthMm(reader, patches.size()));
      }
    }
    this.widthMm = Math.max(longest + 2 * QUIET_MM, Math.min(LEAST_WIDTH_MM, availableMm));
    addRows(jobRows, "The job's own colours");
    if (!jobRows.isEmpty() && !standardRows.isEmpty()) {
      y += BETWEEN_SETS_MM;
    }
    addRows(standardRows, "Standard patches: " + content.standardName());
    y += HEAD_GAP_MM;
    StripHead head = new StripHead(content.label(), stripId, widthMm, width);
    head.addTo(bars, texts, y);
    y += head.heightMm() + QUIET_MM;
  }

  double widthMm() {
    return widthMm;
  }

  double heightMm() {
    return y;
  }

  List<Placed> placed() {
    return placed;
  }

  List<String> labels() {
    return labels;
  }

  StripDrawing drawing() {
    return new StripDrawing(bars, arrows, texts);
  }

  private void addRows(List<List<PrintedPatch>> rows, String caption) {
    if (rows.isEmpty()) {
      return;
    }
    for (int i = 0; i < rows.size(); i++) {
      y += i == 0 ? PATCH_LABEL_ROOM_MM : reader.rowGapMm();
      addRow(rows.get(i));
      y += reader.patchHeightMm();
    }
    y += 0.8;
    texts.add(new Text(QUIET_MM, y + 0.5, CAPTION_PT, caption));
    y += CAPTION_PT * MM_PER_PT * StripHead.LEADING;
  }

  private void addRow(List<PrintedPatch> patches) {
    row++;
    double x = QUIET_MM + reader.leaderMm();
    addStartMark(x - ReaderGeometry.LEAST_LEADER_MM);
    double right = x;
    for (int column = 1; column <= patches.size(); column++) {
      PrintedPatch patch = patches.get(column - 1);
      double left = x + (column - 1) * reader.pitchMm();
      right = left + reader.patchWidthMm();
      placed.add(
          new Placed(
              patch,
              row,
              column,
              new BoxMm(rounded(left), rounded(y), reader.patchWidthMm(), reader.patchHeightMm())));
      addPatchLabel(patch, left);
      if (column > 1 && reader.dividerMm() > 0) {
        addDivider(patches.get(column - 2), patch, left - reader.dividerMm());
      }
    }
    double off = HAIRLINE_OFF_MM + HAIRLINE_MM;
    double length = right - x + 2 * off;
    bars.add(new BoxMm(x - off, y - off, length, HAIRLINE_MM));
    bars.add(new BoxMm(x - off, y + reader.patchHeightMm() + HAIRLINE_OFF_MM, length, HAIRLINE_MM));
    double height = reader.patchHeightMm() + 2 * off;
    bars.add(new BoxMm(x - off, y - off, HAIRLINE_MM, height));
    bars.add(new BoxMm(right + HAIRLINE_OFF_MM, y - off, HAIRLINE_MM, height));
  }

  /** Boxes are told to 0.001 mm; what is painted is what is told. */
  private static double rounded(double mm) {
    return Math.rint(mm * 1000) / 1000;
  }

  /** A bar, an arrow along the row and the row's number: the end where reading begins. */
  private void addStartMark(double x) {
    double height = reader.patchHeightMm();
    bars.add(new BoxMm(x, y, START_BAR_MM, height));
    arrows.add(new BoxMm(x + 2.3, y + height / 2 - 1.2, 2.1, 2.4));
    String number = Integer.toString(row);
    double cap = 0.72 * CAPTION_PT * MM_PER_PT;
    texts.add(new Text(x + 5.2, y + height / 2 - cap / 2, CAPTION_PT, number));
  }

  private void addPatchLabel(PrintedPatch patch, double left) {
    StringBuilder label = new StringBuilder();
    if (patch.jobRole().isPresent()) {
      label.append(StripLayout.id('J', ++jobs));
    }
    if (patch.standardRole().isPresent()) {
      label.append(label.length() == 0 ? "" : " ").append(StripLayout.id('S', ++standards));
    }
    labels.add(label.toString());
    double size = PATCH_LABEL_PT;
    double room = reader.patchWidthMm() - 0.4;
    double wide = width.mm(label.toString(), size);
    if (wide > room) {
      size *= room / wide;
      wide = room;
    }
    double x = left + (reader.patchWidthMm() - wide) / 2;
    texts.add(new Text(x, y - PATCH_LABEL_BELOW_MM, size, label.toString()));
  }

  /** A divider is black or bare, whichever differs more in density from both its neighbours. */
  private void addDivider(PrintedPatch before, PrintedPatch after, double x) {
    double one = density(before.aim().lab());
    double other = density(after.aim().lab());
    double bare = Math.min(one, other);
    double black = Math.min(Math.abs(1.7 - one), Math.abs(1.7 - other));
    if (black > bare) {
      bars.add(new BoxMm(x, y, reader.dividerMm(), reader.patchHeightMm()));
    }
  }

  /** Visual density above paper, roughly: −lg Y with Y from L* (CIE 15). */
  private static double density(Lab lab) {
    double f = (lab.l() + 16) / 116;
    double luminance = lab.l() > 8 ? f * f * f : lab.l() / 903.3;
    return Math.max(0, -Math.log10(Math.max(luminance, 1e-3)) - 0.06);
  }
}
