package selvage.separation;

import selvage.ink.Tint;

/** What an image's own mask lets through: a soft mask, a stencil, or a colour key. */
final class ImageMask {
  private final ImageData data; // null for a colour key
  private final ImagePainter.Walk walk;
  private final char[] opacityOf; // by sample value of data, Tint units
  private final boolean soft;
  private final float[] key; // least and greatest raw value a component; null otherwise
  private final float[] matte;
  private final int channel; // of data

  private ImageMask(
      ImageData data,
      ImagePainter.Walk walk,
      char[] opacityOf,
      boolean soft,
      float[] key,
      float[] matte,
      int channel) {
    this.data = data;
    this.walk = walk;
    this.opacityOf = opacityOf;
    this.soft = soft;
    this.key = key;
    this.matte = matte;
    this.channel = channel;
  }

  /**
   * Opacity from a gray image.
   *
   * @param decode its Decode array, or empty
   * @param matte the colour that the image was blended with before, or empty
   */
  static ImageMask soft(ImageData data, ImagePainter.Walk walk, float[] decode, float[] matte) {
    return soft(data, walk, decode, matte, 0);
  }

  /** Opacity from a channel of the image itself. */
  static ImageMask channel(ImageData data, ImagePainter.Walk walk, float[] matte, int channel) {
    return soft(data, walk, new float[0], matte, channel);
  }

  private static ImageMask soft(
      ImageData data, ImagePainter.Walk walk, float[] decode, float[] matte, int channel) {
    float low = decode.length >= 2 ? decode[0] : 0;
    float high = decode.length >= 2 ? decode[1] : 1;
    int levels = Math.min(256, data.most() + 1);
    char[] opacity = new char[levels];
    for (int i = 0; i < levels; i++) {
      int steps =
          Math.round(255 * Math.max(0, Math.min(1, low + (high - low) * i / (levels - 1f))));
      opacity[i] = (char) (steps * Tint.PER_BYTE);
    }
    return new ImageMask(data, walk, opacity, true, null, matte, channel);
  }

  /**
   * A stencil: samples of value 0 are painted.
   *
   * @param inverted whether samples of value 1 are painted instead
   */
  static ImageMask hard(ImageData data, ImagePainter.Walk walk, boolean inverted) {
    char[] opacity = new char[data.most() + 1];
    for (int i = 0; i < opacity.length; i++) {
      opacity[i] = (char) ((i == 0) != inverted ? Tint.FULL : 0);
    }
    return new ImageMask(data, walk, opacity, false, null, new float[0], 0);
  }

  /** Samples whose raw values all lie in the ranges are not painted. */
  static ImageMask colorKey(float[] ranges) {
    return new ImageMask(null, null, new char[0], false, ranges, new float[0], 0);
  }

  /** Whether it takes the place of the graphics state's soft mask. */
  boolean isSoft() {
    return soft;
  }

  float[] matte() {
    return matte;
  }

  /** The opacity at a sample of the page, given the image sample under it. */
  int opacity(int x, int y, ImageData image, int column, int row) {
    if (key != null) {
      for (int c = 0; c < image.components(); c++) {
        int value = image.sample(column, row, c);
        if (value < key[2 * c] || value > key[2 * c + 1]) {
          return Tint.FULL;
        }
      }
      return 0;
    }
    walk.at(x, y);
    int value = data.sample(walk.column, walk.row, channel);
    return opacityOf[data.bits() == 16 ? value >> 8 : value];
  }
}
