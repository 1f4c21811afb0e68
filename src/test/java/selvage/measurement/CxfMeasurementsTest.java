package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.measurement.Measurement.LabOrigin;

/** CxF3 documents in few objects: which are readings, what they are called, whose colour counts. */
class CxfMeasurementsTest {
  private static final String LAB = "<ColorCIELab><L>50</L><A>10</A><B>-20</B></ColorCIELab>";
  private static final String CMYK =
      "<DeviceColorValues><ColorCMYK><Cyan>40</Cyan><Magenta>30</Magenta><Yellow>0</Yellow>"
          + "<Black>5</Black></ColorCMYK></DeviceColorValues>";

  @ParameterizedTest
  @ValueSource(strings = {"Target", "M1_Target", "Standard", "reference"})
  void parse_targetsBesideReadings_onlyTellWhatWasPrinted(String type) throws InputException {
    Measurement found =
        one(
            object(type, "A1", "t1", LAB, CMYK)
                + object("Measurement", "A1", "m1", LAB.replace("50", "51"), ""));
    assertThat(found.readings()).hasSize(1);
    assertThat(found.readings().get(0).lab()).isEqualTo(new Lab(51, 10, -20));
    assertThat(found.readings().get(0).tints())
        .containsEntry("Cyan", 40.0)
        .containsEntry("Magenta", 30.0)
        .containsEntry("Black", 5.0);
    assertThat(found.readings().get(0).name()).isEqualTo("A1");
    assertThat(codes(found)).doesNotContain("targets-taken-as-readings");
  }

  @Test
  void parse_locationTags_pairBeforeNames() throws InputException {
    String first = tagged("Location", "1");
    String second = tagged("Location", "2");
    Measurement found =
        one(
            object("Target", "b", "t1", "", CMYK + first)
                + object("Target", "a", "t2", "", CMYK.replace("40", "70") + second)
                + object("Measurement", "a", "m1", LAB, first));
    assertThat(found.readings().get(0).tints()).containsEntry("Cyan", 40.0);
  }

  @Test
  void parse_targetsAlone_takenAndSaid() throws InputException {
    Measurement found = one(object("Target", "A1", "t1", LAB, ""));
    assertThat(found.readings()).hasSize(1);
    assertThat(codes(found)).contains("targets-taken-as-readings");
  }

  @Test
  void parse_ownTints_beforeThoseOfTheSamePlace() throws InputException {
    Measurement found =
        one(
            object("Target", "A1", "t", "", CMYK)
                + object("Measurement", "A1", "m", LAB, CMYK.replace("40", "41")));
    assertThat(found.readings().get(0).tints()).containsEntry("Cyan", 41.0);
  }

  @Test
  void parse_idsAndStripFromTags_elseTheObjectsOwn() throws InputException {
    Measurement found =
        one(
            object("Measurement", "n1", "c1", LAB, tagged("SAMPLE_ID", "J01"))
                + object("Measurement", "n2", "c2", LAB, tagged("STRIP_ID", "KM7T-90QA")));
    assertThat(found.readings()).extracting(Reading::id).containsExactly("J01", "c2");
    assertThat(found.readings()).extracting(Reading::line).containsExactly(2, 3);
    assertThat(found.header()).containsEntry("STRIP_ID", "KM7T-90QA");
  }

  @Test
  void parse_severalConditions_aMeasurementEach() throws InputException {
    List<Measurement> found =
        parsed(
            object("M0_Measurement", "A", "1", LAB, "")
                + object("M2_Measurement", "A", "2", LAB.replace("50", "52"), ""),
            "");
    assertThat(found).extracting(Measurement::source).containsExactly("m.cxf, M0", "m.cxf, M2");
    assertThat(found.get(1).readings().get(0).lab().l()).isEqualTo(52);
    assertThat(found.get(0).condition().illumination()).contains("M0");
  }

  /** Lab before XYZ before spectra, but not the colours of another light. */
  @Test
  void parse_severalColors_theFirstForD50() throws InputException {
    String xyz =
        "<ColorCIEXYZ ColorSpecification=\"d50\"><X>9.6422</X><Y>10</Y><Z>8.2521</Z></ColorCIEXYZ>";
    String other =
        LAB.replace("Lab>", "Lab ColorSpecification=\"d65\">")
            .replace("</ColorCIELab ColorSpecification=\"d65\">", "</ColorCIELab>");
    String own = other.replace("d65", "d50");
    String specifications = specification("d50", "D50") + specification("d65", "D65");
    Measurement byXyz = parsed(object("M", "A", "1", other + xyz, ""), specifications).get(0);
    assertThat(byXyz.labOrigin()).isEqualTo(LabOrigin.XYZ);
    // L* of Y = 10: 116·0.1^(1/3) − 16
    assertThat(byXyz.readings().get(0).lab().l()).isCloseTo(37.8424, within(1e-3));
    assertThat(byXyz.readings().get(0).lab().a()).isCloseTo(0, within(1e-9));
    assertThat(byXyz.labMethod()).isEqualTo(LabOrigin.XYZ.method());
    Measurement byLab = parsed(object("M", "A", "1", xyz + own, ""), specifications).get(0);
    assertThat(byLab.labOrigin()).isEqualTo(LabOrigin.LAB);
    assertThat(byLab.readings().get(0).lab().l()).isEqualTo(50);
    assertThatThrownBy(() -> parsed(object("M", "A", "1", other, ""), specifications))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected colours for D50");
  }

