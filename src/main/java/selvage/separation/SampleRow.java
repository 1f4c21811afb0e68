package selvage.separation;

/**
 * Samples of a row, packed as PDF packs them: high bits first, 16 bits with the high byte first.
 */
final class SampleRow {
  private SampleRow() {}

  /** Copies one sample. */
  static void copy(byte[] from, int index, byte[] to, int target, int bits) {
    if (bits >= 8) {
      int bytes = bits / 8;
      for (int i = 0; i < bytes; i++) {
        to[target * bytes + i] = from[index * bytes + i];
      }
      return;
    }
    int most = (1 << bits) - 1;
    int value = ((from[index * bits / 8] & 0xff) >> (8 - bits - index * bits % 8)) & most;
    int shift = 8 - bits - target * bits % 8;
    int at = target * bits / 8;
    to[at] = (byte) ((to[at] & ~(most << shift)) | (value << shift));
  }
}
