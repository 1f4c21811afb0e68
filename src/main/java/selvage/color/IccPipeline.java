package selvage.color;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import selvage.finding.InputException;

/**
 * One direction of an ICC profile as a row of steps: curves, a table, matrices. Reads the types
 * {@code mft1}, {@code mft2}, {@code mAB } and {@code mBA }, and the matrix and curve tags of RGB
 * and gray profiles. Immutable; values are encoded, 0 to 1 a channel.
 */
final class IccPipeline {
  private interface Step {
    void apply(double[] channels, double[] scratch);
  }

  private final List<Step> steps;
  private final int inputs;
  private final int outputs;
  private final IccEncoding encoding;

  private IccPipeline(List<Step> steps, int inputs, int outputs, IccEncoding encoding) {
    this.steps = List.copyOf(steps);
    this.inputs = inputs;
    this.outputs = outputs;
    this.encoding = encoding;
  }

  int inputs() {
    return inputs;
  }

  int outputs() {
    return outputs;
  }

  IccEncoding encoding() {
    return encoding;
  }

  /** Room for {@link #apply}'s channels, inputs first. */
  static double[] channels() {
    return new double[4];
  }

  /**
   * Runs the steps in place.
   *
   * @param channels from {@link #channels}; the inputs are replaced by the outputs
   * @param scratch as large
   */
  void apply(double[] channels, double[] scratch) {
    for (Step step : steps) {
      step.apply(channels, scratch);
    }
  }

  /**
   * Reads the pipeline of a tag from device to connection space ({@code A2Bn}) or back ({@code
   * B2An}).
   *
   * @param toConnection whether the device's values are the inputs
   * @return null where the profile lacks the tag
   * @throws InputException where the tag is broken
   */
  static IccPipeline read(IccProfile profile, String tag, boolean toConnection)
      throws InputException {
    int at = profile.find(tag);
    if (at < 0) {
      return null;
    }
    profile.require(at, 32, "the tag \"" + tag + "\"");
    String type = profile.signature(at);
    int inputs = profile.u8(at + 8);
    int outputs = profile.u8(at + 9);
    int device = toConnection ? inputs : outputs;
    int connection = toConnection ? outputs : inputs;
    if (connection != 3 || device != profile.components()) {
      throw profile.broken(
          "expected \""
              + tag
              + "\" between "
              + profile.dataSpace()
              + " and three channels, found "
              + inputs
              + " to "
              + outputs);
    }
    boolean xyz = profile.connectionSpace().equals("XYZ ");
    if (!xyz && !profile.connectionSpace().equals("Lab ")) {
      throw profile.broken(
          "expected the connection space Lab or XYZ, found " + profile.connectionSpace());
    }
    List<Step> steps = new ArrayList<>();
    IccEncoding encoding = xyz ? IccEncoding.XYZ : IccEncoding.LAB;
    boolean tetrahedral = toConnection || xyz;
    switch (type) {
      case "mft1" -> legacySteps(profile, at, 1, tetrahedral, xyz && !toConnection, steps);
      case "mft2" -> {
        legacySteps(profile, at, 2, tetrahedral, xyz && !toConnection, steps);
        encoding = xyz ? IccEncoding.XYZ : IccEncoding.LAB_LEGACY;
      }
      case "mAB ", "mBA " -> {
        if (type.equals("mAB ") != toConnection) {
          throw profile.broken("expected the other direction in \"" + tag + "\", found " + type);
        }
        modernSteps(profile, at, toConnection, tetrahedral, steps);
      }
      default ->
          throw profile.broken(
              "expected \"" + tag + "\" as mft1, mft2, mAB or mBA, found \"" + type + "\"");
    }
    return new IccPipeline(steps, inputs, outputs, encoding);
  }

  /**
   * The pipeline from three device channels by curves and a matrix, or from gray by a curve.
   *
   * @throws InputException where a tag is missing or broken
   */
  static IccPipeline ofCurves(IccProfile profile) throws InputException {
    boolean xyz = profile.connectionSpace().equals("XYZ ");
    if (profile.components() == 1) {
      IccCurve curve = IccCurve.read(profile, require(profile, "kTRC"));
      Step gray =
          (channels, scratch) -> {
            double y = curve.at(channels[0]);
            double l = xyz ? 116 * ReferenceWhite.f(y) - 16 : 100 * y;
            IccEncoding.LAB.encode(l, 0, 0, channels);
          };
      return new IccPipeline(List.of(gray), 1, 3, IccEncoding.LAB);
    }
    if (!xyz || profile.components() != 3) {
      throw profile.broken("expected tables from device values to colour, found none");
    }
    IccCurve[] curves = new IccCurve[3];
    double[] matrix = new double[12];
    String[] names = {"r", "g", "b"};
    for (int i = 0; i < 3; i++) {
      curves[i] = IccCurve.read(profile, require(profile, names[i] + "TRC"));
      double[] column = profile.xyz(names[i] + "XYZ");
      for (int row = 0; row < 3; row++) {
        matrix[3 * row + i] = column[row];
      }
    }
    List<Step> steps = new ArrayList<>();
    steps.add(curves(curves));
    steps.add(matrix(matrix));
    steps.add((channels, scratch) -> IccEncoding.encodeXyz(channels));
    return new IccPipeline(steps, 3, 3, IccEncoding.XYZ);
  }

  private static int require(IccProfile profile, String tag) throws InputException {
    int at = profile.find(tag);
    if (at < 0) {
      throw profile.broken("expected tables or the tag \"" + tag + "\", found neither");
    }
    return at;
  }

