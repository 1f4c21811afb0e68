package selvage.separation;

import java.io.IOException;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;

/** The function or functions of a shading: from its parameters to a colour. */
final class ShadingFunctions {
  private final TintFunction[] functions;
  private final float[] color;
  private final float[] single = new float[1];
  private final float[] one = new float[1];
  private final float[] two = new float[2];

  private ShadingFunctions(TintFunction[] functions, int components) {
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
    TintFunction[] functions;
    if (stated instanceof COSArray array) {
      functions = new TintFunction[Math.min(array.size(), components)];
      for (int i = 0; i < functions.length; i++) {
        functions[i] = FunctionReader.read(array.getObject(i));
      }
    } else {
      functions = new TintFunction[] {FunctionReader.read(stated)};
    }
    return new ShadingFunctions(functions, components);
  }

  /** The colour for one parameter; the array is used again by the next call. */
  float[] eval(float parameter) throws IOException {
    one[0] = parameter;
    return evalAll(one);
  }

  /** The colour for two parameters; the array is used again by the next call. */
  float[] eval(float first, float second) throws IOException {
    two[0] = first;
    two[1] = second;
    return evalAll(two);
  }

  private float[] evalAll(float[] parameters) throws IOException {
    if (functions.length == 1) {
      functions[0].eval(parameters, color);
      return color;
    }
    for (int i = 0; i < functions.length; i++) {
      functions[i].eval(parameters, single);
      color[i] = single[0];
    }
    return color;
  }
}
