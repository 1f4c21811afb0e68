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
import selvage.cgats.CgatsReader;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;

class MeasurementReaderTest {
  @Test
  void read_lab_asInTheFile() throws InputException {
    Measurement measurement =
        one(table("SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B", "7 x 46.1 -3 28"));
    Reading reading = measurement.readings().get(0);
    assertThat(reading.id()).isEqualTo("7");
    assertThat(reading.name()).isEqualTo("x");
    assertThat(reading.lab()).isEqualTo(new Lab(46.1, -3, 28));
    assertThat(reading.line()).isEqualTo(6);
    assertThat(measurement.labOrigin()).isEqualTo(Measurement.LabOrigin.LAB);
  }

  /** Nodes of FOGRA39 as published: XYZ and the Lab beside them (both rounded to 0.01). */
  @ParameterizedTest
  @CsvSource({
    "84.48, 87.62, 74.57, 95.00, 0.00, -2.00",
    "33.03, 16.79, 15.01, 48.00, 74.00, -3.00",
    "28.99, 24.69, 34.20, 56.77, 21.28, -23.66"
  })
  void read_xyz_labOfPublishedData(double x, double y, double z, double l, double a, double b)
      throws InputException {
    for (double scale : new double[] {1, 0.01}) {
      String row = "1 " + x * scale + " " + y * scale + " " + z * scale;
      String paper = "2 " + 84.48 * scale + " " + 87.62 * scale + " " + 74.57 * scale;
      Measurement measurement = one(table("SampleID XYZ_X XYZ_Y XYZ_Z", row, paper));
      Lab lab = measurement.readings().get(0).lab();
      assertThat(lab.l()).isCloseTo(l, within(0.02));
      assertThat(lab.a()).isCloseTo(a, within(0.05));
      assertThat(lab.b()).isCloseTo(b, within(0.05));
      assertThat(codes(measurement).contains("xyz-from-0-to-1")).isEqualTo(scale < 1);
    }
  }

  @Test
  void read_labAndXyzOfOtherWhite_labTakenWithWarning() throws InputException {
    String columns = "SAMPLE_ID XYZ_X XYZ_Y XYZ_Z LAB_L LAB_A LAB_B";
    assertThat(codes(one(table(columns, "1 84.48 87.62 74.57 95.00 0.00 -2.00"))))
        .doesNotContain("lab-and-xyz-differ");
    Measurement relative = one(table(columns, "1 84.48 87.62 74.57 100 0 0"));
    assertThat(codes(relative)).contains("lab-and-xyz-differ");
    assertThat(relative.readings().get(0).lab().l()).isEqualTo(100);
  }

