package selvage.survey;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import selvage.color.AimModel;
import selvage.ink.Colorant;
import selvage.ink.RowTable;
import selvage.ink.Tint;
import selvage.separation.Band;
import selvage.separation.BandSink;
import selvage.separation.ObjectKind;
import selvage.separation.PageGeometry;

/**
 * Counts the samples of each distinct mixture in a window of the page, band by band.
 *
 * <p>Memory is bounded: when a page has more distinct mixtures than {@value #MOST_MIXTURES}, those
 * that only images and shadings made are counted on a coarser scale. Authored tints stay exact.
 */
public final class CensusBuilder implements BandSink {
  private static final int MOST_MIXTURES = 800_000;

  private static final long MOST_PLACES = 8_000_000;

  /** Areas below this many samples are sorted by counting. */
  private static final int COUNTED = 256;

  private static final int COMPUTED = ObjectKind.IMAGE.bit() | ObjectKind.SHADING.bit();

  /** Coarse scales, in Tint units: 6, 5 and 4 bits. */
  private static final int[] STEPS = {1, 4 * Tint.PER_BYTE, 8 * Tint.PER_BYTE, 17 * Tint.PER_BYTE};

  private final PageGeometry.Window window;
  private final int mapStep;
  private List<Colorant> colorants = Colorant.PROCESS;
  private RowTable mixtures = new RowTable(colorants.size());
  private long[] samples = new long[1024];
  private int[] kinds = new int[1024];
  private long[] first = new long[1024];
  private final int[] numberAt; // by place of the map
  private int[] numberOfState = {}; // of the band that is being taken
  private int coarseness;

  /**
   * Begins the census of a page.
   *
   * @param window what is counted
   */
  public CensusBuilder(PageGeometry.Window window) {
    this(window, ColorMap.DEFAULT_STEP);
  }

  /**
   * Begins the census of a page.
   *
   * @param window what is counted
   * @param mapStep samples from one place of the {@link ColorMap} to the next, at least 1; more
   *     where the map would have over {@value #MOST_PLACES} places
   */
  public CensusBuilder(PageGeometry.Window window, int mapStep) {
    if (mapStep < 1) {
      throw new IllegalArgumentException("a map with a step of " + mapStep + ", at least 1");
    }
    this.window = window;
    this.mapStep = bounded(window, mapStep);
    this.numberAt = new int[places(width()) * places(window.bottom() - window.top())];
  }

  private static int bounded(PageGeometry.Window window, int mapStep) {
    int step = mapStep;
    while (window.count() / ((long) step * step) > MOST_PLACES) {
      step++;
    }
    return step;
  }

  private int places(int samples) {
    return ColorMap.places(samples, mapStep);
  }

  private int width() {
    return window.right() - window.left();
  }

  /** Whether image mixtures were counted on a coarser scale. */
  public boolean isCoarse() {
    return coarseness > 0;
  }

  @Override
  public void take(Band band) throws IOException {
    int[] counts = new int[band.stateCount()];
    long[] firstOfState = new long[counts.length];
    int top = Math.max(window.top(), band.firstRow());
    int bottom = Math.min(window.bottom(), band.firstRow() + band.rows());
    for (int y = top; y < bottom; y++) {
      int end;
      for (int x = window.left(); x < window.right(); x = end) {
        end = band.runEnd(x, y, window.right());
        int state = band.state(x, y);
        if (counts[state] == 0) {
          firstOfState[state] = (long) (y - window.top()) * width() + x - window.left();
        }
        counts[state] += end - x;
      }
    }
    colorants = band.colorants();
    mixtures.widen(colorants.size());
    int used = 0;
    for (int count : counts) {
      used += count > 0 ? 1 : 0;
    }
    mixtures.reserve(mixtures.size() + used);
    char[] row = mixtures.newRow();
    numberOfState = new int[counts.length];
    for (int state = 0; state < counts.length; state++) {
      if (counts[state] > 0) {
        for (int c = 0; c < row.length; c++) {
          row[c] = (char) band.tint(state, c);
        }
        numberOfState[state] = add(row, counts[state], band.kindBits(state), firstOfState[state]);
        if (mixtures.size() > MOST_MIXTURES && coarseness + 1 < STEPS.length) {
          recount(state + 1);
        }
      }
    }
    map(band, top, bottom);
    numberOfState = new int[0];
  }

