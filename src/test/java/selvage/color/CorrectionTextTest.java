package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import selvage.cgats.CgatsReader;
import selvage.finding.InputException;
import selvage.ink.Colorant;
import selvage.ink.InkMixture;

class CorrectionTextTest {
  private static final List<Double> NONE = List.of(0.0, 0.0, 0.0, 0.0);
  private static final Correction CORRECTION =
      new Correction(
          List.of(
              new Correction.Curve(
                  Colorant.CYAN,
                  List.of(
                      new Correction.Point(0, 0, NONE),
                      new Correction.Point(50, 44, NONE),
                      new Correction.Point(100, 98, List.of(0.0, 0.0, 0.0, 2.0)))),
              new Correction.Curve(
                  Colorant.named("Dune Red"),
                  List.of(new Correction.Point(0, 0, NONE), new Correction.Point(100, 90, NONE)))),
          Map.of(
              InkMixture.ofPercents(Map.of("Dune Red", 100.0)),
              InkMixture.ofPercents(Map.of("Dune Red", 92.5, "Magenta", 4.25))),
          300);

  @Test
  void read_whatWasWritten_theSame() throws InputException {
    Correction read = read(CorrectionText.write(CORRECTION, List.of("a test")));
    assertThat(read).isEqualTo(CORRECTION);
  }

  @Test
  void of_tintsBetweenPoints_straightLinesAndAddedInk() {
    double[] sent = CORRECTION.of(InkMixture.cmyk(75, 10, 0, 0)).cmyk();
    assertThat(sent[0]).isCloseTo(71, within(0.01));
    assertThat(sent[1]).isCloseTo(10, within(0.01));
    assertThat(sent[3]).isCloseTo(1, within(0.01));
    assertThat(CORRECTION.of(InkMixture.PAPER)).isEqualTo(InkMixture.PAPER);
    assertThat(CORRECTION.of(InkMixture.ofPercents(Map.of("Dune Red", 50.0))))
        .isEqualTo(InkMixture.ofPercents(Map.of("Dune Red", 45.0)));
    assertThat(CORRECTION.of(InkMixture.ofPercents(Map.of("Dune Red", 100.0))).toString())
        .isEqualTo("Magenta 4.3 + Dune Red 92.5");
  }

  @Test
  void limited_moreThanTheLimit_scaledDown() {
    InkMixture limited =
        Correction.limited(
            Map.of(Colorant.CYAN, 120.0, Colorant.BLACK, 100.0, Colorant.YELLOW, 50.0), 200);
    assertThat(limited.totalPercent()).isCloseTo(200, within(0.01));
    assertThat(limited.percent(Colorant.CYAN)).isCloseTo(80, within(0.01));
  }

  @ParameterizedTest
  @CsvSource({
    "CORRECTED, CORRECTE, CORRECTED",
    "98.00, 198.00, 198",
    "98.00, n/a, n/a",
    "100.00\t98.00, 40.00\t98.00, a curve goes",
    "300.0, 30.0, ink limit"
  })
  void read_spoilt_refusedWithThePlace(String good, String bad, String named) {
    String text = CorrectionText.write(CORRECTION, List.of()).replace(good, bad);
    assertThatThrownBy(() -> read(text))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("fix.txt")
        .hasMessageContaining(named);
  }

  private static Correction read(String text) throws InputException {
    return CorrectionText.of(CgatsReader.parse("fix.txt", text.getBytes(StandardCharsets.UTF_8)));
  }
}
