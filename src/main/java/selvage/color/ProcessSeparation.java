package selvage.color;

import java.util.Arrays;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicLongArray;
import selvage.ink.Tint;

/**
 * From a source colour space to the process tints of a printing condition: exactly for single
 * colours, through a grid for images. Safe for use by several threads.
 *
 * <p>Images of three components go through a grid of 33³ colours of the source, those of four
 * through the source's exact colour and a grid of 33³ media-relative Lab colours; a grid point is
 * computed when a pixel first needs it. A megapixel of sRGB then takes 28 ms, and 65 ms with an
 * empty grid (docs/benchmarks.md); separating each of its colours exactly would take seconds.
 */
public final class ProcessSeparation {
  private static final int POINTS = 33;
  private static final int STEP_G = POINTS;
  private static final int STEP_R = POINTS * POINTS;
  private static final long EMPTY = -1; // no tint in Tint units is 65535
  private static final int CACHE_BITS = 14; // CMYK values of a photograph repeat nearby

  private final SourceColor source;
  private final ReferenceCondition condition;
  private final AtomicLongArray grid; // four tints of 16 bits a point

  /** A way from a source to a condition. */
  public ProcessSeparation(SourceColor source, ReferenceCondition condition) {
    this.source = Objects.requireNonNull(source, "source");
    this.condition = Objects.requireNonNull(condition, "condition");
    this.grid = new AtomicLongArray(source.components() == 1 ? 256 : POINTS * POINTS * POINTS);
    for (int i = 0; i < grid.length(); i++) {
      grid.setPlain(i, EMPTY);
    }
  }

  /** The source's number of components. */
  public int components() {
    return source.components();
  }

  /**
   * The tints of one colour, exactly.
   *
   * @param components the source's values, in its own range ({@link SourceColor#low})
   * @param cmyk takes C, M, Y, K as fractions
   */
  public void separate(float[] components, float[] cmyk) {
    double[] values = new double[source.components()];
    for (int i = 0; i < values.length; i++) {
      values[i] = components[i];
    }
    double[] lab = source.relativeLab(values);
    System.arraycopy(condition.separate(new Lab(lab[0], lab[1], lab[2])), 0, cmyk, 0, 4);
  }

  /**
   * The tints of an image's pixels.
   *
   * @param samples8 pixel by pixel, a byte a component; 0 and 255 are the ends of its range
   * @param offset of the first pixel's first byte
   * @param count of pixels
   * @param tintsOut takes C, M, Y, K a pixel in {@link Tint} units, from index 0
   */
  public void separate(byte[] samples8, int offset, int count, char[] tintsOut) {
    switch (source.components()) {
      case 1 -> ofGray(samples8, offset, count, tintsOut);
      case 3 -> ofThree(samples8, offset, count, tintsOut);
      default -> ofFour(samples8, offset, count, tintsOut);
    }
  }

  private void ofGray(byte[] samples, int offset, int count, char[] out) {
    for (int pixel = 0; pixel < count; pixel++) {
      int sample = samples[offset + pixel] & 0xFF;
      long tints = grid.getOpaque(sample);
      if (tints == EMPTY) {
        tints = exact(sample / 255.0);
        grid.setOpaque(sample, tints);
      }
      put(tints, out, 4 * pixel);
    }
  }

  private void ofThree(byte[] samples, int offset, int count, char[] out) {
    int before = -1;
    for (int pixel = 0; pixel < count; pixel++) {
      int at = offset + 3 * pixel;
      int r = samples[at] & 0xFF;
      int g = samples[at + 1] & 0xFF;
      int b = samples[at + 2] & 0xFF;
      int packed = (r << 16) | (g << 8) | b;
      if (packed == before) {
        System.arraycopy(out, 4 * pixel - 4, out, 4 * pixel, 4);
      } else {
        interpolate(r * Tint.PER_BYTE, g * Tint.PER_BYTE, b * Tint.PER_BYTE, out, 4 * pixel);
        before = packed;
      }
    }
  }

  /**
   * The tints of one colour through the grid, for a source of three components.
   *
   * @param red the first component's place in its range, 0 to {@link Tint#FULL}; then the others
   * @param tintsOut takes C, M, Y, K in {@link Tint} units
   * @param at the index of the first in {@code tintsOut}
   */
  public void separate(int red, int green, int blue, char[] tintsOut, int at) {
    if (source.components() != 3) {
      throw new IllegalArgumentException(
          "expected a source of 3 components, found one of " + source.components());
    }
    interpolate(red, green, blue, tintsOut, at);
  }

