package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.ink.InkMixture;

/**
 * A strip laid out in millimetres, its text reading from left to right: the job's rows at the
 * bottom, the standard's above them, text below and above. Rows and columns count from the lower
 * left.
 */
public final class StripLayout {
  /**
   * A patch in its place.
   *
   * @param row counted from 1, from the bottom
   * @param column counted from 1
   */
  public record Placed(PrintedPatch patch, int row, int column, BoxMm box) {}

  private final String stripId;
  private final double widthMm;
  private final double heightMm;
  private final List<Placed> placed;
  private final List<String> labels;
  private final double leastContrast;
  private final double contrastBound;
  private final StripDrawing drawing;

  private StripLayout(
      String stripId,
      double widthMm,
      double heightMm,
      List<Placed> placed,
      List<String> labels,
      double leastContrast,
      double contrastBound,
      StripDrawing drawing) {
    this.stripId = stripId;
    this.widthMm = widthMm;
    this.heightMm = heightMm;
    this.placed = List.copyOf(placed);
    this.labels = List.copyOf(labels);
    this.leastContrast = leastContrast;
    this.contrastBound = contrastBound;
    this.drawing = drawing;
  }

  /** The shortest edge that a strip for this reader fits on, in millimetres. */
  public static double shortestMm(ReaderGeometry reader) {
    return StripRows.lengthMm(reader, 4) + 2 * StripComposer.QUIET_MM;
  }

  /**
   * Lays a strip out.
   *
   * @param availableMm how long it may be, at least {@link #shortestMm}
   * @param width of text in the font that will be used
   */
  public static StripLayout of(
      StripContent content, ReaderGeometry reader, double availableMm, TextWidth width) {
    if (!(availableMm >= shortestMm(reader))) {
      throw new IllegalArgumentException(
          "a strip of at most " + availableMm + " mm, at least " + shortestMm(reader));
    }
    int capacity =
        StripRows.capacity(
            reader, Math.min(availableMm - 2 * StripComposer.QUIET_MM, reader.longestRowMm()));
    List<List<PrintedPatch>> jobRows =
        content.inJobOrder()
            ? StripRows.inOrder(content.paper(), content.job(), capacity)
            : StripRows.of(content.paper(), content.job(), capacity);
    List<List<PrintedPatch>> standardRows =
        StripRows.of(content.paper(), content.standard(), capacity);
    if (jobRows.isEmpty() && standardRows.isEmpty()) {
      standardRows = List.of(List.of(content.paper()));
    }
    List<String> printed = new ArrayList<>();
    double leastContrast = Double.POSITIVE_INFINITY;
    for (List<List<PrintedPatch>> rows : List.of(jobRows, standardRows)) {
      for (List<PrintedPatch> row : rows) {
        row.forEach(patch -> printed.add(asText(patch)));
        leastContrast = Math.min(leastContrast, leastContrast(row));
      }
    }
    String stripId = StripId.of(content.jobSha256(), content.page(), printed);
    StripComposer composer =
        new StripComposer(content, reader, width, availableMm, jobRows, standardRows, stripId);
    return new StripLayout(
        stripId,
        composer.widthMm(),
        composer.heightMm(),
        composer.placed(),
        composer.labels(),
        leastContrast,
        Math.min(bound(jobRows), bound(standardRows)),
        composer.drawing());
  }

  private static String asText(PrintedPatch patch) {
    StringBuilder text = new StringBuilder();
    text.append(patch.jobRole().isPresent()).append(patch.standardRole().isPresent());
    patch
        .mixture()
        .units()
        .forEach((ink, tint) -> text.append('|').append(ink.name()).append('=').append(tint));
    return text.toString();
  }