  private void map(Band band, int top, int bottom) {
    int columns = places(width());
    int line = places(top - window.top());
    for (int y = window.top() + line * mapStep; y < bottom; y += mapStep) {
      int at = line++ * columns;
      for (int x = window.left(); x < window.right(); x += mapStep) {
        numberAt[at++] = numberOfState[band.state(x, y)];
      }
    }
  }

  private int add(char[] row, long count, int kindBits, long firstSample) {
    if (coarseness > 0 && (kindBits & ~COMPUTED) == 0) {
      coarsen(row);
    }
    int number = mixtures.intern(row);
    if (number >= samples.length) {
      samples = Arrays.copyOf(samples, 2 * samples.length);
      kinds = Arrays.copyOf(kinds, 2 * kinds.length);
      first = Arrays.copyOf(first, 2 * first.length);
    }
    if (samples[number] == 0 || firstSample < first[number]) {
      first[number] = firstSample;
    }
    samples[number] += count;
    kinds[number] |= kindBits;
    return number;
  }

  private void coarsen(char[] row) {
    int step = STEPS[coarseness];
    for (int c = 0; c < row.length; c++) {
      row[c] = (char) Math.min(Tint.FULL, (row[c] + step / 2) / step * step);
    }
  }

  /**
   * Counts on the next coarser scale.
   *
   * @param states of the band that is being taken have a number already
   */
  private void recount(int states) {
    coarseness++;
    RowTable fine = mixtures;
    long[] fineSamples = samples;
    int[] fineKinds = kinds;
    long[] fineFirst = first;
    mixtures = new RowTable(fine.stride());
    samples = new long[1024];
    kinds = new int[1024];
    first = new long[1024];
    char[] row = fine.newRow();
    int[] renumbered = new int[fine.size()];
    for (int i = 0; i < fine.size(); i++) {
      fine.read(i, row);
      renumbered[i] = add(row, fineSamples[i], fineKinds[i], fineFirst[i]);
    }
    for (int state = 0; state < states; state++) {
      numberOfState[state] = renumbered[numberOfState[state]];
    }
    for (int at = 0; at < numberAt.length; at++) {
      numberAt[at] = renumbered[numberAt[at]];
    }
  }

  /** The census, with each mixture's colour. */
  public Census build(AimModel aims) {
    int size = mixtures.size();
    int[] order = byFallingArea(size);
    int columns = mixtures.stride();
    char[] tints = new char[size * columns];
    long[] counts = new long[size];
    int[] kindBits = new int[size];
    long[] firsts = new long[size];
    int[] rank = new int[size];
    char[] row = mixtures.newRow();
    for (int i = 0; i < size; i++) {
      int number = order[i];
      mixtures.read(number, row);
      System.arraycopy(row, 0, tints, i * columns, columns);
      counts[i] = samples[number];
      kindBits[i] = kinds[number];
      firsts[i] = first[number];
      rank[number] = i;
    }
    int[] rowAt = new int[numberAt.length];
    for (int at = 0; size > 0 && at < rowAt.length; at++) {
      rowAt[at] = rank[numberAt[at]];
    }
    ColorMap map = new ColorMap(mapStep, width(), window.bottom() - window.top(), rowAt, firsts);
    return new Census(colorants, tints, counts, kindBits, aims, map);
  }

  /**
   * Rows by area, largest first; of equal ones, the one met first. Nearly all rows of a photograph
   * cover a few samples only, so those are placed by counting.
   */
  private int[] byFallingArea(int size) {
    int[] starts = new int[COUNTED + 1];
    int large = 0;
    for (int i = 0; i < size; i++) {
      if (samples[i] < COUNTED) {
        starts[COUNTED - (int) samples[i]]++;
      } else {
        large++;
      }
    }
    int[] order = new int[size];
    long[] keys = new long[large];
    int next = large;
    for (int i = 0; i <= COUNTED; i++) {
      int count = starts[i];
      starts[i] = next;
      next += count;
    }
    large = 0;
    for (int i = 0; i < size; i++) {
      if (samples[i] < COUNTED) {
        order[starts[COUNTED - (int) samples[i]]++] = i;
      } else {
        keys[large++] = ((1L << 31) - samples[i]) << 31 | i;
      }
    }
    Arrays.sort(keys);
    for (int i = 0; i < keys.length; i++) {
      order[i] = (int) (keys[i] & 0x7fffffff);
    }
    return order;
  }
}
