package selvage.separation;

import java.io.IOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDTransparencyGroup;
import org.apache.pdfbox.pdmodel.graphics.state.PDGraphicsState;
import org.apache.pdfbox.pdmodel.graphics.state.PDSoftMask;
import org.apache.pdfbox.util.Matrix;
import selvage.ink.Tint;

/** Makes the opacities of a graphics state's soft mask (ISO 32000-2, 11.5). */
final class SoftMaskMaker {
  private static final int KEPT = 4;

  private record Key(COSDictionary mask, Matrix matrix, Layer layer) {}

  private final PageArtist artist;
  private final Map<Key, SoftMask> known =
      new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Key, SoftMask> eldest) {
          return size() > KEPT;
        }
      };

  SoftMaskMaker(PageArtist artist) {
    this.artist = artist;
  }

  /** The soft mask that a graphics state has in force; null where it has none. */
  SoftMask of(PDGraphicsState state) {
    PDSoftMask mask = state.getSoftMask();
    if (mask == null) {
      return null;
    }
    Key key =
        new Key(
            mask.getCOSObject(),
            mask.getInitialTransformationMatrix(),
            artist.painter().compositor().layer());
    SoftMask made = known.get(key);
    if (made == null) {
      artist.scope().enter(Place.numbered("soft mask", mask.getCOSObject()));
      try {
        made = make(mask);
      } catch (IOException e) {
        artist
            .scope()
            .findings()
            .warning("soft-mask-skipped", artist.scope().where() + " was skipped: " + Reason.of(e));
        made = new SoftMask(0, 0, 0, 0, new char[0], (char) Tint.FULL);
      } finally {
        artist.scope().leave();
      }
      known.put(key, made);
    }
    return made;
  }

  private SoftMask make(PDSoftMask mask) throws IOException {
    if (!(mask.getCOSObject().getDictionaryObject(COSName.G) instanceof COSStream stream)) {
      throw new IOException("it has no group");
    }
    PDTransparencyGroup group = new PDTransparencyGroup(stream, artist.scope().cache());
    boolean luminosity = !"Alpha".equals(mask.getCOSObject().getNameAsString(COSName.S));
    Matrix matrix = Matrix.concatenate(mask.getInitialTransformationMatrix(), group.getMatrix());
    PDRectangle box = group.getBBox();
    if (box == null) {
      throw new IOException("its group has no BBox");
    }
    COSDictionary attributes = stream.getCOSDictionary(COSName.GROUP);
    COSDictionary resources = stream.getCOSDictionary(COSName.RESOURCES);
    Layer.Blending blending =
        attributes == null
            ? Layer.Blending.GRAY
            : GroupSpaces.blending(attributes, resources, Layer.Blending.GRAY);
    Compositor compositor = artist.painter().compositor();
    compositor.beginGroup(boundsOf(box, matrix), true, false, blending);
    Layer layer;
    try {
      artist.newChild().paintStream(new PlacedStream(group, stream, matrix, box, artist.scope()));
    } finally {
      layer = compositor.endGroup();
    }
    float backdrop = luminosity ? backdropLuminosity(mask, attributes, resources) : 0;
    return read(layer, compositor.table(), luminosity, backdrop, transferOf(mask));
  }

  private PageGeometry.Window boundsOf(PDRectangle box, Matrix matrix) {
    var bounds =
        box.transform(matrix).createTransformedShape(artist.painter().toSamples()).getBounds2D();
    return new PageGeometry.Window(
        clamp(Math.floor(bounds.getMinX())),
        clamp(Math.floor(bounds.getMinY())),
        clamp(Math.ceil(bounds.getMaxX())),
        clamp(Math.ceil(bounds.getMaxY())));
  }

  private static int clamp(double value) {
    return (int) Math.max(-1e9, Math.min(1e9, value));
  }

  private TintFunction transferOf(PDSoftMask mask) throws IOException {
    COSBase transfer = mask.getCOSObject().getDictionaryObject(COSName.TR);
    return transfer == null || transfer instanceof COSName ? null : FunctionReader.read(transfer);
  }

  /** The luminosity of the backdrop colour, black where none is stated. */
  private float backdropLuminosity(
      PDSoftMask mask, COSDictionary attributes, COSDictionary resources) {
    COSArray stated = mask.getCOSObject().getCOSArray(COSName.BC);
    COSBase space = attributes == null ? null : attributes.getDictionaryObject(COSName.CS);
    if (stated == null || space == null) {
      return 0;
    }
    SourceSpace source = artist.scope().spaces().read(space, resources);
    float[] color = Arrays.copyOf(stated.toFloatArray(), Math.max(1, source.components()));
    float[] rgb = new float[3];
    if (source.rgb(color, rgb)) {
      return Blend.luminosity(rgb);
    }
    char[] row = artist.painter().compositor().newRow();
    source.ink(color, row);
    return luminosity(row, Layer.Blending.CMYK);
  }

  /** The luminosity of a row, 0 to 1; that of CMYK as ISO 32000-2, 10.4.3.3 converts it to gray. */
  private static float luminosity(char[] row, Layer.Blending blending) {
    float[] inks = new float[4];
    for (int i = 0; i < 4; i++) {
      inks[i] = row[StateTable.INKS + i] / (float) Tint.FULL;
    }
    float dark = 0.3f * inks[0] + 0.59f * inks[1] + 0.11f * inks[2];
    return switch (blending) {
      case GRAY -> 1 - inks[3];
      case RGB -> 1 - dark;
      case CMYK -> 1 - Math.min(1, dark + inks[3]);
    };
  }

  private static SoftMask read(
      Layer layer, StateTable table, boolean luminosity, float backdrop, TintFunction transfer)
      throws IOException {
    char[] row = table.newRow();
    char bare =
        (char) opacityOf(StateTable.BLANK, layer, table, row, luminosity, backdrop, transfer);
    char[] alphas = new char[layer.width * layer.height];
    Arrays.fill(alphas, bare);
    Memo memo = new Memo();
    int lastCell = StateTable.BLANK;
    int known = bare;
    int at = (layer.heldTop() - layer.top) * layer.width;
    for (int cell : layer.cells) {
      if (cell != lastCell) {
        lastCell = cell;
        known = memo.get(cell);
        if (known == Memo.ABSENT) {
          known = opacityOf(cell, layer, table, row, luminosity, backdrop, transfer);
          memo.put(cell, known);
        }
      }
      alphas[at++] = (char) known;
    }
    return new SoftMask(
        layer.left,
        layer.top,
        layer.width,
        layer.height,
        alphas,
        (char) opacity(backdrop, transfer));
  }

  private static int opacityOf(
      int cell,
      Layer layer,
      StateTable table,
      char[] row,
      boolean luminosity,
      float backdrop,
      TintFunction transfer)
      throws IOException {
    table.read(cell, row);
    float alpha = row[StateTable.ALPHA] / (float) Tint.FULL;
    float value =
        luminosity ? alpha * luminosity(row, layer.blending) + (1 - alpha) * backdrop : alpha;
    return opacity(value, transfer);
  }

  /** An opacity in whole steps of 255, so that few distinct ones occur. */
  private static int opacity(float value, TintFunction transfer) throws IOException {
    float mapped = value;
    if (transfer != null) {
      float[] out = new float[1];
      transfer.eval(new float[] {value}, out);
      mapped = out[0];
    }
    return Math.round(Math.max(0, Math.min(1, mapped)) * 255) * Tint.PER_BYTE;
  }
}
