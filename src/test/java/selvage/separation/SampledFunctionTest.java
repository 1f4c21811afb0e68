package selvage.separation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Sampled functions at points worked out by hand from ISO 32000-2, 7.10.2. */
class SampledFunctionTest {
  private static final Offset<Float> EXACT = Offset.offset(1e-6f);

  private static COSDictionary function(int bits, float[] size, float[] domain, float[] range) {
    COSDictionary function = new COSDictionary();
    function.setInt(COSName.FUNCTION_TYPE, 0);
    function.setInt(COSName.BITS_PER_SAMPLE, bits);
    function.setItem(COSName.SIZE, InkColor.numbers(size));
    function.setItem(COSName.DOMAIN, InkColor.numbers(domain));
    function.setItem(COSName.RANGE, InkColor.numbers(range));
    return function;
  }

  private static float[] eval(SampledFunction function, int outputs, float... in)
      throws IOException {
    float[] out = new float[outputs];
    function.eval(in, out);
    return out;
  }

  @Test
  void eval_oneInput_interpolatesBetweenItsNeighbours() throws IOException {
    SampledFunction ramp =
        new SampledFunction(
            function(8, new float[] {3}, new float[] {0, 1}, new float[] {0, 1, 0, 1}),
            new byte[] {0, (byte) 255, (byte) 255, 0, 0, (byte) 255});

    assertThat(eval(ramp, 2, 0.25f)).containsExactly(new float[] {0.5f, 0.5f}, EXACT);
    assertThat(eval(ramp, 2, 0.875f)).containsExactly(new float[] {0.25f, 0.75f}, EXACT);
    assertThat(eval(ramp, 2, 7)).containsExactly(new float[] {0, 1}, EXACT);
    assertThat(eval(ramp, 2, -7)).containsExactly(new float[] {0, 1}, EXACT);
  }

  @Test
  void eval_twoInputs_variesTheFirstFastest() throws IOException {
    // f(0, 0) = 0, f(1, 0) = 1, f(0, 1) = 0.2, f(1, 1) = 0.6, bilinear between.
    SampledFunction plane =
        new SampledFunction(
            function(8, new float[] {2, 2}, new float[] {0, 1, 0, 1}, new float[] {0, 1}),
            new byte[] {0, (byte) 255, 51, (byte) 153});

    assertThat(eval(plane, 1, 1, 0)[0]).isCloseTo(1, EXACT);
    assertThat(eval(plane, 1, 0, 1)[0]).isCloseTo(0.2f, EXACT);
    assertThat(eval(plane, 1, 0.5f, 0.5f)[0]).isCloseTo(0.45f, EXACT);
    assertThat(eval(plane, 1, 0.25f, 0.75f)[0]).isCloseTo(0.2875f, EXACT);
  }

  @Test
  void eval_encodeAndDecode_mapBothEnds() throws IOException {
    COSDictionary turned =
        function(4, new float[] {2}, new float[] {-1, 1}, new float[] {-0.5f, 0.5f});
    turned.setItem(COSName.ENCODE, InkColor.numbers(1, 0));
    turned.setItem(COSName.DECODE, InkColor.numbers(-1, 1));
    SampledFunction function = new SampledFunction(turned, new byte[] {0x0F});

    // The second sample, 15 of 15, decodes to 1 and is clipped to the range.
    assertThat(eval(function, 1, -1)[0]).isEqualTo(0.5f);
    assertThat(eval(function, 1, 0)[0]).isCloseTo(0, EXACT);
    assertThat(eval(function, 1, 0.25f)[0]).isCloseTo(-0.25f, EXACT);
  }

  @Test
  void eval_twelveBits_packsAcrossBytes() throws IOException {
    SampledFunction function =
        new SampledFunction(
            function(12, new float[] {2}, new float[] {0, 1}, new float[] {0, 4095}),
            new byte[] {0x12, 0x34, 0x56});

    assertThat(eval(function, 1, 0)[0]).isCloseTo(0x123, EXACT);
    assertThat(eval(function, 1, 1)[0]).isCloseTo(0x456, EXACT);
  }

  @Test
  void eval_shortData_countsAsZero() throws IOException {
    SampledFunction function =
        new SampledFunction(
            function(32, new float[] {2}, new float[] {0, 1}, new float[] {0, 1}),
            new byte[] {-1, -1, -1, -1});

    assertThat(eval(function, 1, 0)[0]).isEqualTo(1);
    assertThat(eval(function, 1, 1)[0]).isZero();
  }

  @Test
  void create_noRange_isRefused() {
    COSDictionary function = function(8, new float[] {2}, new float[] {0, 1}, new float[] {0, 1});
    function.removeItem(COSName.RANGE);

    assertThatThrownBy(() -> new SampledFunction(function, new byte[2]))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("Range");
  }
}
