package selvage.separation;

import java.io.IOException;
import java.util.Arrays;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSName;
import selvage.ink.Tint;

/**
 * The transfer functions of a graphics state (ISO 32000-1, 10.5). They take and give light, 1 for
 * none of an ink; where there are four, the first three are for cyan, magenta and yellow, the last
 * for black and every spot.
 */
final class Transfer {
  private static final int UNKNOWN = -1;
  private static final int INKS = 4;

  private final TintFunction[] functions = new TintFunction[INKS]; // null for an identity
  private final int[][] known = new int[INKS][];

  private Transfer() {}

  /**
   * Reads transfer functions.
   *
   * @param stated a function, an array of four, or a name
   * @return null where tints stay as they are
   * @throws IOException if they can't be read
   */
  static Transfer of(COSBase stated) throws IOException {
    if (stated == null || stated instanceof COSName) {
      return null;
    }
    Transfer transfer = new Transfer();
    boolean changes = false;
    for (int i = 0; i < INKS; i++) {
      COSBase own = stated;
      if (stated instanceof COSArray array) {
        own = array.size() < INKS ? null : array.getObject(i);
      } else if (i > 0) {
        transfer.functions[i] = transfer.functions[0];
        continue;
      }
      if (own != null && !(own instanceof COSName)) {
        transfer.functions[i] = FunctionReader.read(own);
        changes = true;
      }
    }
    return changes ? transfer : null;
  }

  /** Changes the tints of a row in a CMYK layer. */
  void apply(char[] row) {
    for (int i = StateTable.INKS; i < row.length; i++) {
      int own = Math.min(INKS - 1, i - StateTable.INKS);
      if (functions[own] != null) {
        row[i] = (char) tint(own, row[i]);
      }
    }
  }

  private int tint(int own, int tint) {
    if (known[own] == null) {
      known[own] = new int[Tint.FULL + 1];
      Arrays.fill(known[own], UNKNOWN);
    }
    int changed = known[own][tint];
    if (changed == UNKNOWN) {
      try {
        float[] light = new float[1];
        functions[own].eval(new float[] {1 - tint / (float) Tint.FULL}, light);
        changed = Tint.ofFraction(1 - light[0]);
      } catch (IOException e) {
        changed = tint;
      }
      known[own][tint] = changed;
    }
    return changed;
  }
}
