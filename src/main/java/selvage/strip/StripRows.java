package selvage.strip;

import java.util.ArrayList;
import java.util.List;
import selvage.color.Lab;

/** Patches shared out among rows of about equal length, each with a substrate patch. */
final class StripRows {
  private StripRows() {}

  /** The length of a row of so many patches, leader and trailer with it, in millimetres. */
  static double lengthMm(ReaderGeometry reader, int patches) {
    return reader.leaderMm() + patches * reader.pitchMm() - reader.dividerMm() + reader.trailerMm();
  }

  /** How many patches a row of this length holds. */
  static int capacity(ReaderGeometry reader, double lengthMm) {
    double forPatches =
        lengthMm - reader.leaderMm() - reader.trailerMm() + reader.dividerMm() + 1e-6;
    return (int) (forPatches / reader.pitchMm());
  }

  /**
   * Arranges patches.
   *
   * @param capacity patches a row, the substrate patch with them; at least 2
   * @return no row where there is no patch
   */
  static List<List<PrintedPatch>> of(PrintedPatch paper, List<PrintedPatch> patches, int capacity) {
    if (patches.isEmpty()) {
      return List.of();
    }
    int rowCount = count(patches, capacity);
    List<PrintedPatch> items = new ArrayList<>();
    for (int row = 0; row < rowCount; row++) {
      items.add(paper);
    }
    items.addAll(patches);
    List<Lab> colors = items.stream().map(item -> item.aim().lab()).toList();
    List<List<PrintedPatch>> rows = new ArrayList<>();
    for (List<Integer> row : PatchOrder.arrange(colors, rowCount)) {
      rows.add(row.stream().map(items::get).toList());
    }
    return rows;
  }

  private static int count(List<PrintedPatch> patches, int capacity) {
    return (patches.size() + capacity - 2) / (capacity - 1);
  }

  /**
   * Shares patches out in their order; each row begins with its substrate patch.
   *
   * @param capacity patches a row, the substrate patch with them; at least 2
   * @return no row where there is no patch
   */
  static List<List<PrintedPatch>> inOrder(
      PrintedPatch paper, List<PrintedPatch> patches, int capacity) {
    int rowCount = count(patches, capacity);
    List<List<PrintedPatch>> rows = new ArrayList<>();
    int next = 0;
    for (int row = 0; row < rowCount; row++) {
      int share = patches.size() / rowCount + (row < patches.size() % rowCount ? 1 : 0);
      List<PrintedPatch> items = new ArrayList<>(List.of(paper));
      items.addAll(patches.subList(next, next + share));
      next += share;
      rows.add(items);
    }
    return rows;
  }
}