  private static double leastContrast(List<PrintedPatch> row) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 1; i < row.size(); i++) {
      Lab before = row.get(i - 1).aim().lab();
      least = Math.min(least, ColorDifference.de76(before, row.get(i).aim().lab()));
    }
    return least;
  }

  private static double bound(List<List<PrintedPatch>> rows) {
    List<Lab> colors = rows.stream().flatMap(List::stream).map(patch -> patch.aim().lab()).toList();
    return PatchOrder.bound(colors, rows.size());
  }

  /** The strip's name. */
  public String stripId() {
    return stripId;
  }

  /** Along the rows, in millimetres. */
  public double widthMm() {
    return widthMm;
  }

  /** Across the rows, in millimetres. */
  public double heightMm() {
    return heightMm;
  }

  /** The patches that are printed, by row and column. */
  public List<Placed> placed() {
    return placed;
  }

  /** Everything else that is printed. */
  public StripDrawing drawing() {
    return drawing;
  }

  /** The least ΔE*ab between two neighbours of a row; infinite where no patch has a neighbour. */
  public double leastContrast() {
    return leastContrast;
  }

  /**
   * The rows of job patches, counted from 1, that differ from themselves read backwards by less
   * than ΔE*ab {@value PatchOrder#LEAST_REVERSAL} everywhere.
   */
  public List<Integer> rowsAlikeBackwards() {
    Map<Integer, List<PrintedPatch>> rows = new TreeMap<>();
    for (Placed place : placed) {
      rows.computeIfAbsent(place.row(), row -> new ArrayList<>()).add(place.patch());
    }
    List<Integer> alike = new ArrayList<>();
    rows.forEach(
        (row, patches) -> {
          boolean ofJob = patches.stream().anyMatch(patch -> patch.standardRole().isEmpty());
          if (ofJob && reversal(patches) < PatchOrder.LEAST_REVERSAL) {
            alike.add(row);
          }
        });
    return alike;
  }

  private static double reversal(List<PrintedPatch> row) {
    double reversal = 0;
    for (int i = 0; i < row.size() / 2; i++) {
      Lab end = row.get(row.size() - 1 - i).aim().lab();
      reversal = Math.max(reversal, ColorDifference.de76(row.get(i).aim().lab(), end));
    }
    return reversal;
  }

  /** What {@link #leastContrast} could not exceed in any order of the same rows. */
  public double contrastBound() {
    return contrastBound;
  }

  /**
   * The patches as results name them, by row and column; one that serves both sets stands twice.
   *
   * @param turned whether the strip lies with its rows upright, a quarter turn counter-clockwise:
   *     boxes are then told from the lower left corner of the strip as it lies on the page
   */
  public List<Patch> patches(boolean turned) {
    List<Patch> patches = new ArrayList<>();
    int jobs = 0;
    int standards = 0;
    for (Placed place : placed) {
      BoxMm box = turned ? turned(place.box()) : place.box();
      PrintedPatch patch = place.patch();
      if (patch.jobRole().isPresent()) {
        String id = id('J', ++jobs);
        patches.add(patch(id, PatchSet.JOB, patch.jobRole(), place, box));
      }
      if (patch.standardRole().isPresent()) {
        String id = id('S', ++standards);
        patches.add(patch(id, PatchSet.STANDARD, patch.standardRole(), place, box));
      }
    }
    return patches;
  }

  /** What is written below each printed patch, in the order of {@link #placed()}. */
  List<String> labels() {
    return labels;
  }

  static String id(char set, int number) {
    return String.format(Locale.ROOT, "%c%02d", set, number);
  }

  private static Patch patch(
      String id, PatchSet set, Optional<String> role, Placed place, BoxMm box) {
    PrintedPatch patch = place.patch();
    InkMixture mixture = patch.mixture();
    return new Patch(
        id,
        set,
        role.orElseThrow(),
        mixture,
        patch.aim(),
        patch.areaPercent(),
        set == PatchSet.JOB ? patch.representsPercent() : 0,
        place.row(),
        place.column(),
        box,
        set == PatchSet.JOB ? patch.reason() : Optional.empty(),
        set == PatchSet.JOB ? patch.where() : Optional.empty());
  }

  private BoxMm turned(BoxMm box) {
    double xMm = heightMm - box.yMm() - box.heightMm();
    return new BoxMm(xMm, box.xMm(), /* widthMm= */ box.heightMm(), /* heightMm= */ box.widthMm());
  }
}