  /** Matrix, curves, table, curves of {@code mft1} and {@code mft2} (ICC.1:2022, 10.10, 10.11). */
  private static void legacySteps(
      IccProfile profile, int at, int width, boolean tetrahedral, boolean matrix, List<Step> steps)
      throws InputException {
    int inputs = profile.u8(at + 8);
    int outputs = profile.u8(at + 9);
    int points = profile.u8(at + 10);
    int inputEntries = 256;
    int outputEntries = 256;
    int next = at + 48;
    profile.require(at, 52, "a table's header");
    if (width == 2) {
      inputEntries = profile.u16(at + 48);
      outputEntries = profile.u16(at + 50);
      next = at + 52;
    }
    if (inputEntries < 2 || outputEntries < 2) {
      throw profile.broken("expected curves of at least 2 entries, found fewer");
    }
    if (matrix) {
      double[] values = new double[12];
      for (int i = 0; i < 9; i++) {
        values[i] = profile.fixed(at + 12 + 4 * i);
      }
      steps.add(matrix(values));
    }
    steps.add(curves(tables(profile, next, inputs, inputEntries, width)));
    next += inputs * inputEntries * width;
    int[] sizes = new int[inputs];
    Arrays.fill(sizes, points);
    IccTable table = IccTable.read(profile, next, sizes, outputs, width, tetrahedral);
    steps.add(table::apply);
    long entries = outputs;
    for (int i = 0; i < inputs; i++) {
      entries *= points;
    }
    next += (int) (entries * width);
    steps.add(curves(tables(profile, next, outputs, outputEntries, width)));
  }

  private static IccCurve[] tables(IccProfile profile, int at, int count, int entries, int width)
      throws InputException {
    profile.require(at, (long) count * entries * width, "a table's curves");
    IccCurve[] curves = new IccCurve[count];
    for (int curve = 0; curve < count; curve++) {
      double[] table = new double[entries];
      for (int i = 0; i < entries; i++) {
        int place = at + (curve * entries + i) * width;
        table[i] = width == 1 ? profile.u8(place) / 255.0 : profile.u16(place) / 65535.0;
      }
      curves[curve] = IccCurve.ofTable(table);
    }
    return curves;
  }

  /** The five optional parts of {@code mAB } and {@code mBA } (ICC.1:2022, 10.12, 10.13). */
  private static void modernSteps(
      IccProfile profile, int at, boolean toConnection, boolean tetrahedral, List<Step> steps)
      throws InputException {
    int inputs = profile.u8(at + 8);
    int outputs = profile.u8(at + 9);
    int device = toConnection ? inputs : outputs;
    Step b = part(profile, at, 12) ? curvesAt(profile, offset(profile, at, 12), 3) : null;
    Step matrix = part(profile, at, 16) ? matrixAt(profile, offset(profile, at, 16)) : null;
    Step m = part(profile, at, 20) ? curvesAt(profile, offset(profile, at, 20), 3) : null;
    Step table =
        part(profile, at, 24)
            ? tableAt(profile, offset(profile, at, 24), inputs, outputs, tetrahedral)
            : null;
    Step a = part(profile, at, 28) ? curvesAt(profile, offset(profile, at, 28), device) : null;
    if (table == null && inputs != outputs) {
      throw profile.broken("expected a table from " + inputs + " to " + outputs + ", found none");
    }
    Step[] order =
        toConnection ? new Step[] {a, table, m, matrix, b} : new Step[] {b, matrix, m, table, a};
    for (Step step : order) {
      if (step != null) {
        steps.add(step);
      }
    }
  }

  private static boolean part(IccProfile profile, int at, int field) {
    return profile.u32(at + field) != 0;
  }

  private static int offset(IccProfile profile, int at, int field) throws InputException {
    long offset = at + profile.u32(at + field);
    profile.require(offset, 12, "the parts of a tag");
    return (int) offset;
  }

  private static Step curvesAt(IccProfile profile, int at, int count) throws InputException {
    IccCurve[] curves = new IccCurve[count];
    int next = at;
    for (int i = 0; i < count; i++) {
      curves[i] = IccCurve.read(profile, next);
      next += curves[i].paddedLength();
    }
    return curves(curves);
  }

  private static Step matrixAt(IccProfile profile, int at) throws InputException {
    profile.require(at, 48, "a matrix");
    double[] matrix = new double[12];
    for (int i = 0; i < 12; i++) {
      matrix[i] = profile.fixed(at + 4 * i);
    }
    return matrix(matrix);
  }

  private static Step tableAt(
      IccProfile profile, int at, int inputs, int outputs, boolean tetrahedral)
      throws InputException {
    profile.require(at, 20, "a table's header");
    int[] sizes = new int[inputs];
    for (int i = 0; i < inputs; i++) {
      sizes[i] = profile.u8(at + i);
    }
    IccTable table =
        IccTable.read(profile, at + 20, sizes, outputs, profile.u8(at + 16), tetrahedral);
    return table::apply;
  }

  private static Step curves(IccCurve[] curves) {
    return (channels, scratch) -> {
      for (int i = 0; i < curves.length; i++) {
        channels[i] = curves[i].at(channels[i]);
      }
    };
  }

  /** Nine factors by row, then three offsets. */
  private static Step matrix(double[] m) {
    return (channels, scratch) -> {
      double x = channels[0];
      double y = channels[1];
      double z = channels[2];
      channels[0] = m[0] * x + m[1] * y + m[2] * z + m[9];
      channels[1] = m[3] * x + m[4] * y + m[5] * z + m[10];
      channels[2] = m[6] * x + m[7] * y + m[8] * z + m[11];
    };
  }
}
