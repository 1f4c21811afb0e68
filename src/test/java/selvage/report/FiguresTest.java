package selvage.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {
  @ParameterizedTest
  @CsvSource({"1.005, 2, 1.01", "-1.5, 1, −1.5", "-0.004, 2, 0.00", "12, 0, 12", "-0.0, 1, 0.0"})
  void fixed_number_decimalsAndTrueMinus(double value, int digits, String shown) {
    assertThat(Figures.fixed(value, digits)).isEqualTo(shown);
  }

  @ParameterizedTest
  @CsvSource({"0.5, +0.50", "-0.5, −0.50", "0.004, 0.00", "-0.004, 0.00", "0, 0.00"})
  void signed_number_signUnlessZero(double value, String shown) {
    assertThat(Figures.signed(value, 2)).isEqualTo(shown);
  }

  @Test
  void fixed_nothing_dash() {
    assertThat(Figures.fixed(OptionalDouble.empty(), 2)).isEqualTo("–");
  }
}