  @ParameterizedTest
  @CsvSource({
    "LAB_L, n/a",
    "LAB_L, -5",
    "LAB_L, 111",
    "LAB_A, 250",
    "LAB_B, --",
  })
  void read_valueMissingOrOutOfRange_refusedWithPlace(String column, String value) {
    String row = "1 50 10 20".replace(column.equals("LAB_L") ? "50" : "none", value);
    row = row.replace(column.equals("LAB_A") ? "10" : "none", value);
    String last = row.replace(column.equals("LAB_B") ? "20" : "none", value);
    assertThatThrownBy(() -> one(table("SAMPLE_ID LAB_L LAB_A LAB_B", last)))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("m.txt:6: " + column + ": expected a number")
        .hasMessageContaining("\"" + value + "\"");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "SPECTRAL_NM380 SPECTRAL_NM390",
        "SPECTRAL_380 SPECTRAL_390",
        "SPEC_380 SPEC_390",
        "nm380 nm390",
        "380_NM 390_NM",
        "R_380 R_390"
      })
  void read_spectraTooShort_refusedPlainly(String columns) {
    assertThatThrownBy(() -> one(table("SAMPLE_ID " + columns, "1 0.1 0.2")))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("m.txt:3:")
        .hasMessageContaining("spectra from 400 to 700 nm");
  }

  @Test
  void read_noColors_refused() {
    assertThatThrownBy(() -> one(table("SAMPLE_ID D_RED", "1 0.1")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected columns LAB_L LAB_A LAB_B, XYZ_X XYZ_Y XYZ_Z");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "ILLUMINANT \"D65\"",
        "WEIGHTING_FUNCTION \"ILLUMINANT, D65\"",
        "WEIGHTING_FUNCTION \"OBSERVER, 10 degree\"",
        "OBSERVER \"10\"",
        "MEASUREMENT_SOURCE \"Illuminant=D65 ObserverAngle=2\"",
        "MEASUREMENT_SOURCE \"Illuminant=D50 ObserverAngle=10\"",
      })
  void read_otherIlluminantOrObserver_refused(String header) {
    assertThatThrownBy(() -> one(header + "\n" + table("LAB_L LAB_A LAB_B", "1 2 3")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("expected colours for D50 and the 2° observer");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "MEASUREMENT_SOURCE \"Illuminant=D50 ObserverAngle=2 Filter=M1\" | M1",
        "FILTER \"M0\" | M0",
        "FILTER \"UV-cut\" | M2",
        "FILTER \"none\" | none",
        "MEASUREMENT_CONDITION \"M2\" | M2",
        "POLARIZATION \"yes\" | M3",
        "POLARIZATION \"none\" | none",
        "POLARIZATION \"no\" | none",
        "FILTER \"Pol\" | M3",
        "FILTER \"M3 (polarized)\" | M3",
        "INSTRUMENTATION \"D50, 2 degree, geometry 45/0, no polarisation filter\" | none",
        "INSTRUMENTATION \"measures M0, M1, M2\" | none",
        "MEASUREMENT_SOURCE \"D50, unpolarized\" | none"
      })
  void read_condition_asTheHeaderSays(String header, String expected) throws InputException {
    Measurement measurement = one(header + "\n" + table("LAB_L LAB_A LAB_B", "1 2 3"));
    assertThat(measurement.condition().illumination().orElse("none")).isEqualTo(expected);
  }

  @Test
  void read_nothingStated_noted() throws InputException {
    assertThat(codes(one(table("LAB_L LAB_A LAB_B", "1 2 3"))))
        .contains("measurement-condition-not-stated");
    Measurement full =
        one(
            "MEASUREMENT_CONDITION \"M1\"\nSAMPLE_BACKING \"White backing\"\n"
                + table("LAB_L LAB_A LAB_B", "1 2 3"));
    assertThat(codes(full)).doesNotContain("measurement-condition-not-stated");
    assertThat(full.condition().describe()).isEqualTo("M1, white backing");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ORIGINATOR \"virtual, SIMULATED\" | true",
        "SIMULATED \"yes\" | true",
        "SIMULATED \"no\" | false",
        "PRINT_CONDITIONS \"proof, simulated condition FOGRA39\" | false"
      })
  void read_simulated_recognized(String header, boolean simulated) throws InputException {
    Measurement measurement = one(header + "\n" + table("LAB_L LAB_A LAB_B", "1 2 3"));
    assertThat(measurement.simulated()).isEqualTo(simulated);
    assertThat(codes(measurement).contains("simulated-measurement")).isEqualTo(simulated);
  }

  @Test
  void read_tints_scaledAndNamed() throws InputException {
    Measurement measurement =
        one(
            "SPOT_1_NAME \"Dune Red\"\n"
                + table(
                    "SAMPLE_ID CMYK_C CMYK_M CMYK_Y CMYK_K SPOT_1 ROLE LAB_L LAB_A LAB_B",
                    "1 1 0 0.4 0 0.5 a 1 2 3"));
    assertThat(measurement.readings().get(0).tints())
        .containsOnlyKeys("Cyan", "Magenta", "Yellow", "Black", "Dune Red")
        .containsEntry("Yellow", 40.0)
        .containsEntry("Dune Red", 50.0);
    assertThat(codes(measurement)).contains("cmyk-from-0-to-1");
  }

  @Test
  void read_severalTables_oneMeasurementEach() throws InputException {
    String colors = "CGATS.17\n" + table("SAMPLE_ID LAB_L LAB_A LAB_B", "1 1 2 3");
    List<Measurement> all =
        MeasurementReader.of(
            CgatsReader.parse(
                "m.txt",
                (colors + "CGATS.17\n" + table("SAMPLE_ID D_RED", "1 0.5") + colors)
                    .getBytes(StandardCharsets.UTF_8)));
    assertThat(all)
        .extracting(Measurement::source)
        .containsExactly("m.txt, table 1", "m.txt, table 3");
    assertThat(codes(all.get(0))).contains("tables-without-colors");
  }

  private static String table(String columns, String... rows) {
    return "BEGIN_DATA_FORMAT\n\n"
        + columns
        + "\nEND_DATA_FORMAT\nBEGIN_DATA\n"
        + String.join("\n", rows)
        + "\nEND_DATA\n";
  }

  private static Measurement one(String text) throws InputException {
    return MeasurementReader.of(CgatsReader.parse("m.txt", text.getBytes(StandardCharsets.UTF_8)))
        .get(0);
  }

  private static List<String> codes(Measurement measurement) {
    return measurement.findings().stream().map(Finding::code).toList();
  }
}
