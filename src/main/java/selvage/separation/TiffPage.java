package selvage.separation;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import selvage.ink.Colorant;

/** One image of a TIFF file: what its channels are, how large it prints, and its rows. */
final class TiffPage implements ImagePage {
  private static final int REDUCED = 1;
  private static final int MASK = 4;

  private final TiffDirectory tags;
  private final ByteAccess bytes;
  private final TiffLayout layout;
  private final FindingList findings;
  private final String where;
  private final List<ImagePart> parts = new ArrayList<>();

  TiffPage(TiffDirectory tags, ByteAccess bytes, FindingList findings, String where)
      throws IOException {
    this.tags = tags;
    this.bytes = bytes;
    this.findings = findings;
    this.where = where;
    layout = new TiffLayout(tags);
    int known = takeBase();
    takeExtras(known);
  }

  /** Whether a directory is a page of its own, not a smaller copy or a mask of another. */
  static boolean isPage(TiffDirectory tags) throws IOException {
    return (tags.number(254, 0) & (REDUCED | MASK)) == 0 && tags.number(255, 1) != 2;
  }

  /** Takes the channels that the photometric interpretation speaks of; returns how many. */
  private int takeBase() throws IOException {
    switch (layout.photometric) {
      case 0 -> parts.add(ImagePart.base(ImagePart.Kind.GRAY, 1, 0));
      case 1 -> parts.add(ImagePart.base(ImagePart.Kind.GRAY));
      case 2 -> parts.add(ImagePart.base(ImagePart.Kind.RGB));
      case 3 -> parts.add(ImagePart.palette(palette()));
      case 5 -> {
        return takeInks();
      }
      case 6 -> {
        if (layout.compression != TiffLayout.JPEG) {
          throw new IOException(
              "expected gray, RGB, CMYK, inks or CIELAB, found YCbCr without JPEG compression; save"
                  + " it as RGB");
        }
        parts.add(ImagePart.base(ImagePart.Kind.RGB));
      }
      case 8 -> {
        if (layout.bits < 8) {
          throw new IOException("expected CIELAB of 8 or 16 bits, found " + layout.bits);
        }
        parts.add(ImagePart.base(ImagePart.Kind.LAB));
      }
      default ->
          throw new IOException(
              "expected gray, RGB, CMYK, inks or CIELAB, found photometric interpretation "
                  + layout.photometric
                  + "; save it as one of these");
    }
    int components = parts.get(0).samples().length;
    if (components > layout.samples) {
      throw new IOException("expected " + components + " channels, found " + layout.samples);
    }
    return components;
  }

  private int takeInks() throws IOException {
    TiffInks names = new TiffInks(tags, layout, findings, where);
    List<InkChannel> inks = new ArrayList<>(names.separated());
    int known = inks.get(inks.size() - 1).sample() + 1;
    inks.addAll(names.spots(known));
    parts.add(
        isPlainCmyk(inks)
            ? ImagePart.base(ImagePart.Kind.CMYK)
            : ImagePart.inks(ImagePart.Role.BASE, inks));
    return known;
  }

  private static boolean isPlainCmyk(List<InkChannel> inks) {
    boolean plain = inks.size() == 4;
    for (int i = 0; plain && i < 4; i++) {
      InkChannel ink = inks.get(i);
      plain =
          ink.sample() == i
              && Colorant.PROCESS.get(i).name().equals(ink.name())
              && ink.low() == 0
              && ink.high() == 1;
    }
    return plain;
  }

  /** Takes spot inks and an opacity among the other channels; says what was left aside. */
  private void takeExtras(int known) throws IOException {
    boolean[] taken = new boolean[layout.samples];
    for (ImagePart part : parts) {
      for (int sample : part.samples()) {
        taken[sample] = true;
      }
    }
    if (layout.photometric != 5) {
      List<InkChannel> spots = new TiffInks(tags, layout, findings, where).spots(known);
      if (!spots.isEmpty()) {
        parts.add(ImagePart.inks(ImagePart.Role.OVERPRINT, spots));
        spots.forEach(spot -> taken[spot.sample()] = true);
      }
    }
    long[] kinds = tags.numbers(338);
    for (int sample = known; sample < layout.samples; sample++) {
      int extra = sample - (layout.samples - kinds.length);
      long kind = extra >= 0 && extra < kinds.length ? kinds[extra] : 0;
      if (taken[sample]) {
        continue;
      }
      if (sample == known && (kind == 1 || kind == 2)) {
        parts.add(ImagePart.mask(sample, parts.get(0), kind == 1));
      } else {
        findings.note(
            "image-channel-ignored",
            where
                + ": nothing says that channel "
                + (sample + 1)
                + " is an ink; it was left out. If it is one, have the ink's name put in the file"
                + " (InkNames)");
      }
    }
  }

  /** Three bytes an entry; entries have 16 bits in the file, though some writers use 8. */
  private byte[] palette() throws IOException {
    long[] map = tags.numbers(320);
    if (layout.bits > 8 || map.length < 3 << layout.bits) {
      throw new IOException(
          "expected a colour map of " + (3L << layout.bits) + " entries, found " + map.length);
    }
    long most = 0;
    for (long entry : map) {
      most = Math.max(most, entry);
    }
    int entries = 1 << layout.bits;
    byte[] palette = new byte[3 * entries];
    for (int i = 0; i < palette.length; i++) {
      long value = map[i % 3 * entries + i / 3];
      palette[i] = (byte) (most < 256 ? value : value >> 8);
    }
    return palette;
  }

  TiffLayout layout() {
    return layout;
  }

  /** Opens its rows at the first. */
  TiffRows rows() {
    return new TiffRows(layout, bytes, findings, where);
  }

  @Override
  public int width() {
    return layout.width;
  }

  @Override
  public int height() {
    return layout.height;
  }

  @Override
  public ImageResolution resolution() throws IOException {
    long unit = tags.number(296, 2);
    ImageResolution stated =
        unit == 1
            ? ImageResolution.ASSUMED
            : ImageResolution.of(tags.rational(282), tags.rational(283), unit == 3);
    return stated;
  }

  @Override
  public int orientation() throws IOException {
    return tags.integer(274, 1);
  }

  @Override
  public byte[] profile() throws IOException {
    return tags.bytes(34675);
  }

  @Override
  public List<ImagePart> parts() {
    return List.copyOf(parts);
  }
}
