package selvage.separation;

import selvage.ink.Tint;

/** The colour spaces that reach the process colorants. */
final class ProcessSpaces {
  private ProcessSpaces() {}

  /** Takes colours of a device-independent or RGB space to process tints. */
  interface ToProcess {
    /**
     * Converts a colour.
     *
     * @param color components in the space's own ranges
     * @param cmyk takes four fractions, 0 to 1
     */
    void convert(float[] color, float[] cmyk);
  }

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

  /** A space whose colours are converted to the condition's process tints. */
  static final class Converted extends SourceSpace {
    private final ToProcess toProcess;
    private final float[] decode;
    private final boolean isDeviceRgb;
    private final float[] cmyk = new float[4];

    /**
     * @param range least and greatest value a component
     * @param isDeviceRgb whether the components are device RGB themselves
     */
    Converted(int components, float[] range, boolean isDeviceRgb, ToProcess toProcess) {
      super(components, Reach.PROCESS);
      this.toProcess = toProcess;
      this.decode = range;
      this.isDeviceRgb = isDeviceRgb;
    }

    @Override
    float[] initialColor() {
      float[] initial = new float[components()];
      for (int i = 0; i < initial.length; i++) {
        initial[i] = Math.max(decode[2 * i], Math.min(decode[2 * i + 1], 0));
      }
      return initial;
    }

    @Override
    float[] defaultDecode(int bits) {
      return decode.clone();
    }

    @Override
    void ink(float[] color, char[] row) {
      float[] clipped = color.clone();
      for (int i = 0; i < components(); i++) {
        clipped[i] = Math.max(decode[2 * i], Math.min(decode[2 * i + 1], clipped[i]));
      }
      toProcess.convert(clipped, cmyk);
      for (int i = 0; i < 4; i++) {
        row[StateTable.INKS + i] = (char) Tint.ofFraction(cmyk[i]);
      }
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
