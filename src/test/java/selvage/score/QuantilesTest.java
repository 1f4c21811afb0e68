package selvage.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantilesTest {
  private final Quantiles quantiles = new Quantiles();

  /** Upper 2.5 % and 0.1 % points of Student's t, as tables print them; F of 1 and n is t². */
  @ParameterizedTest
  @CsvSource({
    "1, 12.706, 318.309",
    "5, 2.571, 5.893",
    "10, 2.228, 4.144",
    "30, 2.042, 3.385",
    "120, 1.980, 3.160"
  })
  void t_tabledDegrees_printedValues(int free, double t, double tOfOneInThousand) {
    assertThat(quantiles.t(free)).isCloseTo(t, within(0.0006));
    assertThat(Math.sqrt(quantiles.f(1, free))).isCloseTo(tOfOneInThousand, within(0.0006));
  }

  /** With 2 and n degrees of freedom F has a closed form: n/2 · (p^(−2/n) − 1). */
  @Test
  void f_twoDegrees_closedForm() {
    for (int free : new int[] {4, 10, 60}) {
      double closed = free / 2.0 * (Math.pow(0.002, -2.0 / free) - 1);
      assertThat(quantiles.f(2, free)).isCloseTo(closed, within(1e-5 * closed));
    }
  }
}
