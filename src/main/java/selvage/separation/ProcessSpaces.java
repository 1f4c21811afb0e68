package selvage.separation;

import selvage.color.ProcessSeparation;
import selvage.color.SourceColor;
import selvage.ink.Tint;

/** The colour spaces that reach the process colorants. */
final class ProcessSpaces {
  private ProcessSpaces() {}

  /** DeviceCMYK, and ICCBased CMYK that passes as it is. */
  static final class Cmyk extends SourceSpace {
    Cmyk(Reach reach) {
      super(4, reach);
    }

    @Override
    float[] initialColor() {
      return new float[] {0, 0, 0, 1};
    }

    @Override
    void ink(float[] color, char[] row) {
      for (int i = 0; i < 4; i++) {
        row[StateTable.INKS + i] = (char) Tint.ofFraction(color[i]);
      }
    }
  }

  /** DeviceGray: black ink. */
  static final class Gray extends SourceSpace {
    Gray() {
      super(1, Reach.PROCESS);
    }

    @Override
    void ink(float[] color, char[] row) {
      row[StateTable.INKS + 3] = (char) (Tint.FULL - Tint.ofFraction(color[0]));
    }

    @Override
    boolean rgb(float[] color, float[] rgb) {
      rgb[0] = rgb[1] = rgb[2] = Math.max(0, Math.min(1, color[0]));
      return true;
    }
  }

  /** A gray of known tone: black ink of the same lightness. */
  static final class ToneGray extends SourceSpace {
    private final SourceColor source;
    private final ProcessLinks.GrayLink toBlack;

    ToneGray(SourceColor source, ProcessLinks.GrayLink toBlack) {
      super(1, Reach.PROCESS);
      this.source = source;
      this.toBlack = toBlack;
    }

    @Override
    void ink(float[] color, char[] row) {
      double tint = toBlack.tint(source.relativeLab(color[0])[0]);
      row[StateTable.INKS + 3] = (char) Tint.ofFraction(tint);
    }

    @Override
    boolean rgb(float[] color, float[] rgb) {
      rgb[0] = rgb[1] = rgb[2] = Math.max(0, Math.min(1, color[0]));
      return true;
    }
  }

  /** A space whose colours are converted to the condition's process tints. */
  static final class Converted extends SourceSpace {
    private final SourceColor source;
    private final ProcessSeparation separation;
    private final boolean isDeviceRgb;
    private final float[] cmyk = new float[4];
    private final char[] tints = new char[4];
    private final byte[] samples;

    /**
     * A converted space.
     *
     * @param isDeviceRgb whether the components are device RGB themselves
     */
    Converted(SourceColor source, ProcessSeparation separation, boolean isDeviceRgb) {
      super(source.components(), Reach.PROCESS);
      this.source = source;
      this.separation = separation;
      this.isDeviceRgb = isDeviceRgb;
      this.samples = new byte[source.components()];
    }

    SourceColor source() {
      return source;
    }

    /** Device RGB as process tints; three and four fractions. */
    void convert(float[] rgb, float[] process) {
      separation.separate(rgb, process);
    }

    /**
     * As {@link #convert}, through a grid; components, and the tints from an index, in Tint units.
     */
    void convertOfMany(int red, int green, int blue, char[] process, int at) {
      separation.separate(red, green, blue, process, at);
    }

    @Override
    float[] initialColor() {
      float[] initial = new float[components()];
      for (int i = 0; i < initial.length; i++) {
        initial[i] = (float) Math.max(source.low(i), Math.min(source.high(i), 0));
      }
      return initial;
    }

    @Override
    float[] defaultDecode(int bits) {
      float[] decode = new float[2 * components()];
      for (int i = 0; i < components(); i++) {
        decode[2 * i] = (float) source.low(i);
        decode[2 * i + 1] = (float) source.high(i);
      }
      return decode;
    }

    @Override
    void ink(float[] color, char[] row) {
      separation.separate(color, cmyk);
      for (int i = 0; i < 4; i++) {
        row[StateTable.INKS + i] = (char) Tint.ofFraction(cmyk[i]);
      }
    }

    @Override
    void inkOfMany(float[] color, char[] row) {
      for (int i = 0; i < samples.length; i++) {
        double unit = (color[i] - source.low(i)) / (source.high(i) - source.low(i));
        samples[i] = (byte) Math.round(255 * Math.max(0, Math.min(1, unit)));
      }
      separation.separate(samples, 0, 1, tints);
      System.arraycopy(tints, 0, row, StateTable.INKS, 4);
    }

    @Override
    boolean rgb(float[] color, float[] rgb) {
      if (isDeviceRgb) {
        for (int i = 0; i < 3; i++) {
          rgb[i] = Math.max(0, Math.min(1, color[i]));
        }
      }
      return isDeviceRgb;
    }
  }
}
