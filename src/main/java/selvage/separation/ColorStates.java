package selvage.separation;

import java.util.Arrays;
import selvage.ink.Tint;

/** Turns computed colours (of images and shadings) into states of the current layer. */
final class ColorStates {
  private final SourceSpace space;
  private final StateTable table;
  private final BlendSpaces blendSpaces;
  private final Layer.Blending blending;
  private final Transfer transfer;
  private final char kind;
  private final float[] rgb = new float[3];
  private final char[] row;

  /**
   * @param transfer changes tints; null for none
   */
  ColorStates(
      SourceSpace space,
      Compositor compositor,
      BlendSpaces blendSpaces,
      Transfer transfer,
      ObjectKind kind) {
    this.transfer = transfer;
    this.space = space;
    this.row = compositor.newRow();
    this.table = compositor.table();
    this.blending = compositor.layer().blending;
    this.blendSpaces = blendSpaces;
    this.kind = (char) kind.bit();
  }

  SourceSpace space() {
    return space;
  }

  /** As {@link #of}, for a caller that asks for each colour once and remembers the answer. */
  int ofNew(float[] color) {
    fill(color);
    return table.append(row);
  }

  /** The opaque state of a colour, whose components are in the space's own ranges. */
  int of(float[] color) {
    fill(color);
    return table.intern(row);
  }

  private void fill(float[] color) {
    Arrays.fill(row, (char) 0);
    row[StateTable.KINDS] = kind;
    row[StateTable.ALPHA] = Tint.FULL;
    if (blending != Layer.Blending.CMYK && space.rgb(color, rgb)) {
      if (blending == Layer.Blending.RGB) {
        BlendSpaces.writeRgb(row, rgb);
      } else {
        BlendSpaces.writeGray(row, rgb);
      }
    } else {
      space.inkOfMany(color, row);
      if (transfer != null) {
        transfer.apply(row);
      }
      blendSpaces.convert(row, Layer.Blending.CMYK, blending);
    }
  }
}
