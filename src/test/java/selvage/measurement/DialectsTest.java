package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import selvage.color.ColorDifference;
import selvage.color.Lab;
import selvage.finding.InputException;

/**
 * One measurement of three patches in the dialects met in files. The spectra are flat, so that
 * their Lab is known by CIELAB's formula: L* of Y = 100·r, a* and b* 0.
 */
class DialectsTest {
  private static final double[] GREYS = {0.85, 0.42, 0.07};

  private static Stream<Arguments> dialects() {
    String plain = "CGATS.17\n" + table("SAMPLE_ID LAB_L LAB_A LAB_B", "", 1);
    String xyz = table("SAMPLE_ID XYZ_X XYZ_Y XYZ_Z", "xyz", 100);
    return Stream.of(
        of("plain", plain),
        of("no first word, ISO keyword order", plain.substring(9)),
        of("crlf and end mark", plain.replace("\n", "\r\n") + "\u001A"),
        of("cr", plain.replace('\n', '\r')),
        of("decimal comma", plain.replace(".", ",").replace("CGATS,17", "CGATS.17")),
        of("tabs, trailing", plain.replace(" ", "\t").replace("\n", "\t\n")),
        of("wrong counts", plain.replace("SETS 3", "SETS 7")),
        of("xyz to 100", xyz),
        of("xyz to 1", table("SampleID XYZ_X XYZ_Y XYZ_Z", "xyz", 1)),
        of("spreadsheet quotes", quoted(plain)),
        of("spectra to 1", table("SAMPLE_ID " + columns("SPECTRAL_NM", ""), "r", 1)),
        of("spectra to 100", table("SAMPLE_ID " + columns("nm", ""), "r", 100)),
        of("spectra with suffix", table("SAMPLE_ID " + columns("", "_NM"), "r", 1)),
        of("spectra in pairs", table("SAMPLE_ID " + pairs(), "pairs", 100)),
        Arguments.of("utf-16", ("\uFEFF" + plain).getBytes(StandardCharsets.UTF_16LE)),
        Arguments.of("utf-8 mark", ("\uFEFF" + plain).getBytes(StandardCharsets.UTF_8)),
        of("latin-1", plain + "# gr\u00FCn\n", "ISO-8859-1"),
        of("cxf spectrum", cxf("cc:", "r", " StartWL=\"380\"")),
        of("cxf without namespace", cxf("", "r", " StartWL=\"380\"")),
        of("cxf lab elements", cxf("cc:", "lab", "")),
        of("cxf lab attributes", cxf("", "attributes", "")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("dialects")
  void read_dialect_sameColors(String name, byte[] bytes) throws InputException {
    Measurement measurement = MeasurementReader.parse("m.txt", bytes).get(0);
    assertThat(measurement.readings()).hasSize(GREYS.length);
    for (int i = 0; i < GREYS.length; i++) {
      Reading reading = measurement.readings().get(i);
      assertThat(reading.id() + reading.name()).contains("J0" + (i + 1));
      assertThat(ColorDifference.de00(reading.lab(), lab(i))).as(name).isLessThan(0.01);
    }
  }

  @Test
  void read_hostileXml_refusedWithPlace() {
    String good = cxf("cc:", "r", " StartWL=\"380\"");
    String dtd = "<!DOCTYPE x [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>";
    assertRefused(dtd + good, "m.cxf:1: XML: expected XML without a document type");
    assertRefused(good.replace("J01", "&e;"), "m.cxf:");
    assertRefused("<CxF>".repeat(1000), "nested at most 64 deep");
    assertRefused("<html/>", "found <html>");
    assertRefused(good.substring(0, good.length() / 2), "well-formed");
    assertRefused(good.replace("0.42 ", "n/a "), "ReflectanceSpectrum: expected a number");
    assertRefused(good.replace(" StartWL=\"380\"", ""), "expected StartWL");
    assertRefused(good.replace("M1_Meas", "M3_Meas").replace("<cc:CxF", "<cc:X"), "expected a CxF");
    assertRefused(cxf("", "lab", "").replace("<L>", "<Q>").replace("</L>", "</Q>"), "found no L");
    assertRefused("<CxF/>", "found none among 0 objects");
  }

  private static void assertRefused(String text, String message) {
    assertThatThrownBy(
            () -> MeasurementReader.parse("m.cxf", text.getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(message)
        .satisfies(e -> assertThat(e.getMessage().lines()).hasSize(1));
  }

  private static Lab lab(int i) {
    return new Lab(116 * Math.cbrt(GREYS[i]) - 16, 0, 0);
  }

  private static Arguments of(String name, String text) {
    return of(name, text, "UTF-8");
  }

  private static Arguments of(String name, String text, String charset) {
    return Arguments.of(name, text.getBytes(Charset.forName(charset)));
  }

  private static String columns(String before, String after) {
    StringBuilder text = new StringBuilder();
    for (int nm = 380; nm <= 730; nm += 10) {
      text.append(before).append(nm).append(after).append(' ');
    }
    return text.toString().strip();
  }

  private static String pairs() {
    return "SPECTRAL_NM SPECTRAL_PCT ".repeat(36).strip();
  }

  private static String table(String columns, String what, double scale) {
    StringBuilder text =
        new StringBuilder("NUMBER_OF_SETS 3\nBEGIN_DATA_FORMAT\n")
            .append(columns)
            .append("\nEND_DATA_FORMAT\nBEGIN_DATA\n");
    for (int i = 0; i < GREYS.length; i++) {
      double r = GREYS[i] * scale;
      text.append("J0").append(i + 1).append(' ');
      switch (what) {
        case "xyz" -> text.append(numbers(0.96422 * r, r, 0.82521 * r));
        case "r" -> text.append(numbers(flat(r)));
        case "pairs" -> {
          for (int nm = 380; nm <= 730; nm += 10) {
            text.append(numbers(nm, r)).append(' ');
          }
        }
        default -> text.append(numbers(lab(i).l(), 0, 0));
      }
      text.append('\n');
    }
    return text.append("END_DATA\n").toString();
  }

  private static double[] flat(double r) {
    double[] values = new double[36];
    Arrays.fill(values, r);
    return values;
  }

  private static String numbers(double... values) {
    StringBuilder text = new StringBuilder();
    for (double value : values) {
      text.append(text.length() == 0 ? "" : " ").append(String.format(Locale.ROOT, "%.5f", value));
    }
    return text.toString();
  }

  private static String quoted(String text) {
    StringBuilder quoted = new StringBuilder();
    for (String line : text.split("\n", -1)) {
      quoted.append(line.isEmpty() ? "" : "\"" + line + "\"").append('\n');
    }
    return quoted.toString();
  }

  private static String cxf(String prefix, String what, String start) {
    String space = prefix.isEmpty() ? "" : " xmlns:cc=\"http://colorexchangeformat.com/CxF3-core\"";
    StringBuilder text =
        new StringBuilder("<@CxF" + space + ">\n<@Resources><@ObjectCollection>\n");
    for (int i = 0; i < GREYS.length; i++) {
      text.append("<@Object ObjectType=\"M1_Measurement\" Name=\"J0" + (i + 1) + "\" Id=\"c\">")
          .append("<@ColorValues>");
      switch (what) {
        case "r" ->
            text.append("<@ReflectanceSpectrum" + start + ">")
                .append(numbers(flat(GREYS[i])).replaceFirst("0.42000", "0.42"))
                .append(" </@ReflectanceSpectrum>");
        case "lab" ->
            text.append("<@ColorCIELab><@L>" + lab(i).l())
                .append("</@L><@A>0</@A><@B>0</@B></@ColorCIELab>");
        default -> text.append("<@ColorCIELab L=\"" + lab(i).l() + "\" A=\"0\" B=\"0\"/>");
      }
      text.append("</@ColorValues></@Object>\n");
    }
    text.append("</@ObjectCollection></@Resources></@CxF>\n");
    return text.toString().replace("@", prefix);
  }
}
