package selvage.separation;

import java.util.List;

/** Some of an image's channels, which become one image of the page. */
final class ImagePart {
  /** What a page does with a part. */
  enum Role {
    /** Painted first. */
    BASE,
    /** Overprinted on the base. */
    OVERPRINT,
    /** The opacity of the base. */
    MASK
  }

  /** What samples mean. */
  enum Kind {
    GRAY(1),
    RGB(3),
    CMYK(4),
    /** CIELAB, a* and b* with a sign. */
    LAB(3),
    PALETTE(1),
    INKS(0);

    /** Components of a pixel; 0 where that varies. */
    final int components;

    Kind(int components) {
      this.components = components;
    }
  }

  private final Role role;
  private final Kind kind;
  private final int[] samples;
  private final float[] decode;
  private final List<InkChannel> inks;
  private final byte[] palette;
  private final float[] matte;

  private ImagePart(
      Role role,
      Kind kind,
      int[] samples,
      float[] decode,
      List<InkChannel> inks,
      byte[] palette,
      float[] matte) {
    this.role = role;
    this.kind = kind;
    this.samples = samples;
    this.decode = decode;
    this.inks = List.copyOf(inks);
    this.palette = palette;
    this.matte = matte;
  }

  static ImagePart base(Kind kind, float... decode) {
    int[] samples = new int[kind.components];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = i;
    }
    return new ImagePart(Role.BASE, kind, samples, decode, List.of(), new byte[0], new float[0]);
  }

  static ImagePart palette(byte[] palette) {
    return new ImagePart(
        Role.BASE, Kind.PALETTE, new int[1], new float[0], List.of(), palette, new float[0]);
  }

  static ImagePart inks(Role role, List<InkChannel> inks) {
    int[] samples = new int[inks.size()];
    float[] decode = new float[2 * samples.length];
    boolean usual = true;
    for (int i = 0; i < samples.length; i++) {
      InkChannel ink = inks.get(i);
      samples[i] = ink.sample();
      decode[2 * i] = ink.low();
      decode[2 * i + 1] = ink.high();
      usual &= ink.low() == 0 && ink.high() == 1;
    }
    return new ImagePart(
        role, Kind.INKS, samples, usual ? new float[0] : decode, inks, new byte[0], new float[0]);
  }

  /**
   * An opacity, 0 for transparent.
   *
   * @param blended whether the base's samples were multiplied by it
   */
  static ImagePart mask(int sample, ImagePart base, boolean blended) {
    float[] matte = new float[blended ? base.samples.length : 0];
    for (int i = 0; i < matte.length && 2 * i < base.decode.length; i++) {
      matte[i] = base.decode[2 * i];
    }
    return new ImagePart(
        Role.MASK, Kind.GRAY, new int[] {sample}, new float[0], List.of(), new byte[0], matte);
  }

  /** What the page does with it. */
  Role role() {
    return role;
  }

  /** What its samples mean. */
  Kind kind() {
    return kind;
  }

  /** Which of a pixel's samples it takes, in this order; not to be changed. */
  int[] samples() {
    return samples;
  }

  /** The PDF Decode array; empty for the usual one. */
  float[] decode() {
    return decode.clone();
  }

  /** For {@link Kind#INKS}: one a sample. */
  List<InkChannel> inks() {
    return inks;
  }

  /** For {@link Kind#PALETTE}: three bytes an entry. */
  byte[] palette() {
    return palette.clone();
  }

  /** For {@link Role#MASK}: the colour that the image was blended with; empty for none. */
  float[] matte() {
    return matte.clone();
  }

  /** Whether its colours are the four process inks, with others or without. */
  boolean isProcessInk() {
    return kind == Kind.CMYK
        || (kind == Kind.INKS && inks.stream().anyMatch(i -> i.name().equals("Black")));
  }
}
