package selvage.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import selvage.ink.Tint;
import selvage.survey.Census;

/** The rows of a census that stand for its spots, each kind by falling area. */
final class SpotRows {
  /** Overprints of a smaller share of the inked area count as none. */
  static final double LEAST_OVERPRINT_PERCENT = 0.5;

  private final Census census;
  private final int[] spots; // columns
  private final List<Integer> leading = new ArrayList<>();
  private final List<Integer> tints = new ArrayList<>();
  private final List<Integer> overprints = new ArrayList<>();

  /**
   * Looks for them.
   *
   * @param inked samples of the census that bear ink
   */
  SpotRows(Census census, double inked) {
    this.census = census;
    int[] columns = new int[census.colorants().size()];
    int found = 0;
    for (int c = 0; c < columns.length; c++) {
      if (census.colorants().get(c).isSpot()) {
        columns[found++] = c;
      }
    }
    this.spots = Arrays.copyOf(columns, found);
    if (found > 0) {
      look(LEAST_OVERPRINT_PERCENT / 100 * inked);
    }
  }

  /** The columns of the spots. */
  int[] spots() {
    return spots.clone();
  }

  /**
   * Each spot's solid; where the job never prints it alone and solid, its largest pure tint, else
   * its largest mixture.
   */
  List<Integer> leading() {
    return leading;
  }

  /** Flat tints of one spot alone, less than solid; leading rows may be among them. */
  List<Integer> tints() {
    return tints;
  }

  /** Flat mixtures of a spot with other inks, of some area. */
  List<Integer> overprints() {
    return overprints;
  }

  /** Whether two rows have the same spots. */
  boolean haveSameSpots(int row, int other) {
    for (int spot : spots) {
      if ((census.tint(row, spot) > 0) != (census.tint(other, spot) > 0)) {
        return false;
      }
    }
    return true;
  }

  /** Whether two rows have a spot in common. */
  boolean shareSpot(int row, int other) {
    for (int spot : spots) {
      if (census.tint(row, spot) > 0 && census.tint(other, spot) > 0) {
        return true;
      }
    }
    return false;
  }

  private void look(double leastOverprint) {
    int[] solid = unknown();
    int[] pure = unknown();
    int[] any = unknown();
    char[] tint = census.tints();
    int width = census.colorants().size();
    int size = census.size();
    for (int row = 0; row < size; row++) {
      int anySpot = 0;
      for (int column : spots) {
        anySpot |= tint[row * width + column];
      }
      if (anySpot == 0) {
        continue;
      }
      int spot = -1;
      int inks = 0;
      for (int s = 0; s < spots.length; s++) {
        if (tint[row * width + spots[s]] > 0) {
          inks++;
          spot = s;
          any[s] = any[s] < 0 ? row : any[s];
        }
      }
      boolean flat = Candidates.isFlat(census, row);
      if (inks > 1 || hasProcess(row)) {
        if (flat && census.samples(row) >= leastOverprint) {
          overprints.add(row);
        }
        continue;
      }
      pure[spot] = pure[spot] < 0 ? row : pure[spot];
      if (census.tint(row, spots[spot]) == Tint.FULL) {
        solid[spot] = row;
      } else if (flat) {
        tints.add(row);
      }
    }
    for (int s = 0; s < spots.length; s++) {
      int row = solid[s] >= 0 ? solid[s] : pure[s] >= 0 ? pure[s] : any[s];
      if (row >= 0 && !leading.contains(row)) {
        leading.add(row);
      }
    }
    leading.sort(null); // rows lie in order of area
  }

  private int[] unknown() {
    int[] rowOfSpot = new int[spots.length];
    Arrays.fill(rowOfSpot, -1);
    return rowOfSpot;
  }

  private boolean hasProcess(int row) {
    for (int c = 0; c < census.colorants().size(); c++) {
      if (census.tint(row, c) > 0 && !census.colorants().get(c).isSpot()) {
        return true;
      }
    }
    return false;
  }
}
