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

  /** Areas below this many samples are sorted by counting. */
  private static final int COUNTED = 256;

  private static final int COMPUTED = ObjectKind.IMAGE.bit() | ObjectKind.SHADING.bit();

  /** Coarse scales, in Tint units: 6, 5 and 4 bits. */
  private static final int[] STEPS = {1, 4 * Tint.PER_BYTE, 8 * Tint.PER_BYTE, 17 * Tint.PER_BYTE};

  private final PageGeometry.Window window;
  private List<Colorant> colorants = Colorant.PROCESS;
  private RowTable mixtures = new RowTable(colorants.size());
  private long[] samples = new long[1024];
  private int[] kinds = new int[1024];
  private int coarseness;

  /**
   * Begins the census of a page.
   *
   * @param window what is counted
   */
  public CensusBuilder(PageGeometry.Window window) {
    this.window = window;
  }

  /** Whether image mixtures were counted on a coarser scale. */
  public boolean isCoarse() {
    return coarseness > 0;
  }

  @Override
  public void take(Band band) throws IOException {
    int[] counts = new int[band.stateCount()];
    int top = Math.max(window.top(), band.firstRow());
    int bottom = Math.min(window.bottom(), band.firstRow() + band.rows());
    for (int y = top; y < bottom; y++) {
      int end;
      for (int x = window.left(); x < window.right(); x = end) {
        end = band.runEnd(x, y, window.right());
        counts[band.state(x, y)] += end - x;
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
    for (int state = 0; state < counts.length; state++) {
      if (counts[state] > 0) {
        for (int c = 0; c < row.length; c++) {
          row[c] = (char) band.tint(state, c);
        }
        add(row, counts[state], band.kindBits(state));
      }
    }
  }

  private void add(char[] row, long count, int kindBits) {
    if (coarseness > 0 && (kindBits & ~COMPUTED) == 0) {
      coarsen(row);
    }
    int number = mixtures.intern(row);
    if (number >= samples.length) {
      samples = Arrays.copyOf(samples, 2 * samples.length);
      kinds = Arrays.copyOf(kinds, 2 * kinds.length);
    }
    samples[number] += count;
    kinds[number] |= kindBits;
    if (mixtures.size() > MOST_MIXTURES && coarseness + 1 < STEPS.length) {
      recount();
    }
  }

  private void coarsen(char[] row) {
    int step = STEPS[coarseness];
    for (int c = 0; c < row.length; c++) {
      row[c] = (char) Math.min(Tint.FULL, (row[c] + step / 2) / step * step);
    }
  }

  private void recount() {
    coarseness++;
    RowTable fine = mixtures;
    long[] fineSamples = samples;
    int[] fineKinds = kinds;
    mixtures = new RowTable(fine.stride());
    samples = new long[1024];
    kinds = new int[1024];
    char[] row = fine.newRow();
    for (int i = 0; i < fine.size(); i++) {
      fine.read(i, row);
      add(row, fineSamples[i], fineKinds[i]);
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
    char[] row = mixtures.newRow();
    for (int i = 0; i < size; i++) {
      int number = order[i];
      mixtures.read(number, row);
      System.arraycopy(row, 0, tints, i * columns, columns);
      counts[i] = samples[number];
      kindBits[i] = kinds[number];
    }
    return new Census(colorants, tints, counts, kindBits, aims);
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
