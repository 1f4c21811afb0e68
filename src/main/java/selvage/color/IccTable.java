package selvage.color;

import selvage.finding.InputException;

/**
 * The multidimensional table of an ICC profile, for one to four inputs of 0 to 1. Device values
 * with three inputs are interpolated in tetrahedra, with four linearly along the first and in
 * tetrahedra along the rest; Lab inputs trilinearly, so that the neutral axis stays straight. These
 * are the ways of the widespread colour engines, which makes results comparable to 0.01.
 */
final class IccTable {
  private static final int MOST_ENTRIES = 1 << 26;

  private final int[] sizes; // grid points an input
  private final int[] steps; // entries from one grid point to the next, an input
  private final int outputs;
  private final char[] values; // 0 to 65535
  private final boolean tetrahedral;

  private IccTable(int[] sizes, int[] steps, int outputs, char[] values, boolean tetrahedral) {
    this.sizes = sizes;
    this.steps = steps;
    this.outputs = outputs;
    this.values = values;
    this.tetrahedral = tetrahedral;
  }

  /**
   * Reads a table's entries.
   *
   * @param sizes grid points an input
   * @param width bytes an entry, 1 or 2
   * @param tetrahedral whether inputs are device values
   * @throws InputException where the sizes make no table or it runs past the profile's end
   */
  static IccTable read(
      IccProfile profile, int at, int[] sizes, int outputs, int width, boolean tetrahedral)
      throws InputException {
    if (sizes.length < 1 || sizes.length > 4 || outputs < 1 || outputs > 4) {
      throw profile.broken(
          "expected a table of 1 to 4 channels, found " + sizes.length + " to " + outputs);
    }
    if (width != 1 && width != 2) {
      throw profile.broken("expected table entries of 1 or 2 bytes, found " + width);
    }
    long entries = outputs;
    int[] steps = new int[sizes.length];
    for (int i = sizes.length - 1; i >= 0; i--) {
      steps[i] = (int) entries;
      entries *= sizes[i];
      if (sizes[i] < 2 || entries > MOST_ENTRIES) {
        throw profile.broken("expected a table of 2 to 255 points an input, found " + sizes[i]);
      }
    }
    profile.require(at, entries * width, "a table's entries");
    char[] values = new char[(int) entries];
    for (int i = 0; i < values.length; i++) {
      values[i] = (char) (width == 1 ? 257 * profile.u8(at + i) : profile.u16(at + 2 * i));
    }
    return new IccTable(sizes.clone(), steps, outputs, values, tetrahedral);
  }

  int outputs() {
    return outputs;
  }

  /**
   * Interpolates in place.
   *
   * @param channels the inputs, 0 to 1, replaced by the outputs, 0 to 1
   * @param scratch room for {@link #outputs} values
   */
  void apply(double[] channels, double[] scratch) {
    switch (sizes.length) {
      case 1 -> linear(channels);
      case 2 -> bilinear(channels);
      case 3 -> {
        if (tetrahedral) {
          tetrahedron(channels, 0, 0, channels);
        } else {
          trilinear(channels);
        }
      }
      default -> quadrilinear(channels, scratch);
    }
    for (int i = 0; i < outputs; i++) {
      channels[i] *= 1 / 65535.0;
    }
  }

  private double place(double[] channels, int input) {
    double x = channels[input];
    return (x > 0 ? Math.min(1, x) : 0) * (sizes[input] - 1);
  }

  private int cell(double place, int input) {
    return Math.min((int) place, sizes[input] - 2);
  }

  private void linear(double[] channels) {
    double place = place(channels, 0);
    int below = cell(place, 0);
    double t = place - below;
    int p = below * steps[0];
    for (int i = 0; i < outputs; i++) {
      channels[i] = values[p + i] + t * (values[p + steps[0] + i] - values[p + i]);
    }
  }

  private void bilinear(double[] channels) {
    double x = place(channels, 0);
    double y = place(channels, 1);
    int ix = cell(x, 0);
    int iy = cell(y, 1);
    int p = ix * steps[0] + iy * steps[1];
    for (int i = 0; i < outputs; i++) {
      double low = mix(p + i, steps[1], y - iy);
      double high = mix(p + steps[0] + i, steps[1], y - iy);
      channels[i] = low + (x - ix) * (high - low);
    }
  }

  private void trilinear(double[] channels) {
    double x = place(channels, 0);
    double y = place(channels, 1);
    double z = place(channels, 2);
    int ix = cell(x, 0);
    int iy = cell(y, 1);
    int iz = cell(z, 2);
    double tx = x - ix;
    double ty = y - iy;
    double tz = z - iz;
    int p = ix * steps[0] + iy * steps[1] + iz * steps[2];
    for (int i = 0; i < outputs; i++) {
      int q = p + i;
      double v00 = mix(q, steps[2], tz);
      double v01 = mix(q + steps[1], steps[2], tz);
      double v10 = mix(q + steps[0], steps[2], tz);
      double v11 = mix(q + steps[0] + steps[1], steps[2], tz);
      double low = v00 + ty * (v01 - v00);
      double high = v10 + ty * (v11 - v10);
      channels[i] = low + tx * (high - low);
    }
  }

  private double mix(int at, int step, double t) {
    return values[at] + t * (values[at + step] - values[at]);
  }

  private void quadrilinear(double[] channels, double[] scratch) {
    double place = place(channels, 0);
    int below = cell(place, 0);
    double t = place - below;
    int base = below * steps[0];
    if (t == 0) {
      tetrahedron(channels, 1, base, channels);
      return;
    }
    tetrahedron(channels, 1, base, scratch);
    tetrahedron(channels, 1, base + steps[0], channels);
    for (int i = 0; i < outputs; i++) {
      channels[i] = scratch[i] + t * (channels[i] - scratch[i]);
    }
  }

  /** Three inputs from {@code first}: the way from corner to corner in the order of the shares. */
  private void tetrahedron(double[] channels, int first, int base, double[] out) {
    double x = place(channels, first);
    double y = place(channels, first + 1);
    double z = place(channels, first + 2);
    int ix = cell(x, first);
    int iy = cell(y, first + 1);
    int iz = cell(z, first + 2);
    double tx = x - ix;
    double ty = y - iy;
    double tz = z - iz;
    int sx = steps[first];
    int sy = steps[first + 1];
    int sz = steps[first + 2];
    int p = base + ix * sx + iy * sy + iz * sz;
    double most = tx;
    double middle = ty;
    double least = tz;
    int firstStep = sx;
    int lastStep = sz;
    if (tx >= ty) {
      if (ty < tz) {
        lastStep = sy;
        least = ty;
        if (tx >= tz) {
          middle = tz;
        } else {
          firstStep = sz;
          most = tz;
          middle = tx;
        }
      }
    } else if (ty >= tz) {
      firstStep = sy;
      most = ty;
      if (tx >= tz) {
        middle = tx;
      } else {
        middle = tz;
        least = tx;
        lastStep = sx;
      }
    } else {
      firstStep = sz;
      most = tz;
      lastStep = sx;
      least = tx;
    }
    int corner1 = p + firstStep;
    int corner3 = p + sx + sy + sz;
    int corner2 = corner3 - lastStep;
    for (int i = 0; i < outputs; i++) {
      out[i] =
          (1 - most) * values[p + i]
              + (most - middle) * values[corner1 + i]
              + (middle - least) * values[corner2 + i]
              + least * values[corner3 + i];
    }
  }
}
