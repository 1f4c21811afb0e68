package selvage.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static selvage.cli.DialectWriter.commas;
import static selvage.cli.DialectWriter.utf8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import selvage.cli.DialectWriter.Held;
import selvage.cli.DialectWriter.Read;
import selvage.cli.DialectWriter.Sheet;
import selvage.color.Lab;
import selvage.color.ReferenceTable;
import selvage.measurement.StripFixture;
import selvage.strip.StripsJson;

/**
 * One measurement through {@code score} in every dialect that we know of, against colour
 * differences computed apart from the program: spectra by formula, their CIELAB by another
 * program's integration at 1 nm, CIEDE2000 by {@link IndependentDifference}.
 */
class DialectsEndToEndTest {
  private static final String STRIP = "KM7T-90QA";
  private static final int PATCHES = 12;
  private static final int JOB = 6;
  private static final String[] CMYK = {"CMYK_C", "CMYK_M", "CMYK_Y", "CMYK_K"};
  private static final String CORE = "=\"http://colorexchangeformat.com/CxF3-core\"";
  private static final List<Read> READS = reads();
  private static final DialectWriter WRITER = new DialectWriter(READS);

  @TempDir Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  /** Smooth spectra whose colours lie well apart. */
  private static List<Read> reads() {
    List<Read> reads = new ArrayList<>();
    for (double[] row :
        ReferenceTable.read(
            "spectra-integrated.csv",
            "base,step,step_nm,step_width,peak,peak_nm,peak_width,l1,a1,b1,l5,a5,b5"
                .split(",", -1))) {
      double[] lab = {row[7], row[8], row[9]};
      boolean apart =
          reads.stream()
              .allMatch(
                  read ->
                      Math.hypot(
                              Math.hypot(read.lab()[0] - lab[0], read.lab()[1] - lab[1]),
                              read.lab()[2] - lab[2])
                          > 14);
      if (apart && reads.size() < PATCHES) {
        int i = reads.size();
        String id = i < JOB ? "J0" + (i + 1) : "S0" + (i + 1 - JOB);
        reads.add(new Read(id, new double[] {5 * i, 60 - 4 * i, 7, 3}, nm -> at(row, nm), lab));
      }
    }
    assertThat(reads).hasSize(PATCHES);
    return reads;
  }

  /** The formula in the header of the table of spectra. */
  private static double at(double[] row, double nm) {
    double peak = (nm - row[5]) / row[6];
    return row[0]
        + row[1] / (1 + Math.exp(-(nm - row[2]) / row[3]))
        + row[4] * Math.exp(-peak * peak);
  }

  /** Aims from 0.5 to some 5 away from the readings, in all directions. */
  private static double[] aim(int i) {
    double[] lab = READS.get(i).lab();
    double size = 0.5 + 0.35 * i;
    return new double[] {
      lab[0] + size * Math.cos(i), lab[1] + size * Math.sin(2 * i), lab[2] - size * Math.cos(3 * i)
    };
  }

