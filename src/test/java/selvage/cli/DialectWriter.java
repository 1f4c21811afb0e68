package selvage.cli;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;

/** Writes one measurement as many programs would: CGATS text in any form, and CxF3. */
final class DialectWriter {
  /** A patch as it was read: what it is called, what it is made of, its spectrum and colour. */
  @SuppressWarnings("ArrayRecordComponent") // a fixture, read only
  record Read(String id, double[] cmyk, DoubleFunction<Double> reflectance, double[] lab) {
    /** X, Y, Z for the white of ISO 13655, by the formulas of CIE 15. */
    double[] xyz() {
      double fy = (lab[0] + 16) / 116;
      return new double[] {
        96.422 * cube(fy + lab[1] / 500), 100 * cube(fy), 82.521 * cube(fy - lab[2] / 200)
      };
    }

    private static double cube(double f) {
      return f > 6.0 / 29 ? f * f * f : 3 * 36.0 / 841 * (f - 4.0 / 29);
    }
  }

  /** Columns and cells before they become text. */
  static final class Sheet {
    final List<String> columns = new ArrayList<>();
    final List<List<String>> rows = new ArrayList<>();
    String before = "CGATS.17\nORIGINATOR \"a test\"\n";
    String end = "END_DATA\n";

    Sheet(int rows) {
      for (int i = 0; i < rows; i++) {
        this.rows.add(new ArrayList<>());
      }
    }

    Sheet column(String name, List<String> cells) {
      columns.add(name);
      for (int i = 0; i < rows.size(); i++) {
        rows.get(i).add(cells.get(i));
      }
      return this;
    }

    Sheet before(String text) {
      before = text;
      return this;
    }

    /** Columns from the last to the first. */
    Sheet turned() {
      Collections.reverse(columns);
      rows.forEach(Collections::reverse);
      return this;
    }

    /** Rows from the last to the first. */
    Sheet upsideDown() {
      Collections.reverse(rows);
      return this;
    }

    String text(String gap) {
      StringBuilder text = new StringBuilder(before);
      text.append("NUMBER_OF_FIELDS ").append(columns.size()).append('\n');
      text.append("BEGIN_DATA_FORMAT\n").append(String.join(gap, columns));
      text.append("\nEND_DATA_FORMAT\nNUMBER_OF_SETS ").append(rows.size()).append('\n');
      text.append("BEGIN_DATA\n");
      rows.forEach(row -> text.append(String.join(gap, row)).append('\n'));
      return text.append(end).toString();
    }

    String text() {
      return text(" ");
    }
  }

  private final List<Read> reads;

  DialectWriter(List<Read> reads) {
    this.reads = reads;
  }

  Sheet sheet() {
    return new Sheet(reads.size());
  }

  Sheet ids(String column) {
    return sheet().column(column, reads.stream().map(Read::id).toList());
  }

  /** Numbers from 1 in a column, as programs count what they read. */
  Sheet counted(String column) {
    List<String> numbers = new ArrayList<>();
    for (int i = 1; i <= reads.size(); i++) {
      numbers.add(Integer.toString(i));
    }
    return sheet().column(column, numbers);
  }

  Sheet names(Sheet sheet, String column) {
    return sheet.column(column, reads.stream().map(read -> "\"" + read.id() + "\"").toList());
  }

  Sheet lab(Sheet sheet) {
    return lab(sheet, 0, "%.4f");
  }

  /** Lab with an offset on each axis, in a number format. */
  Sheet lab(Sheet sheet, double offset, String format) {
    for (int axis = 0; axis < 3; axis++) {
      int k = axis;
      sheet.column(
          "LAB_" + "LAB".charAt(axis),
          reads.stream().map(read -> number(format, read.lab()[k] + offset)).toList());
    }
    return sheet;
  }

  Sheet xyz(Sheet sheet, double scale) {
    for (int axis = 0; axis < 3; axis++) {
      int k = axis;
      sheet.column(
          "XYZ_" + "XYZ".charAt(axis),
          reads.stream().map(read -> number("%.6f", scale * read.xyz()[k])).toList());
    }
    return sheet;
  }

  Sheet cmyk(Sheet sheet, double scale, String... columns) {
    for (int ink = 0; ink < 4; ink++) {
      int k = ink;
      sheet.column(
          columns[ink],
          reads.stream().map(read -> number("%.4f", scale * read.cmyk()[k])).toList());
    }
    return sheet;
  }

  /** A column a wavelength; {@code #} in the name stands for the nanometres. */
  Sheet spectra(Sheet sheet, String name, int from, int to, int step, double scale) {
    for (int nm = from; step > 0 ? nm <= to : nm >= to; nm += step) {
      double at = nm;
      sheet.column(
          name.replace("#", Integer.toString(nm)),
          reads.stream()
              .map(read -> number("%.6f", scale * read.reflectance().apply(at)))
              .toList());
    }
    return sheet;
  }

