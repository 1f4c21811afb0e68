package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.common.function.PDFunction;

/** The function or functions of a shading: from its parameters to a colour. */
final class ShadingFunctions {
  private final PDFunction[] functions;
  private final float[] color;

  private ShadingFunctions(PDFunction[] functions, int components) {
    this.functions = functions;
    this.color = new float[components];
  }

  /**
   * Reads a shading's functions.
   *
   * @param components of the shading's colour space
   * @return null where it has none
   */
  static ShadingFunctions of(COSDictionary shading, int components) throws IOException {
    COSBase stated = shading.getDictionaryObject(COSName.FUNCTION);
    if (stated == null) {
      return null;
    }
    PDFunction[] functions;
    if (stated instanceof COSArray array) {
      functions = new PDFunction[Math.min(array.size(), components)];
      for (int i = 0; i < functions.length; i++) {
        functions[i] = FunctionReader.read(array.getObject(i));
      }
    } else {
      functions = new PDFunction[] {FunctionReader.read(stated)};
    }
    return new ShadingFunctions(functions, components);
  }

  /** The colour for parameters; the array is used again by the next call. */
  float[] eval(float... parameters) throws IOException {
    if (functions.length == 1) {
      float[] values = functions[0].eval(parameters);
      System.arraycopy(values, 0, color, 0, Math.min(values.length, color.length));
    } else {
      for (int i = 0; i < functions.length; i++) {
        color[i] = functions[i].eval(parameters)[0];
      }
    }
    return color;
  }
}
