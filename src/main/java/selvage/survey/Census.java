package selvage.survey;

import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import selvage.color.Aim;
import selvage.color.AimModel;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;
import selvage.ink.Tint;

/**
 * The distinct ink mixtures of a page and how many samples each covers, largest area first; paper
 * is among them. Held in columns, because a photograph has hundreds of thousands.
 */
public final class Census {
  private final List<Colorant> colorants;
  private final char[] tints; // size × colorants, in Tint units
  private final long[] samples;
  private final int[] kinds;
  private final AimModel aims; // null where the colours were given
  private volatile float[] lab; // size × 3; null until they are asked for in bulk
  private AimSource[] labSources;
  private final long total;
  private final int paper;
  private final ColorMap map; // null where the colours were given

  /**
   * Takes the columns as they are, without copying.
   *
   * @param colorants the colorants of the tint columns
   * @param tints row by row, one value in {@link Tint} units a colorant
   * @param samples how many samples each row covers, falling
   * @param kinds bits of {@link selvage.separation.ObjectKind} a row
   * @param lab L*, a*, b* a row, absolute
   * @param labSources a source a row
   */
  public Census(
      List<Colorant> colorants,
      char[] tints,
      long[] samples,
      int[] kinds,
      float[] lab,
      AimSource[] labSources) {
    int size = samples.length;
    if (tints.length != size * colorants.size()
        || kinds.length != size
        || lab.length != 3 * size
        || labSources.length != size) {
      throw new IllegalArgumentException("census columns of unequal length");
    }
    this.colorants = List.copyOf(colorants);
    this.tints = tints;
    this.samples = samples;
    this.kinds = kinds;
    this.aims = null;
    this.map = null;
    this.lab = lab;
    this.labSources = labSources;
    this.total = sum(samples);
    this.paper = paperRow();
  }

  /**
   * Takes the columns as they are, without copying; colours are worked out when they are asked for.
   *
   * @param colorants the colorants of the tint columns
   * @param tints row by row, one value in {@link Tint} units a colorant
   * @param samples how many samples each row covers, falling
   * @param kinds bits of {@link selvage.separation.ObjectKind} a row
   * @param aims knows every spot among the colorants
   * @param map where the rows lie
   */
  Census(
      List<Colorant> colorants,
      char[] tints,
      long[] samples,
      int[] kinds,
      AimModel aims,
      ColorMap map) {
    if (tints.length != samples.length * colorants.size() || kinds.length != samples.length) {
      throw new IllegalArgumentException("census columns of unequal length");
    }
    this.colorants = List.copyOf(colorants);
    this.tints = tints;
    this.samples = samples;
    this.kinds = kinds;
    this.aims = aims;
    this.map = map;
    this.total = sum(samples);
    this.paper = paperRow();
  }

  private static long sum(long[] samples) {
    long sum = 0;
    for (long count : samples) {
      sum += count;
    }
    return sum;
  }

  private int paperRow() {
    int columns = colorants.size();
    for (int row = 0; row < samples.length; row++) {
      int column = 0;
      while (column < columns && tints[row * columns + column] == 0) {
        column++;
      }
      if (column == columns) {
        return row;
      }
    }
    return -1;
  }

  /**
   * The colours of all rows in single precision: L*, a*, b* a row. The array is the census's own,
   * for loops over hundreds of thousands of rows; nobody may write to it.
   */
  public float[] labs() {
    float[] known = lab;
    return known != null ? known : computedLabs();
  }

  private synchronized float[] computedLabs() {
    if (lab == null) {
      float[] computed = new float[3 * size()];
      labSources = new AimSource[size()];
      aims.aims(colorants, tints, computed, labSources);
      lab = computed;
    }
    return lab;
  }

  /** Where the rows lie on the page; empty for a census that is not of one page. */
  public Optional<ColorMap> map() {
    return Optional.ofNullable(map);
  }

  /** The number of distinct mixtures. */
  public int size() {
    return samples.length;
  }

  /** The colorants of the page, in their order. */
  public List<Colorant> colorants() {
    return colorants;
  }

  /** The tint of a row's colorant (an index into {@link #colorants()}) in Tint units. */
  public int tint(int row, int colorant) {
    return tints[row * colorants.size() + colorant];
  }

  /**
   * The tints of all rows in {@link Tint} units, one a colorant, row by row. The array is the
   * census's own, for loops over hundreds of thousands of rows; nobody may write to it.
   */
  public char[] tints() {
    return tints;
  }

  /** How many samples of the counted area a row covers. */
  public long samples(int row) {
    return samples[row];
  }

  /** All samples of the counted area, paper among them. */
  public long totalSamples() {
    return total;
  }

  /** A row's share of the counted area in percent. */
  public double areaPercent(int row) {
    return total == 0 ? 0 : 100.0 * samples[row] / total;
  }

  /** The bits of {@link selvage.separation.ObjectKind} that made a row. */
  public int kindBits(int row) {
    return kinds[row];
  }

  /** Whether a row is unprinted substrate. */
  public boolean isPaper(int row) {
    return row == paper;
  }

  /** A row's colour and where it comes from. */
  public Aim aim(int row) {
    if (aims != null) {
      return aims.aim(mixture(row));
    }
    return new Aim(new Lab(lab[3 * row], lab[3 * row + 1], lab[3 * row + 2]), labSources[row]);
  }

  /** One coordinate of a row's colour, in single precision: 0 is L*, 1 a*, 2 b*. */
  public float lab(int row, int axis) {
    return labs()[3 * row + axis];
  }

  /** A row's mixture as a value. */
  public InkMixture mixture(int row) {
    TreeMap<Colorant, Integer> units = new TreeMap<>();
    for (int c = 0; c < colorants.size(); c++) {
      units.put(colorants.get(c), tint(row, c));
    }
    return InkMixture.ofUnits(units);
  }

  /** The share of the counted area that bears ink, in percent. */
  public double inkedPercent() {
    double inked = 0;
    for (int row = 0; row < size(); row++) {
      if (!isPaper(row)) {
        inked += areaPercent(row);
      }
    }
    return inked;
  }

  /** The mean tint of a colorant over the counted area, in percent. */
  public double meanPercent(int colorant) {
    double sum = 0;
    for (int row = 0; row < size(); row++) {
      sum += (double) tint(row, colorant) * samples[row];
    }
    return total == 0 ? 0 : 100.0 * sum / total / Tint.FULL;
  }
}