  private static Stream<Arguments> dialects() {
    String plain = WRITER.lab(WRITER.ids("SAMPLE_ID")).text();
    String tabbed = WRITER.lab(WRITER.ids("SAMPLE_ID")).text("\t");
    String[] share = {"4CLR_1", "4CLR_2", "4CLR_3", "4CLR_4"};
    return Stream.of(
        of("plain", plain),
        of("tabs, trailing, CRLF, end mark", tabbed.replace("\n", "\t\r\n") + "\u001A\u001A"),
        of(
            "CR, byte order mark, decimal commas, tabs",
            "\uFEFF" + commas(tabbed).replace('\n', '\r')),
        utf16("UTF-16 little-endian, CRLF", plain.replace("\n", "\r\n"), StandardCharsets.UTF_16LE),
        utf16("UTF-16 big-endian, commas", commas(plain), StandardCharsets.UTF_16BE),
        of("fields from last to first", WRITER.lab(WRITER.ids("SAMPLE_ID")).turned().text()),
        of("rows from last to first", WRITER.lab(WRITER.ids("SAMPLE_ID")).upsideDown().text()),
        of("small letters", plain.toLowerCase(Locale.ROOT).replace("j0", "J0").replace("s0", "S0")),
        of("SampleID", WRITER.lab(WRITER.ids("SampleID")).text()),
        of("PATCH_ID", WRITER.lab(WRITER.ids("PATCH_ID")).text()),
        of("SAMPLE_LOC", WRITER.lab(WRITER.ids("SAMPLE_LOC")).text()),
        of(
            "numbers as ids, ids as names",
            WRITER.lab(WRITER.names(WRITER.counted("SAMPLE_ID"), "SAMPLE_NAME")).text()),
        of(
            "numbers as ids, places and names",
            WRITER.lab(WRITER.names(places(WRITER.counted("SAMPLE_ID")), "SAMPLE_NAME")).text()),
        of(
            "numbers as ids, CMYK",
            WRITER.lab(WRITER.cmyk(WRITER.counted("SAMPLE_ID"), 1, CMYK)).upsideDown().text()),
        of("no ids, CMYK to 1", WRITER.lab(WRITER.cmyk(WRITER.sheet(), 0.01, CMYK)).text()),
        of("no ids, 4CLR", WRITER.lab(WRITER.cmyk(WRITER.sheet(), 1, share)).text()),
        of("numbers as ids, in order", WRITER.lab(WRITER.counted("SAMPLE_ID")).text()),
        of("numbers as ids, read backwards", WRITER.lab(WRITER.sheet()).upsideDown().text()),
        of("XYZ", WRITER.xyz(WRITER.ids("SAMPLE_ID"), 1).text()),
        of("XYZ to 1, commas", commas(WRITER.xyz(WRITER.ids("SAMPLE_ID"), 0.01).text())),
        of(
            "XYZ and Lab, turned",
            WRITER.lab(WRITER.xyz(WRITER.ids("SAMPLE_ID"), 1)).turned().text()),
        of("signs and exponents", WRITER.lab(WRITER.ids("SAMPLE_ID"), 0, "%+.6E").text()),
        of("numbers in quotes", WRITER.lab(WRITER.ids("SAMPLE_ID"), 0, "\"%.3f\"").text()),
        of("columns that say nothing here", noise().text("\t")),
        of("wrong counts, comments, no first word", commented(plain)),
        of(
            "no counts, no END_DATA",
            plain.replaceAll("NUMBER_OF_\\w+ \\d+\n", "").replace("END_DATA\n", "")),
        of("columns a line each, rows over two lines", wrapped(plain)),
        of(
            "marks within lines",
            plain
                .replace("BEGIN_DATA_FORMAT\n", "BEGIN_DATA_FORMAT ")
                .replace("\nEND_DATA_FORMAT", " END_DATA_FORMAT")),
        of("spreadsheet quotes", quoted(tabbed)),
        Arguments.of(
            "Latin-1",
            plain
                .replace("a test", "45\u00B0:0\u00B0, gepr\u00FCft")
                .getBytes(StandardCharsets.ISO_8859_1)),
        of(
            "unannounced keywords",
            plain.replace(
                "ORIGINATOR", "Temperature 21.5\nDOOR ajar, \"a\" b\nISSUED_BY me\nORIGINATOR")),
        of(
            "blank lines and no-break blanks",
            plain.replace("\n", "\n \t\n").replace(" -", "\u00A0 -")),
        of("CTI3", plain.replace("CGATS.17", "CTI3")),
        of("IT8.7/4 behind blank lines", plain.replace("CGATS.17", "\n\nIT8.7/4")),
        of(
            "a table of device values before",
            WRITER.cmyk(WRITER.ids("SAMPLE_ID"), 1, CMYK).text() + plain),
        of("M1 beside M0", condition("M1", 3) + condition("M0", 0)),
        spectra("SPECTRAL_NM#", 380, 730, 10, 1),
        spectra("SPECTRAL_NM_#", 380, 730, 10, 100),
        spectra("SPECTRAL_#", 360, 830, 5, 1),
        spectra("SPEC_#", 380, 780, 20, 100),
        spectra("NM#", 730, 380, -10, 1),
        spectra("nm#", 380, 730, 10, 100),
        spectra("#_NM", 380, 780, 5, 100),
        spectra("R_#", 340, 1000, 10, 1),
        spectra("SPECTRAL_PCT_#", 380, 730, 10, 100),
        spectra("SPECTRAL_DEC#", 380, 730, 10, 1),
        spectra("#", 380, 730, 10, 1),
        of("pairs in percent", WRITER.pairs(WRITER.ids("SAMPLE_ID"), "SPECTRAL_PCT", 100).text()),
        of(
            "pairs of parts, commas",
            commas(WRITER.pairs(WRITER.ids("SAMPLE_ID"), "SPECTRAL_DEC", 1).text("\t"))),
        of(
            "Lab before spectra of another table",
            WRITER
                .spectra(WRITER.lab(WRITER.ids("SAMPLE_ID")), "NM#", 380, 730, 10, 1)
                .turned()
                .text()),
        of(
            "CxF, prefix, Lab",
            WRITER.cxf("cc:", " xmlns:cc" + CORE, Held.LAB_ELEMENTS, "M0_Incandescent")),
        of(
            "CxF, default namespace, XYZ",
            WRITER.cxf("", " xmlns" + CORE, Held.XYZ, "M0_Incandescent")),
        of("CxF, no namespace, attributes", WRITER.cxf("", "", Held.LAB_ATTRIBUTES, "")),
        of("CxF, spectra", WRITER.cxf("x:", " xmlns:x" + CORE, Held.SPECTRUM, "M0_Incandescent")),
        of(
            "CxF, spectra beside Lab for D65",
            "\uFEFF" + WRITER.cxf("", " xmlns" + CORE, Held.SPECTRUM_AND_D65, "M0_Incandescent")),
        utf16(
            "CxF in UTF-16, CRLF",
            WRITER.cxf("", " xmlns" + CORE, Held.SPECTRUM, "").replace("\n", "\r\n"),
            StandardCharsets.UTF_16LE),
        of(
            "CxF on one line",
            WRITER.cxf("", " xmlns" + CORE, Held.LAB_ELEMENTS, "").replace("\n", "")));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("dialects")
  void score_dialect_differencesAsComputedIndependently(String name, byte[] bytes)
      throws IOException {
    Path measured = written(bytes);
    assertThat(run("score", strips(), measured, "--json", "-", "--quiet"))
        .as(err.toString())
        .isIn(0, 4, 5);
    JsonNode patches = new ObjectMapper().readTree(out.toString()).path("patches");
    assertThat(patches).hasSize(PATCHES);
    for (JsonNode patch : patches) {
      int i = index(patch.path("id").textValue());
      assertThat(patch.path("de00").doubleValue())
          .as("%s of %s", patch.path("id"), name)
          .isCloseTo(IndependentDifference.de00(aim(i), READS.get(i).lab()), within(0.01));
    }
  }

  private static Stream<Arguments> unusable() {
    String plain = WRITER.lab(WRITER.ids("SAMPLE_ID")).text();
    String tabbed = WRITER.lab(WRITER.ids("SAMPLE_ID")).text("\t");
    String[] lines = plain.split("(?<=\n)", -1);
    String l = DialectWriter.number("%.4f", READS.get(3).lab()[0]);
    String cxf = WRITER.cxf("", " xmlns" + CORE, Held.LAB_ELEMENTS, "M0_Incandescent");
    String spectral = WRITER.cxf("", " xmlns" + CORE, Held.SPECTRUM, "M0_Incandescent");
    return Stream.of(
        of(
            "missing value, tabs",
            tabbed.replace(l, ""),
            ":12: LAB_L: expected a number, found nothing"),
        of("missing value, blanks", plain.replace(" " + l, ""), ":12: row 4: expected 4 values"),
        of("word for a value", plain.replace(l, "-"), ":12: LAB_L: expected a number, found \"-\""),
        of("NaN", plain.replace(l, "NaN"), ":12: LAB_L: expected a number, found \"NaN\""),
        of("infinite", plain.replace(l, "1e999"), ":12: LAB_L: expected a number, found \"1e999\""),
        of("two points", plain.replace(l, "4.5.6"), ":12: LAB_L: expected a number"),
        of(
            "out of range",
            plain.replace(l, "412.0"),
            ":12: LAB_L: expected a number from 0 to 100"),
        of("short by a row", plain.replace(lines[10], ""), "found none for J03"),
        of("short by half", String.join("", List.of(lines).subList(0, 14)), "the file is cut off"),
        of("ends within a number", plain.substring(0, plain.indexOf(l) + 2), "the file is cut off"),
        of("empty", "", "found an empty file"),
        of("blanks alone", " \r\n\t\n", "found an empty file"),
        of(
            "header alone",
            "CGATS.17\nORIGINATOR \"x\"\n",
            "expected CGATS text with BEGIN_DATA_FORMAT"),
        Arguments.of(
            "binary",
            DialectWriter.joined(
                new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0, 0, 0, 13}, utf8(plain)),
            "m.txt"),
        Arguments.of("zeros", new byte[4096], "found binary data"),
        Arguments.of(
            "binary after the rows",
            DialectWriter.joined(utf8(plain), new byte[] {0, 1, 2, 3}),
            "found binary data"),
        of(
            "another strip's, by its id",
            plain.replace("ORIGINATOR", "STRIP_ID \"ZZZZ-9999\"\nORIGINATOR"),
            "ZZZZ-9999"),
        of(
            "another strip's, by its colours",
            other(),
            ":9: J01: expected colours of strip KM7T-90QA"),
        of(
            "polarized",
            plain.replace("ORIGINATOR", "POLARIZATION \"yes\"\nORIGINATOR"),
            "found M3"),
        of(
            "polarized, by its filter",
            plain.replace("ORIGINATOR", "FILTER \"Pol\"\nORIGINATOR"),
            "found M3"),
        of(
            "polarized, by its condition",
            plain.replace("ORIGINATOR", "MEASUREMENT_CONDITION M3\nORIGINATOR"),
            "found M3"),
        of("polarized CxF", cxf.replace("M0_Incandescent", "M3_Polarized"), "found M3"),
        of(
            "external entity",
            entity(cxf, "SYSTEM \"file:///etc/hostname\""),
            ":2: XML: expected XML without a document type"),
        of(
            "entities upon entities",
            entity(cxf, "\"&e;&e;\""),
            ":2: XML: expected XML without a document type"),
        of("entity that nobody declared", cxf.replace("a test", "&e;"), ":3: XML: "),
        of("CxF cut off", cxf.substring(0, cxf.length() / 2), "XML: expected well-formed XML"),
        of(
            "CxF without a value",
            cxf.replaceFirst("<B>[^<]*</B>", ""),
            ":7: ColorCIELab: expected L, A, B, found no B"),
        of(
            "CxF with a word for a value",
            cxf.replaceFirst("<L>[^<]*</L>", "<L>n/a</L>"),
            ":7: L: expected a number, found \"n/a\""),
        of(
            "CxF with an empty spectrum",
            spectral.replaceFirst("(?s)(Spectrum[^>]*>)[^<]*", "$1"),
            ":7: ReflectanceSpectrum: expected numbers, found nothing"),
        of(
            "CxF with a hole in a spectrum",
            spectral.replaceFirst("\n0\\.\\d+", "\nn/a"),
            "ReflectanceSpectrum: expected a number, found \"n/a\""),
        of(
            "other illuminant",
            plain.replace("ORIGINATOR", "WEIGHTING_FUNCTION \"ILLUMINANT, D65\"\nORIGINATOR"),
            ":2: WEIGHTING_FUNCTION: expected colours for D50"),
        of(
            "no colours",
            WRITER.cmyk(WRITER.ids("SAMPLE_ID"), 1, CMYK).text(),
            "expected columns LAB_L LAB_A LAB_B"),
        of(
            "spectra without the red",
            WRITER.spectra(WRITER.ids("SAMPLE_ID"), "NM#", 400, 600, 10, 1).text(),
            "found 400 to 600 nm"),
        of(
            "CxF whose spectra run to neither 1 nor 100",
            spectral.replaceAll("([ \\n])0\\.", "$17."),
            "ReflectanceSpectrum: expected spectra from 0 to 1 or from 0 to 100, found 7."),
        of("one id twice", plain.replace("\nJ02", "\nJ01"), ": J01: "),
        of("not XML, not CGATS", "{\"measured\": [1, 2, 3]}", "expected CGATS text"));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("unusable")
  void score_unusableFile_statusInputOneLineThatNamesThePlace(
      String name, byte[] bytes, String place) throws IOException {
    Path measured = written(bytes);
    Path json = folder.resolve("score.json");
    assertThat(run("score", strips(), measured, "--json", json)).as(name).isEqualTo(3);
    assertThat(err.toString()).contains(measured.toString()).contains(place);
    assertThat(err.toString().strip().lines()).hasSize(1);
    assertThat(out.toString()).isEmpty();
    assertThat(json).doesNotExist();
  }

  /** The yardstick itself, against the published pairs. */
  @Test
  void independentDifference_publishedPairs_asPublished() {
    for (double[] row :
        ReferenceTable.read(
            "ciede2000-sharma2005.csv", "pair,l1,a1,b1,l2,a2,b2,de00".split(",", -1))) {
      assertThat(
              IndependentDifference.de00(
                  new double[] {row[1], row[2], row[3]}, new double[] {row[4], row[5], row[6]}))
          .isCloseTo(row[7], within(0.00005));
    }
  }

  private static int index(String id) {
    int number = Integer.parseInt(id.substring(1)) - 1;
    return id.startsWith("J") ? number : JOB + number;
  }

  private static Sheet places(Sheet sheet) {
    List<String> cells = new ArrayList<>();
    for (int i = 0; i < PATCHES; i++) {
      cells.add("A" + (i + 1));
    }
    return sheet.column("SAMPLE_LOC", cells);
  }

  /** Other metrics, densities, remarks with blanks and holes beside the values that count. */
  private static Sheet noise() {
    Sheet sheet = WRITER.ids("SAMPLE_ID");
    sheet.column("REMARK", Collections.nCopies(PATCHES, ""));
    sheet.column("LAB_C", Collections.nCopies(PATCHES, "n/a"));
    sheet.column("D_RED", Collections.nCopies(PATCHES, "0.55"));
    WRITER.lab(sheet);
    sheet.column("LAB_DE", Collections.nCopies(PATCHES, "---"));
    sheet.column("STDEV_L", Collections.nCopies(PATCHES, "0.1"));
    sheet.column("WHO", Collections.nCopies(PATCHES, "one of us"));
    return sheet;
  }

  private static String commented(String plain) {
    return plain
        .replace("CGATS.17\n", "# made by a test\n")
        .replace("SETS " + PATCHES, "SETS 99")
        .replace("FIELDS 4", "FIELDS 5 # not so")
        .replace("BEGIN_DATA\n", "BEGIN_DATA # here\n# between\n")
        .replace("\nJ02", " # first\nJ02");
  }

  private static String wrapped(String plain) {
    return plain
        .replace("SAMPLE_ID LAB_L LAB_A LAB_B", "SAMPLE_ID\nLAB_L\nLAB_A\nLAB_B")
        .replaceAll("\n([JS]\\d\\d \\S+) ", "\n$1\n   ");
  }

  private static String quoted(String text) {
    StringBuilder quoted = new StringBuilder();
    for (String line : text.strip().split("\n", -1)) {
      quoted.append('"').append(line.replace("\"", "\"\"")).append("\"\n");
    }
    return quoted.toString();
  }

  private static String condition(String word, double offset) {
    return WRITER
        .lab(WRITER.ids("SAMPLE_ID"), offset, "%.4f")
        .before("CGATS.17\nMEASUREMENT_CONDITION \"" + word + "\"\n")
        .text();
  }

  /** The same ids, colours that this strip has nowhere. */
  private static String other() {
    List<Read> others = new ArrayList<>();
    for (int i = 0; i < PATCHES; i++) {
      Read read = READS.get(i);
      double[] lab = READS.get((5 * i + 4) % PATCHES).lab();
      others.add(
          new Read(
              read.id(),
              read.cmyk(),
              read.reflectance(),
              new double[] {100 - lab[0], -lab[2], lab[1]}));
    }
    DialectWriter writer = new DialectWriter(others);
    return writer.lab(writer.ids("SAMPLE_ID")).text();
  }

  private static String entity(String cxf, String what) {
    return cxf.replace("?>\n", "?>\n<!DOCTYPE CxF [<!ENTITY e " + what + ">]>\n")
        .replace("a test", "&e;");
  }

  private static Arguments spectra(String column, int from, int to, int step, double scale) {
    return of(
        column + " from " + from + " to " + to + " by " + step + " to " + scale,
        WRITER.spectra(WRITER.ids("SAMPLE_ID"), column, from, to, step, scale).text());
  }

  private static Arguments utf16(String name, String text, Charset charset) {
    return Arguments.of(name, ("\uFEFF" + text).getBytes(charset));
  }

  private static Arguments of(String name, String text) {
    return Arguments.of(name, utf8(text));
  }

  private static Arguments of(String name, String text, String place) {
    return Arguments.of(name, utf8(text), place);
  }

  private Path written(byte[] bytes) throws IOException {
    return Files.write(folder.resolve("m.txt"), bytes);
  }

  private Path strips() throws IOException {
    StripFixture fixture = StripFixture.empty();
    for (int i = 0; i < PATCHES; i++) {
      double[] aim = aim(i);
      double[] cmyk = READS.get(i).cmyk();
      Map<String, Double> inks = new TreeMap<>();
      for (int ink = 0; ink < 4; ink++) {
        inks.put(List.of("Cyan", "Magenta", "Yellow", "Black").get(ink), cmyk[ink]);
      }
      inks.values().removeIf(percent -> percent == 0);
      Lab lab = new Lab(aim[0], aim[1], aim[2]);
      if (i < JOB) {
        fixture.job("flat", inks, lab, "condition", 100.0 / JOB);
      } else {
        fixture.standard("tertiary", inks, lab);
      }
    }
    return Files.writeString(
        folder.resolve("flyer.strips.json"),
        StripsJson.write(StripFixture.file(fixture.build(STRIP, 1)), List.of()));
  }

  private int run(Object... arguments) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    String[] words = Stream.of(arguments).map(Object::toString).toArray(String[]::new);
    try (PrintWriter o = new PrintWriter(out);
        PrintWriter e = new PrintWriter(err)) {
      return Main.run(words, o, e);
    }
  }
}
