package selvage.strip;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import selvage.color.AimSource;
import selvage.ink.Colorant;
import selvage.survey.Census;

/** The censuses of several pages as one, for a strip that stands for a whole job. */
public final class MergedCensus {
  /** A row's tints, for comparison. */
  private static final class Key {
    private final char[] tints;

    private Key(char[] tints) {
      this.tints = tints;
    }

    @Override
    public boolean equals(Object other) {
      return other instanceof Key key && Arrays.equals(tints, key.tints);
    }

    @Override
    public int hashCode() {
      return Arrays.hashCode(tints);
    }
  }

  private static final class Row {
    private final Key key;
    private final Census census;
    private final int row;
    private long samples;
    private int kinds;

    private Row(Key key, Census census, int row) {
      this.key = key;
      this.census = census;
      this.row = row;
    }
  }

  private MergedCensus() {}

  /**
   * Adds censuses up. Each page weighs by its counted area; a mixture that several have takes its
   * colour from the first.
   *
   * @param censuses at least one, of the same resolution
   */
  public static Census of(List<Census> censuses) {
    if (censuses.size() == 1) {
      return censuses.get(0);
    }
    TreeSet<Colorant> all = new TreeSet<>();
    censuses.forEach(census -> all.addAll(census.colorants()));
    List<Colorant> colorants = List.copyOf(all);
    Map<Key, Row> rows = new HashMap<>();
    for (Census census : censuses) {
      int[] place = new int[census.colorants().size()];
      for (int c = 0; c < place.length; c++) {
        place[c] = colorants.indexOf(census.colorants().get(c));
      }
      for (int row = 0; row < census.size(); row++) {
        char[] tints = new char[colorants.size()];
        for (int c = 0; c < place.length; c++) {
          tints[place[c]] = (char) census.tint(row, c);
        }
        Key key = new Key(tints);
        Row merged = rows.get(key);
        if (merged == null) {
          merged = new Row(key, census, row);
          rows.put(key, merged);
        }
        merged.samples += census.samples(row);
        merged.kinds |= census.kindBits(row);
      }
    }
    Row[] sorted = rows.values().toArray(new Row[0]);
    Arrays.sort(
        sorted,
        (one, other) -> {
          int byArea = Long.compare(other.samples, one.samples);
          return byArea != 0 ? byArea : Arrays.compare(one.key.tints, other.key.tints);
        });
    return census(colorants, sorted);
  }

  private static Census census(List<Colorant> colorants, Row[] rows) {
    int width = colorants.size();
    char[] tints = new char[rows.length * width];
    long[] samples = new long[rows.length];
    int[] kinds = new int[rows.length];
    float[] lab = new float[3 * rows.length];
    AimSource[] sources = new AimSource[rows.length];
    for (int i = 0; i < rows.length; i++) {
      Row row = rows[i];
      System.arraycopy(row.key.tints, 0, tints, i * width, width);
      samples[i] = row.samples;
      kinds[i] = row.kinds;
      for (int axis = 0; axis < 3; axis++) {
        lab[3 * i + axis] = row.census.lab(row.row, axis);
      }
      sources[i] = row.census.aim(row.row).source();
    }
    return new Census(colorants, tints, samples, kinds, lab, sources);
  }
}
