package selvage.draw;

/** The row predictors of PNG (ISO/IEC 15948, 9.2 [png]), as PDF's Flate filter takes them. */
final class PngRows {
  private PngRows() {}

  /**
   * Predicts every row by the predictor that leaves the least.
   *
   * @param samples rows of {@code rowLength} bytes
   * @param pixelLength bytes from a sample to the same of its left neighbour
   * @return each row with the predictor's number before it
   */
  static byte[] of(byte[] samples, int rowLength, int pixelLength) {
    int rows = samples.length / rowLength;
    byte[] out = new byte[rows * (rowLength + 1)];
    byte[] trial = new byte[rowLength];
    for (int row = 0; row < rows; row++) {
      long best = Long.MAX_VALUE;
      for (int kind = 0; kind < 5; kind++) {
        long left = predict(kind, samples, row * rowLength, rowLength, pixelLength, trial);
        if (left < best) {
          best = left;
          out[row * (rowLength + 1)] = (byte) kind;
          System.arraycopy(trial, 0, out, row * (rowLength + 1) + 1, rowLength);
        }
      }
    }
    return out;
  }

  private static long predict(
      int kind, byte[] samples, int start, int rowLength, int pixelLength, byte[] out) {
    long sum = 0;
    for (int i = 0; i < rowLength; i++) {
      int left = i < pixelLength ? 0 : samples[start + i - pixelLength] & 0xFF;
      int above = start == 0 ? 0 : samples[start + i - rowLength] & 0xFF;
      int corner =
          i < pixelLength || start == 0 ? 0 : samples[start + i - rowLength - pixelLength] & 0xFF;
      int guess =
          switch (kind) {
            case 0 -> 0;
            case 1 -> left;
            case 2 -> above;
            case 3 -> (left + above) / 2;
            default -> paeth(left, above, corner);
          };
      out[i] = (byte) (samples[start + i] - guess);
      sum += Math.abs(out[i]);
    }
    return sum;
  }

  private static int paeth(int left, int above, int corner) {
    int guess = left + above - corner;
    int byLeft = Math.abs(guess - left);
    int byAbove = Math.abs(guess - above);
    int byCorner = Math.abs(guess - corner);
    if (byLeft <= byAbove && byLeft <= byCorner) {
      return left;
    }
    return byAbove <= byCorner ? above : corner;
  }
}