  Sheet pairs(Sheet sheet, String second, double scale) {
    for (int nm = 380; nm <= 730; nm += 10) {
      double at = nm;
      sheet.column("SPECTRAL_NM", Collections.nCopies(reads.size(), Integer.toString(nm)));
      sheet.column(
          second,
          reads.stream()
              .map(read -> number("%.5f", scale * read.reflectance().apply(at)))
              .toList());
    }
    return sheet;
  }

  /** What a CxF object holds of a reading. */
  enum Held {
    LAB_ELEMENTS,
    LAB_ATTRIBUTES,
    XYZ,
    SPECTRUM,
    SPECTRUM_AND_D65
  }

  /**
   * CxF3.
   *
   * @param prefix of all elements, such as {@code cc:}; empty for none
   * @param space the namespace's declaration, with a blank before it
   */
  String cxf(String prefix, String space, Held held, String illumination) {
    StringBuilder text = new StringBuilder("<?xml version=\"1.0\"?>\n<@CxF" + space + ">\n");
    text.append("<@FileInformation><@Creator>a test</@Creator></@FileInformation>\n");
    text.append("<@Resources>\n<@ObjectCollection>\n");
    for (int i = 0; i < reads.size(); i++) {
      Read read = reads.get(i);
      text.append("<@Object ObjectType=\"Measurement\" Name=\"")
          .append(read.id())
          .append("\" Id=\"o" + i + "\">\n<@ColorValues>");
      switch (held) {
        case LAB_ELEMENTS ->
            text.append(triple("ColorCIELab", "LAB", read.lab(), "ColorSpecification=\"s\""));
        case LAB_ATTRIBUTES ->
            text.append(
                String.format(
                    Locale.ROOT,
                    "<@ColorCIELab L=\"%.4f\" A=\"%.4f\" B=\"%.4f\"/>",
                    read.lab()[0],
                    read.lab()[1],
                    read.lab()[2]));
        case XYZ ->
            text.append(triple("ColorCIEXYZ", "XYZ", read.xyz(), "ColorSpecification=\"s\""));
        case SPECTRUM -> text.append(spectrum(read));
        default -> {
          double[] other = {read.lab()[0] - 1, read.lab()[1] + 6, read.lab()[2] - 12};
          text.append(triple("ColorCIELab", "LAB", other, "ColorSpecification=\"d65\""))
              .append(spectrum(read));
        }
      }
      text.append("</@ColorValues>\n</@Object>\n");
    }
    text.append("</@ObjectCollection>\n<@ColorSpecificationCollection>\n")
        .append(specification("s", "D50", illumination));
    if (held == Held.SPECTRUM_AND_D65) {
      text.append(specification("d65", "D65", illumination));
    }
    text.append("</@ColorSpecificationCollection>\n</@Resources>\n</@CxF>\n");
    return text.toString().replace("@", prefix);
  }

  private static String specification(String id, String illuminant, String illumination) {
    return "<@ColorSpecification Id=\""
        + id
        + "\">\n<@TristimulusSpec><@Illuminant>"
        + illuminant
        + "</@Illuminant><@Observer>2_Degree</@Observer></@TristimulusSpec>\n<@MeasurementSpec>"
        + "<@WavelengthRange StartWL=\"380\" Increment=\"10\"/><@Device><@DeviceIllumination>"
        + illumination
        + "</@DeviceIllumination></@Device></@MeasurementSpec>\n</@ColorSpecification>\n";
  }

  private static String triple(String name, String axes, double[] values, String attribute) {
    StringBuilder text = new StringBuilder("<@" + name + " " + attribute + ">");
    for (int i = 0; i < 3; i++) {
      char axis = axes.charAt(i);
      text.append(String.format(Locale.ROOT, "<@%s>%.5f</@%s>", axis, values[i], axis));
    }
    return text.append("</@" + name + ">").toString();
  }

  private static String spectrum(Read read) {
    StringBuilder text = new StringBuilder("<@ReflectanceSpectrum ColorSpecification=\"s\">\n");
    for (int nm = 380; nm <= 730; nm += 10) {
      text.append(number("%.6f", read.reflectance().apply(nm))).append(nm % 100 == 0 ? "\n" : " ");
    }
    return text.append("</@ReflectanceSpectrum>").toString();
  }

  static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** Points of numbers as commas, names of standards left alone. */
  static String commas(String text) {
    return text.replaceAll("(?<=[\\s-]\\d{1,3})\\.(?=\\d)", ",");
  }

  static String number(String format, double value) {
    return String.format(Locale.ROOT, format, value);
  }

  static byte[] joined(byte[] one, byte[] other) {
    byte[] both = Arrays.copyOf(one, one.length + other.length);
    System.arraycopy(other, 0, both, one.length, other.length);
    return both;
  }
}
