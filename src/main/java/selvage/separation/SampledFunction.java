package selvage.separation;

import java.io.IOException;
import java.util.Arrays;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/**
 * A table of samples, interpolated linearly in every input (ISO 32000-2, 7.10.2); cubic
 * interpolation may be taken as linear there.
 */
final class SampledFunction implements TintFunction {
  private final float[] domain;
  private final float[] range;
  private final float[] encode;
  private final int[] sizes;
  private final int[] strides; // in samples, by input
  private final int outputs;
  private final float[] samples; // decoded; the outputs of a point together
  private final int[] corners; // the first samples of the points around an input
  private final float[] weights;

  /**
   * Decodes the table.
   *
   * @param function a sampled function of a size that {@link FunctionReader} found sound
   * @param data the stream's bytes; samples beyond their end count as zero
   * @throws IOException where an entry is missing or makes no sense
   */
  SampledFunction(COSDictionary function, byte[] data) throws IOException {
    domain = entry(function, COSName.DOMAIN, 2);
    range = entry(function, COSName.RANGE, 2);
    int inputs = domain.length / 2;
    outputs = range.length / 2;
    float[] stated = entry(function, COSName.SIZE, inputs);
    sizes = new int[inputs];
    strides = new int[inputs];
    int points = 1;
    for (int i = 0; i < inputs; i++) {
      sizes[i] = (int) stated[i];
      strides[i] = points * outputs;
      points *= sizes[i];
    }
    if (function.getCOSArray(COSName.ENCODE) == null) {
      encode = new float[2 * inputs];
      for (int i = 0; i < inputs; i++) {
        encode[2 * i + 1] = sizes[i] - 1;
      }
    } else {
      encode = entry(function, COSName.ENCODE, 2 * inputs);
    }
    boolean decoded = function.getCOSArray(COSName.DECODE) != null;
    float[] decode = decoded ? entry(function, COSName.DECODE, 2 * outputs) : range;
    samples = decoded(data, function.getInt(COSName.BITS_PER_SAMPLE), points * outputs, decode);
    corners = new int[1 << inputs];
    weights = new float[1 << inputs];
  }

  private static float[] entry(COSDictionary function, COSName key, int least) throws IOException {
    COSArray array = function.getCOSArray(key);
    if (array == null || array.size() < least) {
      throw new IOException("a sampled function whose " + key.getName() + " is missing or short");
    }
    return array.toFloatArray();
  }

  /** Reads samples that follow one another without padding, the high bits first. */
  private float[] decoded(byte[] data, int bits, int count, float[] decode) throws IOException {
    if (bits < 1 || bits > 32) {
      throw new IOException("a sampled function of " + bits + " bits a sample");
    }
    float[] values = new float[count];
    double most = (1L << bits) - 1;
    long held = 0;
    int heldBits = 0;
    int next = 0;
    for (int i = 0; i < count; i++) {
      while (heldBits < bits) {
        held = held << 8 | (next < data.length ? data[next] & 0xFF : 0);
        next++;
        heldBits += 8;
      }
      heldBits -= bits;
      double unit = (held >>> heldBits) / most;
      held &= (1L << heldBits) - 1;
      int output = i % outputs;
      double low = decode[2 * output];
      values[i] = (float) (low + unit * (decode[2 * output + 1] - low));
    }
    return values;
  }

  @Override
  public void eval(float[] in, float[] out) throws IOException {
    if (in.length < sizes.length) {
      throw new IOException("a sampled function of more inputs than it is given");
    }
    int found = 1;
    corners[0] = 0;
    weights[0] = 1;
    for (int i = 0; i < sizes.length; i++) {
      float place = place(i, in[i]);
      int below = (int) place;
      float share = place - below;
      int offset = below * strides[i];
      if (share > 0) {
        for (int c = 0; c < found; c++) {
          corners[found + c] = corners[c] + offset + strides[i];
          weights[found + c] = weights[c] * share;
        }
      }
      for (int c = 0; c < found; c++) {
        corners[c] += offset;
        weights[c] *= 1 - share;
      }
      found = share > 0 ? 2 * found : found;
    }
    int wanted = Math.min(outputs, out.length);
    Arrays.fill(out, 0, wanted, 0);
    for (int c = 0; c < found; c++) {
      float weight = weights[c];
      int corner = corners[c];
      for (int k = 0; k < wanted; k++) {
        out[k] += weight * samples[corner + k];
      }
    }
    for (int k = 0; k < wanted; k++) {
      out[k] = Math.max(range[2 * k], Math.min(range[2 * k + 1], out[k]));
    }
  }

  /** Where an input lies among the points, from 0 to the last. */
  private float place(int input, float value) {
    float low = domain[2 * input];
    float high = domain[2 * input + 1];
    float first = encode[2 * input];
    float clipped = Math.max(low, Math.min(high, value));
    float place =
        high == low
            ? first
            : first + (clipped - low) * (encode[2 * input + 1] - first) / (high - low);
    return Math.max(0, Math.min(sizes[input] - 1, place));
  }
}