  /** In tetrahedra, in whole numbers: FULL shares of a cell, as 32 cells span FULL steps. */
  private void interpolate(int r, int g, int b, char[] out, int at) {
    int cellR = Math.min(r * 32 / Tint.FULL, 31);
    int cellG = Math.min(g * 32 / Tint.FULL, 31);
    int cellB = Math.min(b * 32 / Tint.FULL, 31);
    int shareR = r * 32 - cellR * Tint.FULL;
    int shareG = g * 32 - cellG * Tint.FULL;
    int shareB = b * 32 - cellB * Tint.FULL;
    int first = STEP_R;
    int last = 1;
    int most = shareR;
    int middle = shareG;
    int least = shareB;
    if (shareR >= shareG) {
      if (shareG < shareB) {
        last = STEP_G;
        least = shareG;
        middle = shareB;
        if (shareR < shareB) {
          first = 1;
          most = shareB;
          middle = shareR;
        }
      }
    } else if (shareG >= shareB) {
      first = STEP_G;
      most = shareG;
      middle = shareR;
      if (shareR < shareB) {
        middle = shareB;
        least = shareR;
        last = STEP_R;
      }
    } else {
      first = 1;
      most = shareB;
      last = STEP_R;
      least = shareR;
    }
    int p = cellR * STEP_R + cellG * STEP_G + cellB;
    int end = p + STEP_R + STEP_G + 1;
    long t0 = point(p);
    long t1 = most > 0 ? point(p + first) : t0;
    long t2 = middle > 0 ? point(end - last) : t0;
    long t3 = least > 0 ? point(end) : t0;
    int w0 = Tint.FULL - most;
    int w1 = most - middle;
    int w2 = middle - least;
    for (int i = 0; i < 4; i++) {
      int shift = 48 - 16 * i;
      long sum =
          w0 * ((t0 >>> shift) & 0xFFFF)
              + w1 * ((t1 >>> shift) & 0xFFFF)
              + w2 * ((t2 >>> shift) & 0xFFFF)
              + least * ((t3 >>> shift) & 0xFFFF);
      out[at + i] = (char) ((sum + Tint.FULL / 2) / Tint.FULL);
    }
  }

  private long point(int index) {
    long tints = grid.getOpaque(index);
    if (tints == EMPTY) {
      int r = index / STEP_R;
      int g = index / STEP_G % POINTS;
      int b = index % POINTS;
      tints = exact(r / 32.0, g / 32.0, b / 32.0);
      grid.setOpaque(index, tints);
    }
    return tints;
  }

  private void ofFour(byte[] samples, int offset, int count, char[] out) {
    int bits = Math.min(CACHE_BITS, 32 - Integer.numberOfLeadingZeros(count));
    int[] cachedKeys = new int[1 << bits];
    long[] cached = new long[1 << bits];
    Arrays.fill(cached, EMPTY);
    double[] values = new double[4];
    for (int pixel = 0; pixel < count; pixel++) {
      int at = offset + 4 * pixel;
      int key =
          ((samples[at] & 0xFF) << 24)
              | ((samples[at + 1] & 0xFF) << 16)
              | ((samples[at + 2] & 0xFF) << 8)
              | (samples[at + 3] & 0xFF);
      int slot = bits == 0 ? 0 : (key * 0x9E3779B1) >>> (32 - bits);
      if (cached[slot] == EMPTY || cachedKeys[slot] != key) {
        for (int i = 0; i < 4; i++) {
          values[i] = scaled(i, (samples[at + i] & 0xFF) / 255.0);
        }
        cachedKeys[slot] = key;
        cached[slot] = throughLab(source.relativeLab(values));
      }
      put(cached[slot], out, 4 * pixel);
    }
  }

  /** Trilinear in a grid of L* from 0 to 100, a* and b* from −128 to 128. */
  private long throughLab(double[] lab) {
    double l = Math.min(100, Math.max(0, lab[0])) * (32 / 100.0);
    double a = (Math.min(128, Math.max(-128, lab[1])) + 128) / 8;
    double b = (Math.min(128, Math.max(-128, lab[2])) + 128) / 8;
    int il = Math.min((int) l, 31);
    int ia = Math.min((int) a, 31);
    int ib = Math.min((int) b, 31);
    double[] sums = new double[4];
    for (int corner = 0; corner < 8; corner++) {
      int dl = corner >> 2;
      int da = (corner >> 1) & 1;
      int db = corner & 1;
      double weight =
          (dl == 0 ? 1 - l + il : l - il)
              * (da == 0 ? 1 - a + ia : a - ia)
              * (db == 0 ? 1 - b + ib : b - ib);
      if (weight > 0) {
        long tints = labPoint(il + dl, ia + da, ib + db);
        for (int i = 0; i < 4; i++) {
          sums[i] += weight * ((tints >>> (48 - 16 * i)) & 0xFFFF);
        }
      }
    }
    return pack(sums[0], sums[1], sums[2], sums[3]);
  }

  private long labPoint(int l, int a, int b) {
    int index = l * STEP_R + a * STEP_G + b;
    long tints = grid.getOpaque(index);
    if (tints == EMPTY) {
      tints = packed(condition.separate(new Lab(l * (100 / 32.0), 8 * a - 128, 8 * b - 128)));
      grid.setOpaque(index, tints);
    }
    return tints;
  }

  private double scaled(int component, double share) {
    double low = source.low(component);
    return low + share * (source.high(component) - low);
  }

  /** Separates values given as shares of their ranges. */
  private long exact(double... shares) {
    for (int i = 0; i < shares.length; i++) {
      shares[i] = scaled(i, shares[i]);
    }
    double[] lab = source.relativeLab(shares);
    return packed(condition.separate(new Lab(lab[0], lab[1], lab[2])));
  }

  private static long packed(float[] cmyk) {
    return pack(
        (double) Tint.FULL * cmyk[0],
        (double) Tint.FULL * cmyk[1],
        (double) Tint.FULL * cmyk[2],
        (double) Tint.FULL * cmyk[3]);
  }

  private static long pack(double c, double m, double y, double k) {
    return ((long) (c + 0.5) << 48)
        | ((long) (m + 0.5) << 32)
        | ((long) (y + 0.5) << 16)
        | (long) (k + 0.5);
  }

  private static void put(long tints, char[] out, int at) {
    out[at] = (char) (tints >>> 48);
    out[at + 1] = (char) (tints >>> 32);
    out[at + 2] = (char) (tints >>> 16);
    out[at + 3] = (char) tints;
  }
}
