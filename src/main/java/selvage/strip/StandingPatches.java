package selvage.strip;

import java.util.List;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.survey.Census;

/**
 * For every inked row of a census, which patch stands for it: the nearest in the space of colour
 * and inks ({@link InkCells}), the first of equals. Rows of large area are asked one by one, the
 * others by group: all rows of a group, which differ by little more than one ΔE00, go to the patch
 * that is nearest to their mean.
 */
final class StandingPatches {
  private static final int GROUPS_A_TASK = 512;

  /** Rows that cover this share of the inked area are asked by themselves. */
  private static final double LARGE = 0.0005;

  private final Census census;
  private final InkCells groups;
  private final int count;
  private final float[] places; // of the patches, as in InkPlaces
  private final float[] apart; // what inks that the census does not have add to the square
  private final short[] patchOfGroup;
  private final short[] patchOfLarge; // by row; the largest stand first in a census
  private final double[] samples;

  private StandingPatches(
      Census census, InkCells groups, List<InkMixture> mixtures, List<Lab> aims) {
    this.census = census;
    this.groups = groups;
    this.count = mixtures.size();
    int dimensions = groups.places().dimensions();
    this.places = new float[count * dimensions];
    this.apart = new float[count];
    for (int patch = 0; patch < count; patch++) {
      place(mixtures.get(patch), aims.get(patch), patch, dimensions);
    }
    this.patchOfGroup = new short[groups.places().size()];
    double inked = 0;
    for (int group = 0; group < patchOfGroup.length; group++) {
      inked += groups.places().weight(group);
    }
    int large = 0;
    while (large < census.size() && census.samples(large) >= LARGE * inked) {
      large++;
    }
    this.patchOfLarge = new short[large];
    this.samples = new double[count];
  }

  /**
   * Searches.
   *
   * @param groups of the census
   * @param mixtures of the patches, at least one; their inks may be others than the census has
   * @param aims of the patches
   */
  static StandingPatches of(
      Census census, InkCells groups, List<InkMixture> mixtures, List<Lab> aims) {
    StandingPatches standing = new StandingPatches(census, groups, mixtures, aims);
    Parallel.each(groups.places().size(), GROUPS_A_TASK, standing::findOfGroups);
    standing.findOfLarge();
    return standing;
  }

  private void place(InkMixture mixture, Lab aim, int patch, int dimensions) {
    int at = patch * dimensions;
    EvenSpace.place((float) aim.l(), (float) aim.a(), (float) aim.b(), places, at);
    List<Colorant> colorants = census.colorants();
    for (int c = 0; c < colorants.size(); c++) {
      places[at + 3 + c] = InkCells.coordinate(mixture.units(colorants.get(c)));
    }
    mixture
        .units()
        .forEach(
            (colorant, units) -> {
              if (!colorants.contains(colorant)) {
                apart[patch] += InkCells.coordinate(units) * InkCells.coordinate(units);
              }
            });
  }

  private void findOfGroups(int from, int to) {
    for (int group = from; group < to; group++) {
      float least = Float.MAX_VALUE;
      for (int patch = 0; patch < count; patch++) {
        float squared = squared(groups.places(), group, patch);
        if (squared < least) {
          least = squared;
          patchOfGroup[group] = (short) patch;
        }
      }
    }
  }

  private float squared(InkPlaces means, int group, int patch) {
    int dimensions = means.dimensions();
    float sum = apart[patch];
    for (int d = 0; d < dimensions; d++) {
      float difference =
          means.coordinates()[group * dimensions + d] - places[patch * dimensions + d];
      sum += difference * difference;
    }
    return sum;
  }

  /** Asks the large rows, and adds up. */
  private void findOfLarge() {
    for (int group = 0; group < patchOfGroup.length; group++) {
      samples[patchOfGroup[group]] += groups.places().weight(group);
    }
    for (int row = 0; row < patchOfLarge.length; row++) {
      int group = groups.groupOf(row);
      if (group < 0) {
        patchOfLarge[row] = -1;
        continue;
      }
      float least = Float.MAX_VALUE;
      for (int patch = 0; patch < count; patch++) {
        float squared = apart[patch] + groups.squared(row, places, patch);
        if (squared < least) {
          least = squared;
          patchOfLarge[row] = (short) patch;
        }
      }
      samples[patchOfGroup[group]] -= census.samples(row);
      samples[patchOfLarge[row]] += census.samples(row);
    }
  }

  /** The index of the patch that stands for a row; -1 for paper. */
  int patch(int row) {
    if (row < patchOfLarge.length) {
      return patchOfLarge[row];
    }
    int group = groups.groupOf(row);
    return group < 0 ? -1 : patchOfGroup[group];
  }

  /** The samples for which a patch stands. */
  double samples(int patch) {
    return samples[patch];
  }
}