  /** A document with one specification means that one, one with two needs to be told. */
  @Test
  void parse_specificationNotNamed_theOnlyOneCounts() throws InputException {
    assertThatThrownBy(
            () -> parsed(object("M", "A", "1", LAB, ""), specification("s", "D65")).get(0))
        .isInstanceOf(InputException.class);
    assertThat(
            parsed(
                object("M", "A", "1", LAB, ""),
                specification("s", "D65") + specification("t", "D50")))
        .hasSize(1);
  }

  @ParameterizedTest
  @CsvSource({
    "<L>50</L>,<L>110</L>,true",
    "<L>50</L>,<L>110.1</L>,false",
    "<L>50</L>,<L>-1</L>,true",
    "<L>50</L>,<L>-1.1</L>,false",
    "<A>10</A>,<A>200</A>,true",
    "<A>10</A>,<A>201</A>,false",
    "<B>-20</B>,<B>-201</B>,false"
  })
  void parse_labOutOfRange_refusedWithPlace(String before, String after, boolean taken)
      throws InputException {
    String text = object("M", "A", "1", LAB.replace(before, after), "");
    if (taken) {
      assertThat(one(text).readings()).hasSize(1);
    } else {
      String field = after.substring(1, 2);
      assertThatThrownBy(() -> one(text))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("m.cxf:2: " + field + ": expected a number from ")
          .hasMessageContaining(field.equals("L") ? "-1 to 110" : "-128 to 200");
    }
  }

  @Test
  void parse_xyzToOneAndOutOfRange_scaledOrRefused() throws InputException {
    String xyz = "<ColorCIEXYZ><X>0.48211</X><Y>0.5</Y><Z>0.412605</Z></ColorCIEXYZ>";
    Measurement found = one(object("M", "A", "1", xyz, ""));
    // L* of Y = 50: 116·0.5^(1/3) − 16
    assertThat(found.readings().get(0).lab().l()).isCloseTo(76.0693, within(1e-3));
    assertThat(found.readings().get(0).lab().b()).isCloseTo(0, within(1e-9));
    assertThat(codes(found)).contains("xyz-from-0-to-1");
    assertThatThrownBy(() -> one(object("M", "A", "1", xyz.replace("0.5<", "131<"), "")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("m.cxf:2: Y: expected a number from 0 to 130, found 131.0");
    assertThatThrownBy(() -> one(object("M", "A", "1", xyz.replace("0.5<", "-0.5<"), "")))
        .isInstanceOf(InputException.class);
  }

  @Test
  void parse_tintOutOfRange_refused() {
    assertThatThrownBy(() -> one(object("M", "A", "1", LAB, CMYK.replace("40", "101"))))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("m.cxf:2: Cyan: expected a number from 0 to 100, found 101.0");
  }

  @Test
  void parse_stepNotStated_guessedOrRefused() throws InputException {
    String values = "0.5 ".repeat(36);
    String spectrum = "<ReflectanceSpectrum StartWL=\"380\">" + values + "</ReflectanceSpectrum>";
    Measurement found = one(object("M", "A", "1", spectrum, ""));
    assertThat(codes(found)).contains("spectral-step-guessed");
    assertThat(found.findings().toString())
        .contains("m.cxf:2:", "36 values from 380 nm", "10.00 nm");
    assertThat(found.readings().get(0).lab().l()).isCloseTo(76.0693, within(1e-3));
    assertThat(found.labOrigin()).isEqualTo(LabOrigin.SPECTRA);
    Measurement percent = one(object("M", "A", "1", spectrum.replace("0.5", "50"), ""));
    assertThat(codes(percent)).contains("spectra-from-0-to-100");
    assertThat(percent.readings().get(0).lab().l()).isCloseTo(76.0693, within(1e-3));
    Measurement halved =
        one(object("M", "A", "1", spectrum.replace(values, "0.5 ".repeat(18)), ""));
    assertThat(halved.findings().toString()).contains("20.00 nm apart");
    for (String wrong : List.of("0.5 ".repeat(7), "7 ".repeat(36), "0.5 ".repeat(35) + "-0.1")) {
      assertThatThrownBy(() -> one(object("M", "A", "1", spectrum.replace(values, wrong), "")))
          .isInstanceOf(InputException.class)
          .hasMessageContaining("m.cxf:2: ReflectanceSpectrum: ");
    }
  }

  private static List<String> codes(Measurement measurement) {
    return measurement.findings().stream().map(Finding::code).toList();
  }

  private static String tagged(String name, String value) {
    return "<TagCollection><Tag Name=\"" + name + "\" Value=\"" + value + "\"/></TagCollection>";
  }

  private static String specification(String id, String illuminant) {
    return "<ColorSpecification Id=\""
        + id
        + "\"><TristimulusSpec><Illuminant>"
        + illuminant
        + "</Illuminant><Observer>2_Degree</Observer></TristimulusSpec></ColorSpecification>";
  }

  private static String object(String type, String name, String id, String colors, String more) {
    return "<Object ObjectType=\""
        + type
        + "\" Name=\""
        + name
        + "\" Id=\""
        + id
        + "\">"
        + (colors.isEmpty() ? "" : "<ColorValues>" + colors + "</ColorValues>")
        + more
        + "</Object>\n";
  }

  private static Measurement one(String objects) throws InputException {
    List<Measurement> found = parsed(objects, "");
    assertThat(found).hasSize(1);
    assertThat(found.get(0).source()).isEqualTo("m.cxf");
    return found.get(0);
  }

  private static List<Measurement> parsed(String objects, String specifications)
      throws InputException {
    String text =
        "<CxF><Resources><ObjectCollection>\n"
            + objects
            + "</ObjectCollection><ColorSpecificationCollection>"
            + specifications
            + "</ColorSpecificationCollection></Resources></CxF>";
    return MeasurementReader.parse("m.cxf", text.getBytes(StandardCharsets.UTF_8));
  }
}
