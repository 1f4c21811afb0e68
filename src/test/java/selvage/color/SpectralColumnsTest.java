package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import selvage.cgats.CgatsReader;
import selvage.cgats.CgatsTable;
import selvage.finding.Finding;
import selvage.finding.InputException;

class SpectralColumnsTest {
  /** All met in public files. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "SPECTRAL_NM#",
        "SPECTRAL_NM_#",
        "SPECTRAL_#",
        "SPEC_#",
        "NM#",
        "nm#",
        "nm_#",
        "#_NM",
        "#nm",
        "R_#",
        "R#",
        "#",
        "SPECTRAL_PCT#",
        "SPECTRAL_DEC_#",
        "SPECTRAL#",
        "SPEC#",
        "#.0"
      })
  void of_everySpelling_valuesByWavelength(String name) throws InputException {
    SpectralColumns columns =
        SpectralColumns.of(table(nm -> name.replace("#", "" + nm), nm -> "" + nm / 1000.0))
            .orElseThrow();
    double[][] values = columns.reflectances(new ArrayList<>());
    assertThat(values).hasDimensions(1, 31);
    for (int i = 0; i < 31; i++) {
      assertThat(values[0][i]).isCloseTo((400 + 10 * i) / 1000.0, within(1e-12));
    }
    assertThat(columns.weights().method()).contains("400 to 700 nm, 31 values");
    assertThat(SpectralColumns.isSpectral(name.replace("#", "380"))).isTrue();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "LAB_L",
        "SAMPLE_ID",
        "R_G",
        "D_RED",
        "NM",
        "100",
        "3000",
        "CMYK_C",
        "4005.5.1",
        "12345678901234",
        "R_40",
        "400."
      })
  void isSpectral_otherColumn_no(String name) {
    assertThat(SpectralColumns.isSpectral(name)).isFalse();
  }

  /** From 200 to 2,500 nm a number is a wavelength. */
  @ParameterizedTest
  @CsvSource({"200,true", "199,false", "2500,true", "2501,false"})
  void isSpectral_numberInAndOutOfRange(String name, boolean spectral) {
    assertThat(SpectralColumns.isSpectral(name)).isEqualTo(spectral);
  }

  @Test
  void of_tableWithoutSpectra_empty() throws InputException {
    CgatsTable table = parsed("SAMPLE_ID LAB_L R_400 R_500 R_600", "1 50 0.1 0.2 0.3");
    assertThat(SpectralColumns.of(table)).isEmpty();
  }

  @Test
  void of_pairs_wavelengthsFromTheirCells() throws InputException {
    StringBuilder names = new StringBuilder("SAMPLE_ID");
    StringBuilder cells = new StringBuilder("1");
    for (int nm = 400; nm <= 700; nm += 20) {
      names.append(" SPECTRAL_NM SPECTRAL_PCT");
      cells.append(" " + nm + " " + nm / 10.0);
    }
    SpectralColumns columns =
        SpectralColumns.of(parsed(names.toString(), cells.toString())).orElseThrow();
    double[][] values = columns.reflectances(new ArrayList<>());
    assertThat(values[0]).hasSize(16);
    assertThat(values[0][0]).isCloseTo(0.4, within(1e-12));
    assertThat(values[0][15]).isCloseTo(0.7, within(1e-12));
    assertThat(columns.weights().method()).contains("400 to 700 nm, 16 values");
    String other = cells.toString().replaceFirst(" 420 ", " 425 ");
    assertThatThrownBy(
            () ->
                SpectralColumns.of(
                    parsed(names.toString(), cells + "\n" + other.replaceFirst("1", "2"))))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("t.txt:6: SPECTRAL_NM: expected the wavelengths of the first row")
        .hasMessageContaining("found 425 nm");
  }

  @ParameterizedTest
  @CsvSource({"0.9,1", "1.4,1", "15,100", "90,100"})
  void reflectances_scaleByTheLightest_saidInAFinding(double value, int top) throws InputException {
    List<Finding> findings = new ArrayList<>();
    double[][] values =
        SpectralColumns.of(table(nm -> "NM" + nm, nm -> nm == 550 ? "" + value : "0.01"))
            .orElseThrow()
            .reflectances(findings);
    assertThat(values[0][15]).isCloseTo(value / top, within(1e-12));
    assertThat(values[0][0]).isCloseTo(0.01 / top, within(1e-12));
    assertThat(findings).extracting(Finding::code).containsExactly("spectra-from-0-to-" + top);
    assertThat(findings.get(0).text()).contains("t.txt:5:", "0 to " + top + ",");
  }

  @ParameterizedTest
  @CsvSource({
    "7,t.txt:5: NM400: expected spectra from 0 to 1 or from 0 to 100",
    "-0.03,t.txt:5: NM550: expected a reflectance from 0 to 1",
    "201,t.txt:5: NM550: expected a reflectance from 0 to 100",
    "x,t.txt:5: NM550: expected a number"
  })
  void reflectances_impossibleValue_refusedWithItsPlace(String value, String message)
      throws InputException {
    SpectralColumns columns =
        SpectralColumns.of(table(nm -> "NM" + nm, nm -> nm == 550 ? value : "0.5")).orElseThrow();
    assertThatThrownBy(() -> columns.reflectances(new ArrayList<>()))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(message);
  }

  @Test
  void of_rangeThatDoesNotDo_refusedNamingIt() {
    assertThatThrownBy(
            () -> SpectralColumns.of(parsed("ID NM420 NM430 NM440 NM450", "1 0.1 0.1 0.1 0.1")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("t.txt:2: NM420")
        .hasMessageContaining("found 420 to 450 nm");
  }

  private static CgatsTable table(IntFunction<String> name, IntFunction<String> cell)
      throws InputException {
    StringBuilder names = new StringBuilder("SAMPLE_ID");
    StringBuilder cells = new StringBuilder("1");
    for (int nm = 400; nm <= 700; nm += 10) {
      names.append(' ').append(name.apply(nm));
      cells.append(' ').append(cell.apply(nm));
    }
    return parsed(names.toString(), cells.toString());
  }

  private static CgatsTable parsed(String names, String rows) throws InputException {
    return CgatsReader.parse(
            "t.txt",
            ("BEGIN_DATA_FORMAT\n"
                    + names
                    + "\nEND_DATA_FORMAT\nBEGIN_DATA\n"
                    + rows
                    + "\nEND_DATA\n")
                .getBytes(StandardCharsets.UTF_8))
        .first();
  }
}
